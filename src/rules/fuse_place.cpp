#include "fuse_place.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <vector>

#include "cure.h"
#include "found.h"
#include "loomleaf/units/format.h"

namespace loomleaf {

namespace {

bool brings_current(const Circuit& circuit, NodeId node) {
  return std::ranges::any_of(circuit.sources, [&](const TwoPole& source) { return source.plus == node; }) ||
         std::ranges::any_of(circuit.converters, [&](const ConverterPorts& ports) { return ports.out_plus == node; });
}

bool takes_current(const Circuit& circuit, NodeId node) {
  const auto hangs_there = [&](const TwoPole& item) { return item.plus == node || item.minus == node; };
  return std::ranges::any_of(circuit.loads, hangs_there) || std::ranges::any_of(circuit.coils, hangs_there) ||
         std::ranges::any_of(circuit.converters, [&](const ConverterPorts& ports) {
           return ports.in_plus == node || ports.in_minus == node;
         });
}

bool has_tail(const Checked& checked, NodeId node) {
  return std::ranges::any_of(checked.circuit.nodes[node].terminals, [&](TerminalId terminal) {
    return checked.plan.items[checked.plan.terminals[terminal].item].is<Tail>();
  });
}

// What hangs together with a node without passing one branch or one other node, all contacts closed. Ends at the first
// source's or converter's +.
struct Region {
  std::vector<NodeId> nodes;
  std::set<BranchId> to_barred;  // branches that lead to the barred node
  bool is_fed = false;
};

Region region_of(const Circuit& circuit, const std::vector<NodeId>& from, std::optional<BranchId> without,
                 std::optional<NodeId> barred) {
  Region region;
  std::set<NodeId> seen;
  const auto enter = [&](NodeId node) {
    if (!seen.insert(node).second) return;
    region.nodes.push_back(node);
    region.is_fed = region.is_fed || brings_current(circuit, node);
  };
  for (const NodeId node : from) enter(node);
  for (std::size_t at = 0; at < region.nodes.size() && !region.is_fed; ++at) {
    const NodeId node = region.nodes[at];
    for (const BranchId id : circuit.at[node]) {
      if (id == without) continue;
      const NodeId next = circuit.branches[id].a == node ? circuit.branches[id].b : circuit.branches[id].a;
      if (next == barred)
        region.to_barred.insert(id);
      else
        enter(next);
    }
  }
  return region;
}

// Whether all that flows into the conductor comes through one lead that leaves this node.
bool all_comes_from(const Circuit& circuit, const Branch& conductor, NodeId node) {
  std::vector<NodeId> ends;
  for (const NodeId end : {conductor.a, conductor.b})
    if (end != node) ends.push_back(end);
  const Region region = region_of(circuit, ends, std::nullopt, node);
  return !region.is_fed && region.to_barred.size() == 1;
}

// The conductor's end through which all comes that flows into it.
std::optional<TerminalId> fed_end(const Checked& checked, ConductorId conductor) {
  const Circuit& circuit = checked.circuit;
  const BranchId id = circuit.branch_of[conductor];
  const Branch& branch = circuit.branches[id];
  if (!region_of(circuit, {branch.b}, id, std::nullopt).is_fed) return branch.terminal_a;
  if (!region_of(circuit, {branch.a}, id, std::nullopt).is_fed) return branch.terminal_b;
  return std::nullopt;
}

std::string in_its_lead(const Checked& checked, ConductorId conductor, TerminalId end) {
  return fmt::format("in {} close to {}", id_of(checked.plan, conductor), terminal_text(checked.plan, end));
}

}  // namespace

std::optional<std::string> fuse_place(const Checked& checked, ConductorId conductor) {
  const auto& fed_at = checked.study.protection.conductors[conductor].fed_at;
  const Branch& branch = checked.circuit.branches[checked.circuit.branch_of[conductor]];
  if (fed_at && all_comes_from(checked.circuit, branch, checked.circuit.node_of[*fed_at]))
    return "close to " + terminal_text(checked.plan, *fed_at);
  if (const auto end = fed_end(checked, conductor)) return in_its_lead(checked, conductor, *end);
  return std::nullopt;
}

std::optional<std::string> spare_text(const Checked& checked, ConductorId conductor) {
  if (checked.study.protection.conductors[conductor].side != ConductorSide::feed) return std::nullopt;
  const auto end = fed_end(checked, conductor);
  if (!end) return std::nullopt;
  const BranchId id = checked.circuit.branch_of[conductor];
  const Branch& branch = checked.circuit.branches[id];
  const Region beyond = region_of(checked.circuit, {branch.terminal_a == *end ? branch.b : branch.a}, id, std::nullopt);
  if (std::ranges::any_of(beyond.nodes, [&](NodeId node) { return takes_current(checked.circuit, node); }) ||
      std::ranges::none_of(beyond.nodes, [&](NodeId node) { return has_tail(checked, node); }))
    return std::nullopt;
  const std::string off = fmt::format("take {} off until it is used", id_of(checked.plan, conductor));
  const auto fuse = fuse_for(checked, conductor);
  if (!fuse) return off;
  return fmt::format("put a small fuse, {} at most, {}, or {}", to_text(*fuse), in_its_lead(checked, conductor, *end),
                     off);
}

}  // namespace loomleaf
