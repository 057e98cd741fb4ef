#include "back_up.h"

#include <algorithm>
#include <array>
#include <limits>
#include <set>

#include "found.h"
#include "interrupt.h"

namespace loomleaf {
namespace {

constexpr double kAnyFault = 0.0;  // the strength of what never ends one

}  // namespace

void BackUp::take_supplies(Joined& joined) const {
  const Circuit& circuit = checked_.circuit;
  const auto add = [&](NodeId plus, NodeId minus, std::optional<Current> limit) {
    for (const NodeId node : std::set{plus, minus}) {
      Inflow& inflow = joined.inflow[node].front().second;
      if (limit)
        inflow.limited_A += limit->in(amperes);
      else
        inflow.from_battery = true;
    }
  };
  for (const TwoPole& source : circuit.sources) {
    const Source& of = std::get<Source>(checked_.plan.items[source.item].data);
    add(source.plus, source.minus, of.is_limited() ? std::optional(of.limit) : std::nullopt);
  }
  for (const ConverterPorts& converter : circuit.converters)
    add(converter.out_plus, converter.out_minus, std::get<Converter>(checked_.plan.items[converter.item].data).rating);
}

const BackUp::Joined& BackUp::joined(std::size_t ways, BacksUp kind) {
  const auto [found, is_new] = joined_.try_emplace({ways, kind});
  Joined& joined = found->second;
  if (!is_new) return joined;
  const Circuit& circuit = checked_.circuit;
  joined.under = IndexedList<NodeOf, NodeId>(circuit.nodes.size());
  for (const NodeId node : circuit.nodes.ids()) joined.under[node] = node;
  joined.by_A = IndexedList<NodeOf, double>(circuit.nodes.size(), std::numeric_limits<double>::infinity());
  joined.inflow = IndexedList<NodeOf, std::vector<std::pair<double, Inflow>>>(circuit.nodes.size(), {{kAnyFault, {}}});
  take_supplies(joined);

  std::vector<std::pair<double, BranchId>> by_strength;
  for (const BranchId id : circuit.branches.ids()) {
    const Branch& branch = circuit.branches[id];
    if (!conducts(circuit, id, checked_.study.ways.all[ways])) continue;
    const auto rating = branch.kind == BranchKind::device ? interrupt_rating_of(checked_, id) : std::nullopt;
    const bool ends_it = rating && (kind == BacksUp::breaks || is_current_limiting(checked_, *branch.item));
    by_strength.emplace_back(ends_it ? rating->breaks.in(amperes) : kAnyFault, id);
  }
  std::ranges::stable_sort(by_strength, {}, &std::pair<double, BranchId>::first);
  IndexedList<NodeOf, std::size_t> size(circuit.nodes.size(), 1);
  const auto top = [&joined](NodeId node) {
    while (joined.under[node] != node) node = joined.under[node];
    return node;
  };
  for (const auto& [strength_A, id] : by_strength) {
    NodeId large = top(circuit.branches[id].a), small = top(circuit.branches[id].b);
    if (large == small) continue;
    if (size[large] < size[small]) std::swap(large, small);
    joined.under[small] = large;
    joined.by_A[small] = strength_A;
    size[large] += size[small];
    const Inflow &here = joined.inflow[large].back().second, &more = joined.inflow[small].back().second;
    joined.inflow[large].emplace_back(strength_A,
                                      Inflow{here.from_battery || more.from_battery, here.limited_A + more.limited_A});
  }
  return joined;
}

// With all devices out that can break so much.
BackUp::Inflow BackUp::inflow_at(const Joined& joined, NodeId node, double fault_A) {
  const auto passes = [fault_A](double strength_A) { return strength_A == kAnyFault || exceeds(fault_A, strength_A); };
  while (joined.under[node] != node && passes(joined.by_A[node])) node = joined.under[node];
  const auto& history = joined.inflow[node];
  const auto after = std::ranges::partition_point(history, passes, &std::pair<double, Inflow>::first);
  return std::prev(after)->second;
}

bool BackUp::stands_before(const AskedToBreak& asked, BacksUp kind) {
  const Joined& sets = joined(asked.ways, kind);
  const Branch& branch = checked_.circuit.branches[asked.device];
  return std::ranges::none_of(std::array{branch.a, branch.b}, [&](NodeId node) {
    const Inflow inflow = inflow_at(sets, node, asked.fault.in(amperes));
    return inflow.from_battery || exceeds(inflow.limited_A, asked.breaks.in(amperes));
  });
}

}  // namespace loomleaf
