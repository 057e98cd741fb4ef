#include "block_tree.h"

#include <algorithm>
#include <limits>
#include <set>
#include <utility>

namespace loomleaf {
namespace {

constexpr std::size_t kNone = std::numeric_limits<std::size_t>::max();

}  // namespace

BlockTree::BlockTree(const Circuit& circuit, const Ways& ways, const IndexedList<NodeOf, bool>& is_in)
    : circuit_(circuit), ways_(ways), vertex_of_(circuit.nodes.size(), kNone), places_(circuit.nodes.size(), kNone) {
  std::vector<std::size_t> firsts;
  for (const NodeId node : circuit_.nodes.ids())
    if (is_in[node] && vertex_of_[node] == kNone) {
      firsts.push_back(vertices_.size());
      walk_from(node, is_in);
    }
  form_blocks();
  for (const std::size_t first : firsts) place_part(first);
  count_links();
}

// Depth-first search (Hopcroft and Tarjan 1973).
void BlockTree::walk_from(NodeId start, const IndexedList<NodeOf, bool>& is_in) {
  struct Step {
    std::size_t vertex;
    std::optional<BranchId> came_by;
    std::size_t branch_at = 0;
  };
  const auto enter = [this](NodeId node, std::optional<std::size_t> parent) {
    const std::size_t vertex = vertices_.size();
    vertex_of_[node] = vertex;
    vertices_.push_back({node, parent.value_or(vertex), vertex, 0, {}, {}});
    return vertex;
  };
  std::vector<Step> steps{{enter(start, std::nullopt), std::nullopt}};
  while (!steps.empty()) {
    Step& step = steps.back();
    Vertex& at = vertices_[step.vertex];
    if (step.branch_at == circuit_.at[at.node].size()) {
      Vertex& before = vertices_[at.parent];
      before.low = std::min(before.low, at.low);
      steps.pop_back();
      continue;
    }
    const BranchId id = circuit_.at[at.node][step.branch_at++];
    const Branch& branch = circuit_.branches[id];
    const NodeId next = branch.a == at.node ? branch.b : branch.a;
    if (!is_in[next] || !conducts(circuit_, id, ways_) || id == step.came_by) continue;
    if (vertex_of_[next] != kNone)
      at.low = std::min(at.low, vertex_of_[next]);
    else
      steps.push_back({enter(next, step.vertex), id});
  }
}

void BlockTree::form_blocks() {
  for (std::size_t v = 0; v < vertices_.size(); ++v) {
    Vertex& vertex = vertices_[v];
    if (vertex.parent == v) continue;
    if (vertex.low >= vertex.parent) {
      vertices_[vertex.parent].blocks.push_back(blocks_.size());
      vertex.block = blocks_.size();
      blocks_.push_back({vertex.parent, {}, {}, {}, 0});
    } else {
      vertex.block = vertices_[vertex.parent].block;
    }
    blocks_[vertex.block].corners.push_back(v);
  }
}

// A node, then block by block whatever else hangs on it.
void BlockTree::place_part(std::size_t first) {
  struct Step {
    std::size_t vertex, block_at = 0, corner_at = 0;
  };
  const std::size_t start = placed_;
  std::vector<Step> steps;
  std::vector<std::size_t> blocks;
  const auto enter = [&](std::size_t vertex) {
    vertices_[vertex].hanging.first = placed_;
    places_[vertices_[vertex].node] = placed_++;
    steps.push_back({vertex});
  };
  enter(first);
  while (!steps.empty()) {
    Step& step = steps.back();
    Vertex& at = vertices_[step.vertex];
    if (step.block_at == at.blocks.size()) {
      at.hanging.last = placed_;
      steps.pop_back();
      continue;
    }
    Block& block = blocks_[at.blocks[step.block_at]];
    if (step.corner_at == 0) {
      blocks.push_back(at.blocks[step.block_at]);
      block.beyond.first = placed_;
    }
    if (step.corner_at == block.corners.size()) {
      block.beyond.last = placed_;
      ++step.block_at;
      step.corner_at = 0;
      continue;
    }
    enter(block.corners[step.corner_at++]);
  }
  for (const std::size_t block : blocks) blocks_[block].part = {start, placed_};
}

void BlockTree::count_links() {
  std::set<std::pair<std::size_t, std::size_t>> seen;
  for (const BranchId id : circuit_.branches.ids()) {
    const auto block = block_of(id);
    if (!block) continue;
    const Branch& branch = circuit_.branches[id];
    if (seen.insert(std::minmax({vertex_of_[branch.a], vertex_of_[branch.b]})).second) ++blocks_[*block].links;
  }
}

// That of the end that was visited later.
std::optional<std::size_t> BlockTree::block_of(BranchId id) const {
  const Branch& branch = circuit_.branches[id];
  if (branch.a == branch.b || vertex_of_[branch.a] == kNone || vertex_of_[branch.b] == kNone) return std::nullopt;
  if (!conducts(circuit_, id, ways_)) return std::nullopt;
  return vertices_[std::max(vertex_of_[branch.a], vertex_of_[branch.b])].block;
}

// As many links as corners, where no corner parts it: one way round.
bool BlockTree::is_plain_ring(std::size_t block) const {
  return corner_count(block) > 2 && blocks_[block].links == corner_count(block);
}

std::size_t BlockTree::corner_of(std::size_t block, NodeId node) const {
  const auto& [entry, corners, beyond, part, links] = blocks_[block];
  if (vertex_of_[node] == entry) return 0;
  return 1 + static_cast<std::size_t>(std::ranges::lower_bound(corners, vertex_of_[node]) - corners.begin());
}

WalkSpan BlockTree::span_of(const Block& block, std::size_t first, std::size_t last) const {
  return {vertices_[block.corners[first - 1]].hanging.first, vertices_[block.corners[last - 1]].hanging.last};
}

WalkRange BlockTree::hanging_at(std::size_t block, std::size_t first, std::size_t last) const {
  return first > 0 ? WalkRange{span_of(blocks_[block], first, last)}
                   : hanging_elsewhere(block, last + 1, corner_count(block) - 1);
}

WalkRange BlockTree::hanging_elsewhere(std::size_t block, std::size_t first, std::size_t last) const {
  const Block& of = blocks_[block];
  if (first > last) return {of.part};
  if (first > 0) return {of.part, span_of(of, first, last)};
  if (last + 1 == corner_count(block)) return {};
  return {span_of(of, last + 1, of.corners.size())};
}

}  // namespace loomleaf
