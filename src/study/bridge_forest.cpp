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
};

}  // namespace

// Tarjan (1974): a branch of the walk is a bridge where nothing beyond it leads back before it.
BridgeForest::BridgeForest(const Circuit& circuit, const std::vector<bool>& passes)
    : position_(circuit.nodes.size(), kUnseen), group_of_(circuit.nodes.size()), side_(circuit.branches.size()) {
  std::vector<Visit> trail;
  const auto enter = [&](NodeId node, std::optional<BranchId> by) {
    position_[node] = walk_.size();
    group_of_[node] = groups_.size();
    trail.push_back({node, by, 0, walk_.size()});
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
        if (position_[other] == kUnseen)
          enter(other, id);
        else
          at.low = std::min(at.low, position_[other]);
        continue;
      }
      const Visit done = at;
      trail.pop_back();
      if (!done.by) continue;
      trail.back().low = std::min(trail.back().low, done.low);
      if (done.low == position_[done.node]) side_[*done.by] = WalkSpan{position_[done.node], walk_.size()};
    }
    groups_.push_back({first, walk_.size()});
  }
}

}  // namespace loomleaf
