#include <algorithm>
#include <cmath>
#include <numeric>

#include "loomleaf/layout/layered.h"

namespace loomleaf {
namespace {

constexpr double tolerance = 1e-6;
constexpr int most_rounds = 64;  // of settling; what needs more than that is left with a bend

// One node keeps its distance below another in the same layer.
struct Below {
  std::size_t upper = 0, lower = 0;
  double distance = 0.0;
};

// Nodes that move together, since the lines between them are straight.
struct Blocks {
  std::vector<std::size_t> block;  // by node
  std::vector<double> offset;      // of a node from its block's height
  std::vector<std::vector<std::size_t>> members;
  std::vector<double> height;  // of a block

  double y(std::size_t node) const { return height[block[node]] + offset[node]; }

  // The smaller one goes into the greater, so that each node moves few times.
  void join(std::size_t a, std::size_t b, double b_from_a) {
    if (members[a].size() < members[b].size()) {
      std::swap(a, b);
      b_from_a = -b_from_a;
    }
    height[a] = std::max(height[a], height[b] - b_from_a);
    for (std::size_t node : members[b]) {
      block[node] = a;
      offset[node] += b_from_a;
      members[a].push_back(node);
    }
    members[b].clear();
  }
};

// Lowers what is too close below something else, until all is well. False: it cannot be, or not soon.
bool settle(Blocks& blocks, const std::vector<Below>& order) {
  for (int round = 0; round < most_rounds; ++round) {
    bool moved = false;
    for (const Below& pair : order) {
      const double short_by = blocks.y(pair.upper) + pair.distance - blocks.y(pair.lower);
      if (short_by < tolerance) continue;
      if (blocks.block[pair.upper] == blocks.block[pair.lower]) return false;
      blocks.height[blocks.block[pair.lower]] += short_by;
      moved = true;
    }
    if (!moved) return true;
  }
  return false;
}

}  // namespace

std::vector<double> assign_heights(const Ordering& ordering, const LayoutSpacing& spacing) {
  const std::size_t count = ordering.nodes.size();
  Blocks blocks;
  blocks.block.resize(count);
  std::iota(blocks.block.begin(), blocks.block.end(), std::size_t{0});
  blocks.offset.assign(count, 0.0);
  blocks.height.assign(count, 0.0);
  for (std::size_t node = 0; node < count; ++node) blocks.members.push_back({node});

  std::vector<Below> order;
  for (const auto& layer : ordering.layers) {
    if (!layer.empty()) blocks.height[layer.front()] = ordering.nodes[layer.front()].above;
    for (std::size_t i = 1; i < layer.size(); ++i) {
      const double distance = ordering.nodes[layer[i - 1]].below + spacing.row_gap + ordering.nodes[layer[i]].above;
      order.push_back({layer[i - 1], layer[i], distance});
    }
  }
  settle(blocks, order);

  // Long edges straight through first, then those that arrive at a box's own rail, then the rest.
  const auto rank = [&](const Segment& segment) {
    const bool passes = ordering.nodes[segment.from].kind == LayerNode::Kind::pass &&
                        ordering.nodes[segment.to].kind == LayerNode::Kind::pass;
    return passes ? 0 : segment.to_y == 0.0 && segment.from_y == 0.0 ? 1 : 2;
  };
  std::vector<const Segment*> wishes;
  for (const auto& channel : ordering.channels)
    for (std::size_t s : channel) wishes.push_back(&ordering.segments[s]);
  std::stable_sort(wishes.begin(), wishes.end(),
                   [&](const Segment* a, const Segment* b) { return rank(*a) < rank(*b); });
  for (const Segment* wish : wishes) {
    const std::size_t a = blocks.block[wish->from], b = blocks.block[wish->to];
    if (a == b) continue;
    // y(from) + from_y = y(to) + to_y
    const double b_from_a = blocks.offset[wish->from] + wish->from_y - blocks.offset[wish->to] - wish->to_y;
    Blocks trial = blocks;
    trial.join(a, b, b_from_a);
    if (settle(trial, order)) blocks = std::move(trial);
  }
  std::vector<double> heights;
  for (std::size_t node = 0; node < count; ++node) heights.push_back(blocks.y(node));
  return heights;
}

}  // namespace loomleaf
