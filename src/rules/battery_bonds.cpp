#include "battery_bonds.h"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "loomleaf/circuit/joined_sets.h"

namespace loomleaf {
namespace {

using AtNodes = IndexedList<NodeOf, bool>;

template <class Kind>
AtNodes nodes_of(const Checked& checked) {
  AtNodes at(checked.circuit.nodes.size(), false);
  for (const Item& item : checked.plan.items)
    if (item.is<Kind>())
      for (const TerminalId terminal : item.terminals) at[checked.circuit.node_of[terminal]] = true;
  return at;
}

double area_of(const Checked& checked, ConductorId id) {
  return nominal_area(checked.rulebook.judged_as(checked.study.conductors[id].size)).in(square_millimetres);
}

// The thickest conductor that starts at a pole, or behind what stands on it without a conductor.
std::optional<ConductorId> thickest_lead(const Checked& checked, NodeId pole) {
  const Circuit& circuit = checked.circuit;
  std::optional<ConductorId> thickest;
  std::vector<NodeId> open{pole};
  std::set<NodeId> seen{pole};
  while (!open.empty()) {
    const NodeId node = open.back();
    open.pop_back();
    for (const BranchId id : circuit.at[node]) {
      const Branch& branch = circuit.branches[id];
      if (branch.conductor) {
        if (!thickest || area_of(checked, *branch.conductor) > area_of(checked, *thickest)) thickest = branch.conductor;
        continue;
      }
      const NodeId next = branch.a == node ? branch.b : branch.a;
      if (seen.insert(next).second) open.push_back(next);
    }
  }
  return thickest;
}

}  // namespace

std::vector<BatteryBond> battery_bonds(const Checked& checked) {
  const Circuit& circuit = checked.circuit;
  const AtNodes metal = nodes_of<Chassis>(checked), converter = nodes_of<Converter>(checked);
  if (std::ranges::none_of(metal, [](bool is) { return is; })) return {};
  JoinedSets together(circuit.nodes.size());
  const auto ends_way = [&](NodeId node) { return metal[node] || converter[node]; };
  for (const Branch& branch : circuit.branches)
    if (!ends_way(branch.a) && !ends_way(branch.b)) together.join(branch.a.value, branch.b.value);

  std::map<std::size_t, std::optional<ConductorId>> lead_of;  // by what hangs together with a battery's -
  std::set<std::pair<NodeId, NodeId>> told;
  for (const Sides& sides : checked.study.sides)
    for (const Supply& supply : sides.supplies) {
      if (supply.limited || supply.converter || supply.piece_of || ends_way(supply.minus)) continue;
      if (!told.insert({supply.plus, supply.minus}).second) continue;
      std::optional<ConductorId>& lead = lead_of[together.root(supply.minus.value)];
      const auto other = thickest_lead(checked, supply.plus);
      if (!lead || (other && area_of(checked, *other) > area_of(checked, *lead))) lead = other;
    }

  std::map<std::size_t, BatteryBond> thickest;
  for (const ConductorId id : checked.plan.conductors.ids()) {
    const Branch& branch = circuit.branches[circuit.branch_of[id]];
    if (metal[branch.a] == metal[branch.b]) continue;
    const NodeId end = metal[branch.a] ? branch.b : branch.a;
    const auto battery = lead_of.find(together.root(end.value));
    if (converter[end] || battery == lead_of.end()) continue;
    const auto [known, is_new] = thickest.try_emplace(battery->first, BatteryBond{id, battery->second});
    if (!is_new && area_of(checked, id) > area_of(checked, known->second.conductor)) known->second.conductor = id;
  }
  std::vector<BatteryBond> bonds;
  for (const auto& [battery, bond] : thickest) bonds.push_back(bond);
  std::ranges::sort(bonds, {}, &BatteryBond::conductor);
  return bonds;
}

std::optional<Figure<WireSize>> least_size_of(const Checked& checked, const BatteryBond& bond) {
  const std::optional<LeastBond>& asked = checked.rulebook.least_bond;
  if (!asked) return std::nullopt;
  const double least = nominal_area(checked.rulebook.judged_as(asked->least)).in(square_millimetres);
  const bool as_lead = asked->as_lead && bond.lead && area_of(checked, *bond.lead) > least;
  return Figure<WireSize>{as_lead ? checked.study.conductors[*bond.lead].size : asked->least, asked->from};
}

}  // namespace loomleaf
