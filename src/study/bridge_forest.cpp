#include "bridge_forest.h"

#include <algorithm>
#include <limits>

namespace loomleaf {
namespace {

constexpr std::size_t kUnseen = std::numeric_limits<std::size_t>::max();

struct Visit {
  NodeId node;
  std::optional<BranchId> by;  // the branch it was reached by
  std::size_t next = 0;        // in the list of branches at the node
  std::size_t low = 0;         // the earliest position reached from here without `by`
  std::size_t bundle_low = 0;  // and without those beside it
};

// What hangs on the rest by the branches between a node and the one it was reached from.
struct Hanging {
  NodeId from;
  WalkSpan nodes;
};

}  // namespace

// Tarjan (1974): a branch of the walk is a bridge where nothing beyond it leads back before it.
BridgeForest::BridgeForest(const Circuit& circuit, const std::vector<bool>& passes, const std::vector<bool>& free)
    : position_(circuit.nodes.size(), kUnseen),
      group_of_(circuit.nodes.size()),
      side_(circuit.branches.size()),
      bundle_side_(circuit.branches.size()) {
  std::vector<Visit> trail;
  IndexedList<NodeOf, std::optional<Hanging>> hanging(circuit.nodes.size());
  const auto enter = [&](NodeId node, std::optional<BranchId> by) {
    position_[node] = walk_.size();
    group_of_[node] = groups_.size();
    trail.push_back({node, by, 0, walk_.size(), walk_.size()});
    walk_.push_back(node);
  };
  for (const NodeId start : circuit.nodes.ids()) {
    if (position_[start] != kUnseen) continue;
    const std::size_t first = walk_.size();
    enter(start, std::nullopt);
    while (!trail.empty()) {
      Visit& at = trail.back();
      if (at.next < circuit.at[at.node].size()) {
        const BranchId id = circuit.at[at.node][at.next++];
        if (!passes[id.value] || at.by == id) continue;
        const Branch& branch = circuit.branches[id];
        const NodeId other = branch.a == at.node ? branch.b : branch.a;
        if (position_[other] == kUnseen) {
          enter(other, id);
          continue;
        }
        at.low = std::min(at.low, position_[other]);
        const bool is_beside = at.by && other == trail[trail.size() - 2].node && free[at.by->value] && free[id.value];
        if (!is_beside) at.bundle_low = std::min(at.bundle_low, position_[other]);
        continue;
      }
      const Visit done = at;
      trail.pop_back();
      if (!done.by) continue;
      trail.back().low = std::min(trail.back().low, done.low);
      trail.back().bundle_low = std::min(trail.back().bundle_low, done.low);
      const WalkSpan beyond{position_[done.node], walk_.size()};
      if (done.low == beyond.first) side_[*done.by] = beyond;
      if (done.bundle_low == beyond.first) hanging[done.node] = Hanging{trail.back().node, beyond};
    }
    groups_.push_back({first, walk_.size()});
  }
  for (const BranchId id : circuit.branches.ids()) {
    if (!passes[id.value]) continue;
    const Branch& branch = circuit.branches[id];
    for (const auto& [node, other] : {std::pair(branch.a, branch.b), std::pair(branch.b, branch.a)})
      if (hanging[node] && hanging[node]->from == other) bundle_side_[id] = hanging[node]->nodes;
  }
}

}  // namespace loomleaf
