// What hangs together through some of the branches, and which of these are the only link between two sides.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "loomleaf/circuit/circuit.h"

namespace loomleaf {

// Positions in a walk over the nodes: first, and one past the last.
struct WalkSpan {
  std::size_t first = 0, last = 0;
  bool contains(std::size_t position) const { return first <= position && position < last; }
  bool empty() const { return first == last; }
};

// Those within one span and out of another.
struct WalkRange {
  WalkSpan within, out_of{};
  bool contains(std::size_t position) const { return within.contains(position) && !out_of.contains(position); }
};

// One depth-first walk. Whatever hangs together stands together in it, and so does what lies beyond a bridge.
class BridgeForest {
 public:
  // By branch; `free` are those of them that count as one bundle where they run between the same two nodes.
  BridgeForest(const Circuit& circuit, const std::vector<bool>& passes, const std::vector<bool>& free);
  BridgeForest(const Circuit& circuit, const std::vector<bool>& passes) : BridgeForest(circuit, passes, passes) {}

  std::size_t position(NodeId node) const { return position_[node]; }
  const IndexedList<NodeOf, std::size_t>& positions() const { return position_; }
  NodeId node_at(std::size_t position) const { return walk_[position]; }
  std::size_t group_of(NodeId node) const { return group_of_[node]; }
  std::size_t group_count() const { return groups_.size(); }
  const WalkSpan& group(std::size_t number) const { return groups_[number]; }

  // Where removing this branch parts its group in two: one of the two sides. Nothing where the ends stay joined.
  const std::optional<WalkSpan>& side_of_bridge(BranchId branch) const { return side_[branch]; }
  // The same where its whole bundle is removed.
  const std::optional<WalkSpan>& side_of_bundle(BranchId branch) const { return bundle_side_[branch]; }

 private:
  IndexedList<NodeOf, std::size_t> position_, group_of_;
  std::vector<NodeId> walk_;
  std::vector<WalkSpan> groups_;
  IndexedList<BranchOf, std::optional<WalkSpan>> side_, bundle_side_;
};

}  // namespace loomleaf
