#include "fuse_places.h"

#include <fmt/format.h>

#include <algorithm>

#include "cure.h"
#include "found.h"
#include "loomleaf/units/format.h"

namespace loomleaf {

FusePlaces::FusePlaces(const Checked& checked)
    : checked_(checked),
      brings_(checked.circuit.nodes.size()),
      takes_(checked.circuit.nodes.size()),
      has_tail_(checked.circuit.nodes.size()) {
  const Circuit& circuit = checked.circuit;
  for (const TwoPole& source : circuit.sources) brings_[source.plus] = true;
  for (const auto* list : {&circuit.loads, &circuit.coils})
    for (const TwoPole& item : *list) takes_[item.plus] = takes_[item.minus] = true;
  for (const ConverterPorts& ports : circuit.converters) {
    brings_[ports.out_plus] = true;
    takes_[ports.in_plus] = takes_[ports.in_minus] = true;
  }
  for (const Item& item : checked.plan.items) {
    if (!item.is<Tail>()) continue;
    any_tail_ = true;
    for (const TerminalId terminal : item.terminals) has_tail_[circuit.node_of[terminal]] = true;
  }
}

FusePlaces::Region FusePlaces::region_of(const std::vector<NodeId>& from, std::optional<BranchId> without,
                                         std::optional<NodeId> barred) const {
  Region region;
  std::set<NodeId> seen;
  const auto enter = [&](NodeId node) {
    if (!seen.insert(node).second) return;
    region.nodes.push_back(node);
    region.is_fed = region.is_fed || brings_[node];
  };
  for (const NodeId node : from) enter(node);
  for (std::size_t at = 0; at < region.nodes.size() && !region.is_fed; ++at) {
    const NodeId node = region.nodes[at];
    for (const BranchId id : checked_.circuit.at[node]) {
      if (id == without) continue;
      const Branch& branch = checked_.circuit.branches[id];
      const NodeId next = branch.a == node ? branch.b : branch.a;
      if (next == barred)
        region.to_barred.insert(id);
      else
        enter(next);
    }
  }
  return region;
}

// Whether all that flows into the conductor comes through one lead that leaves this node.
bool FusePlaces::all_comes_from(const Branch& conductor, NodeId node) const {
  std::vector<NodeId> ends;
  for (const NodeId end : {conductor.a, conductor.b})
    if (end != node) ends.push_back(end);
  const Region region = region_of(ends, std::nullopt, node);
  return !region.is_fed && region.to_barred.size() == 1;
}

// The conductor's end through which all comes that flows into it.
std::optional<TerminalId> FusePlaces::fed_end(ConductorId conductor) const {
  const BranchId id = checked_.circuit.branch_of[conductor];
  const Branch& branch = checked_.circuit.branches[id];
  if (!region_of({branch.b}, id, std::nullopt).is_fed) return branch.terminal_a;
  if (!region_of({branch.a}, id, std::nullopt).is_fed) return branch.terminal_b;
  return std::nullopt;
}

std::string FusePlaces::in_its_lead(ConductorId conductor, TerminalId end) const {
  return fmt::format("in {} close to {}", id_of(checked_.plan, conductor), terminal_text(checked_.plan, end));
}

std::optional<std::string> FusePlaces::of(ConductorId conductor) const {
  const auto& fed_at = checked_.study.protection.conductors[conductor].fed_at;
  const Branch& branch = checked_.circuit.branches[checked_.circuit.branch_of[conductor]];
  if (fed_at && all_comes_from(branch, checked_.circuit.node_of[*fed_at]))
    return "close to " + terminal_text(checked_.plan, *fed_at);
  if (const auto end = fed_end(conductor)) return in_its_lead(conductor, *end);
  return std::nullopt;
}

std::optional<std::string> FusePlaces::spare_text(ConductorId conductor) const {
  if (!any_tail_ || checked_.study.protection.conductors[conductor].side != ConductorSide::feed) return std::nullopt;
  const auto end = fed_end(conductor);
  if (!end) return std::nullopt;
  const BranchId id = checked_.circuit.branch_of[conductor];
  const Branch& branch = checked_.circuit.branches[id];
  const Region beyond = region_of({branch.terminal_a == *end ? branch.b : branch.a}, id, std::nullopt);
  if (std::ranges::any_of(beyond.nodes, [&](NodeId node) { return takes_[node]; }) ||
      std::ranges::none_of(beyond.nodes, [&](NodeId node) { return has_tail_[node]; }))
    return std::nullopt;
  const std::string off = fmt::format("take {} off until it is used", id_of(checked_.plan, conductor));
  const auto fuse = fuse_for(checked_, conductor);
  if (!fuse) return off;
  return fmt::format("put a small fuse, {} at most, {}, or {}", to_text(*fuse), in_its_lead(conductor, *end), off);
}

}  // namespace loomleaf
