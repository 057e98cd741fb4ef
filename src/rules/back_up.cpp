#include "back_up.h"

#include <algorithm>

#include "found.h"
#include "interrupt.h"

namespace loomleaf {

BackUp::BackUp(const Checked& checked) : checked_(checked) {
  for (const BranchId id : checked.circuit.branches.ids()) {
    const Branch& branch = checked.circuit.branches[id];
    if (branch.kind != BranchKind::device) continue;
    if (const auto rating = interrupt_rating_of(checked, id))
      by_strength_.push_back({id, rating->breaks, is_current_limiting(checked, *branch.item)});
  }
  std::ranges::stable_sort(by_strength_, std::greater<>(), &Breaker::breaks);
}

const BackUp::Reached& BackUp::reached(std::size_t count, std::size_t ways, BacksUp kind) {
  const auto [found, is_new] = reached_.try_emplace({count, ways, kind});
  Reached& reached = found->second;
  if (!is_new) return reached;
  const Circuit& circuit = checked_.circuit;
  IndexedList<BranchOf, bool> is_passed(circuit.branches.size());
  for (const BranchId id : circuit.branches.ids()) is_passed[id] = conducts(circuit, id, checked_.study.ways.all[ways]);
  for (std::size_t i = 0; i < count; ++i)
    if (kind == BacksUp::breaks || by_strength_[i].limits) is_passed[by_strength_[i].branch] = false;

  reached = Reached(circuit.nodes.size());
  std::vector<NodeId> open;
  const auto reach = [&](NodeId node) {
    if (!reached[node]) open.push_back(node);
    reached[node] = true;
  };
  for (const TwoPole& source : circuit.sources) {
    if (std::get<Source>(checked_.plan.items[source.item].data).is_limited()) continue;
    reach(source.plus);
    reach(source.minus);
  }
  while (!open.empty()) {
    const NodeId node = open.back();
    open.pop_back();
    for (const BranchId id : circuit.at[node]) {
      if (!is_passed[id]) continue;
      reach(circuit.branches[id].a);
      reach(circuit.branches[id].b);
    }
  }
  return reached;
}

bool BackUp::stands_before(BranchId device, Current fault, std::size_t ways, BacksUp kind) {
  const auto weaker = std::ranges::partition_point(
      by_strength_, [fault](const Breaker& one) { return !exceeds(fault.in(amperes), one.breaks.in(amperes)); });
  // Devices of one strength are all in or all out, so that few counts differ.
  const Reached& from_batteries = reached(static_cast<std::size_t>(weaker - by_strength_.begin()), ways, kind);
  const Branch& branch = checked_.circuit.branches[device];
  return !from_batteries[branch.a] && !from_batteries[branch.b];
}

}  // namespace loomleaf
