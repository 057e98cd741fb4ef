#include "bridge_tree.h"

#include <utility>

#include "loomleaf/circuit/joined_sets.h"

namespace loomleaf {
namespace {

// Branches without which something is cut off from all roots.
std::vector<bool> find_bridges(const Circuit& circuit, const Ways& ways, const BridgeForest& parts,
                               const std::vector<NodeId>& roots) {
  std::vector<std::size_t> before(circuit.nodes.size() + 1, 0);  // roots before a position of the walk
  std::vector<bool> is_root(circuit.nodes.size(), false);
  for (const NodeId root : roots) is_root[parts.position(root)] = true;
  for (std::size_t i = 0; i < is_root.size(); ++i) before[i + 1] = before[i] + (is_root[i] ? 1 : 0);
  const auto roots_in = [&before](const WalkSpan& span) { return before[span.last] - before[span.first]; };

  std::vector<bool> is_bridge(circuit.branches.size(), false);
  for (const BranchId id : circuit.branches.ids()) {
    const std::optional<WalkSpan>& side = parts.side_of_bridge(id);
    if (!side || !conducts(circuit, id, ways)) continue;
    const std::size_t all = roots_in(parts.group(parts.group_of(circuit.branches[id].a))), there = roots_in(*side);
    is_bridge[id.value] = there == 0 || there == all;
  }
  return is_bridge;
}

}  // namespace

BridgeTree::BridgeTree(const Circuit& circuit, const Ways& ways, const BridgeForest& parts,
                       const std::vector<NodeId>& roots, const IndexedList<NodeOf, bool>& bars)
    : pieces_(1), piece_of_(circuit.nodes.size()) {
  if (roots.empty()) return;
  const std::vector<bool> is_bridge = find_bridges(circuit, ways, parts, roots);
  JoinedSets together(circuit.nodes.size());
  for (const NodeId root : roots) together.join(roots.front().value, root.value);
  for (const BranchId id : circuit.branches.ids())
    if (!is_bridge[id.value] && conducts(circuit, id, ways))
      together.join(circuit.branches[id].a.value, circuit.branches[id].b.value);
  std::size_t count = 0;
  const std::vector<std::size_t> number = together.numbered(count);

  std::vector<std::vector<BranchId>> at(count);
  for (const BranchId id : circuit.branches.ids())
    if (is_bridge[id.value])
      for (const NodeId end : {circuit.branches[id].a, circuit.branches[id].b}) at[number[end.value]].push_back(id);
  std::vector<std::size_t> place(count, count);
  std::vector<std::size_t> walk{number[roots.front().value]};
  place[walk.front()] = kRoot;
  for (std::size_t i = 0; i < walk.size(); ++i)
    for (const BranchId id : at[walk[i]]) {
      NodeId near = circuit.branches[id].a, far = circuit.branches[id].b;
      if (number[near.value] != walk[i]) std::swap(near, far);
      if (place[number[far.value]] != count) continue;
      place[number[far.value]] = walk.size();
      walk.push_back(number[far.value]);
      const Piece& parent = pieces_[i];
      const Piece& jump = pieces_[parent.jump];
      const bool is_long = parent.depth - jump.depth == jump.depth - pieces_[jump.jump].depth;
      pieces_.push_back({i, parent.depth + 1, is_long ? jump.jump : i, id, near});
    }
  for (const NodeId node : circuit.nodes.ids()) {
    const std::size_t piece = place[number[node.value]];
    if (piece == count) continue;
    piece_of_[node] = piece;
    if (bars[node]) pieces_[piece].has_bar = true;
  }
  for (std::size_t i = 0; i < pieces_.size(); ++i) pieces_[i].bars = bars_before(i) + (pieces_[i].has_bar ? 1 : 0);
}

std::size_t BridgeTree::meeting(std::size_t a, std::size_t b) const {
  if (pieces_[a].depth < pieces_[b].depth) std::swap(a, b);
  while (pieces_[a].depth > pieces_[b].depth)
    a = pieces_[pieces_[a].jump].depth >= pieces_[b].depth ? pieces_[a].jump : pieces_[a].parent;
  while (a != b) {
    const bool is_far = pieces_[a].jump != pieces_[b].jump;
    a = is_far ? pieces_[a].jump : pieces_[a].parent;
    b = is_far ? pieces_[b].jump : pieces_[b].parent;
  }
  return a;
}

std::size_t BridgeTree::behind_bars(std::size_t piece, std::size_t bars) const {
  while (bars_before(piece) > bars)
    piece = bars_before(pieces_[piece].jump) > bars ? pieces_[piece].jump : pieces_[piece].parent;
  return piece;
}

}  // namespace loomleaf
