#include "feeder_trees.h"

#include "loomleaf/study/adiabatic.h"

namespace loomleaf {
namespace {

NodeId other_end(const Branch& branch, NodeId one) { return branch.a == one ? branch.b : branch.a; }

}  // namespace

FeederTrees::FeederTrees(const Plan& plan, const Circuit& circuit, const FaultSupplies& supplies,
                         const IndexedList<ConductorOf, ConductorFigures>& figures)
    : plan_(plan),
      circuit_(circuit),
      supplies_(supplies),
      figures_(figures),
      leading_(circuit.nodes.size()),
      in_core_(circuit.nodes.size(), false),
      ways_(circuit.nodes.size()) {
  for (const NodeId node : circuit.nodes.ids())
    for (const BranchId id : circuit.at[node])
      if (supplies.passes(id) && supplies.leads_to_supply(id, node)) leading_[node].push_back(id);
  find_core();
  find_ways();
}

// Supplies, whatever has more ways than one to them, and all that lies on those ways.
void FeederTrees::find_core() {
  std::vector<NodeId> open;
  const auto take = [&](NodeId node) {
    if (in_core_[node]) return;
    in_core_[node] = true;
    open.push_back(node);
  };
  for (const FaultSupplies::Held& held : supplies_.held()) {
    take(held.plus);
    take(held.minus);
  }
  for (const std::vector<NodeId>* list : {&supplies_.pluses(), &supplies_.minuses()})
    for (const NodeId node : *list) take(node);
  for (const NodeId node : circuit_.nodes.ids())
    if (leading_[node].size() != 1) take(node);
  while (!open.empty()) {
    const NodeId node = open.back();
    open.pop_back();
    for (const BranchId id : leading_[node]) take(other_end(circuit_.branches[id], node));
  }
}

// Without recursion, so that a long chain cannot exhaust the stack.
void FeederTrees::find_ways() {
  IndexedList<NodeOf, bool> known = in_core_;
  for (const NodeId node : circuit_.nodes.ids())
    if (in_core_[node]) ways_[node].core = node;
  std::vector<NodeId> climb;
  for (const NodeId start : circuit_.nodes.ids()) {
    for (NodeId node = start; !known[node]; node = other_end(circuit_.branches[leading_[node].front()], node)) {
      climb.push_back(node);
      known[node] = true;
    }
    for (; !climb.empty(); climb.pop_back()) {
      const BranchId by = leading_[climb.back()].front();
      ways_[climb.back()] = step_on(ways_[other_end(circuit_.branches[by], climb.back())], by);
    }
  }
}

FeederTrees::Way FeederTrees::step_on(const Way& from, BranchId branch) {
  Way way = from;
  way.ohm += 1.0 / supplies_.siemens(branch);
  const BranchKind kind = circuit_.branches[branch].kind;
  if (kind == BranchKind::device) way.devices = with(way.devices, branch);
  if (kind == BranchKind::conductor) way.conductors = with(way.conductors, branch);
  return way;
}

bool FeederTrees::outdoes(BranchId one, BranchId other) const {
  const Branch &a = circuit_.branches[one], &b = circuit_.branches[other];
  if (a.kind == BranchKind::device) {
    const Device &mine = *plan_.items[*a.item].as<Device>(), &its = *plan_.items[*b.item].as<Device>();
    return mine.family == its.family && mine.rating && (!its.rating || *mine.rating <= *its.rating);
  }
  const ConductorFigures &mine = figures_[*a.conductor], &its = figures_[*b.conductor];
  return bears_for(mine.area, mine.insulation, amperes(1)) <= bears_for(its.area, its.insulation, amperes(1)) &&
         mine.ampacity.value_or(Current{}) <= its.ampacity.value_or(Current{});
}

std::optional<std::size_t> FeederTrees::with(std::optional<std::size_t> list, BranchId branch) {
  for (auto at = list; at; at = entries_[*at].next)
    if (outdoes(entries_[*at].branch, branch)) return list;
  entries_.push_back({branch, list});
  return entries_.size() - 1;
}

std::vector<BranchId> FeederTrees::listed(std::optional<std::size_t> list) const {
  std::vector<BranchId> branches;
  for (auto at = list; at; at = entries_[*at].next) branches.push_back(entries_[*at].branch);
  return branches;
}

}  // namespace loomleaf
