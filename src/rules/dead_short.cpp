#include <fmt/format.h>

#include <algorithm>
#include <initializer_list>
#include <map>
#include <set>

#include "catalogue.h"
#include "found.h"
#include "turned_sources.h"

namespace loomleaf {

namespace {

std::vector<std::string> names_of(const Checked& checked, const Supply& supply) {
  std::vector<std::string> names = names_of(checked.plan, supply.sources);
  if (supply.converter) names.push_back(id_of(checked.plan, *supply.converter));
  return names;
}

IndexedList<NodeOf, bool> reached_without(const Circuit& circuit, const Ways& ways, NodeId start, BranchId off) {
  IndexedList<NodeOf, bool> seen(circuit.nodes.size());
  std::vector<NodeId> open{start};
  seen[start] = true;
  while (!open.empty()) {
    const NodeId node = open.back();
    open.pop_back();
    for (const BranchId branch : circuit.at[node]) {
      if (branch == off || !conducts(circuit, branch, ways)) continue;
      const Branch& at = circuit.branches[branch];
      const NodeId next = at.a == node ? at.b : at.a;
      if (seen[next]) continue;
      seen[next] = true;
      open.push_back(next);
    }
  }
  return seen;
}

// How many loads a supply stands across, over all standings of the changeovers, once this conductor is off; nothing
// where the short stays in the standing that it was found in.
std::optional<int> loads_left(const Checked& checked, const Supply& supply, std::size_t found_in, BranchId off) {
  constexpr std::size_t few = 4;
  int left = 0;
  for (std::size_t ways = 0; ways < checked.study.ways.all.size(); ++ways) {
    if (ways >= few && ways != found_in) continue;
    const Ways& standing = checked.study.ways.all[ways];
    const auto plus = reached_without(checked.circuit, standing, supply.plus, off);
    if (plus[supply.minus]) {
      if (ways == found_in) return std::nullopt;
      continue;
    }
    const auto minus = reached_without(checked.circuit, standing, supply.minus, off);
    for (const TwoPole& load : checked.circuit.loads) {
      if ((plus[load.plus] && minus[load.minus]) || (plus[load.minus] && minus[load.plus])) ++left;
    }
  }
  return left;
}

// The conductors to look at: those without which the short is gone and most loads have their supply. Mostly one.
std::vector<ConductorId> ones_too_many(const Checked& checked, std::size_t ways, const DeadShort& dead) {
  constexpr int most_tried = 32;  // enough for any short that a person has made
  const Supply& supply = checked.study.sides[ways].supplies[dead.supply];
  std::vector<ConductorId> best;
  int best_left = -1, tried = 0;
  for (const BranchId branch : dead.way) {
    const auto conductor = checked.circuit.branches[branch].conductor;
    if (!conductor || ++tried > most_tried) continue;
    const auto left = loads_left(checked, supply, ways, branch);
    if (!left || *left < best_left) continue;
    if (*left > best_left) best.clear();
    best_left = *left;
    best.push_back(*conductor);
  }
  return best;
}

std::string turn_text(const std::vector<std::string>& turned) {
  return fmt::format("turn {}: change over the two conductors at {}", listed(turned),
                     turned.size() == 1 ? "it" : "each");
}

std::string mend_text(const std::vector<std::string>& off) {
  if (off.empty()) return "part that way: more than one conductor joins the two sides";
  if (off.size() == 1) return fmt::format("take off {}, or land it on the other side", off.front());
  return fmt::format("take off the one of {} that joins the two sides", listed(off));
}

// `turned`: the sources that lie the wrong way round, where that is the cause.
Finding finding_of(const Checked& checked, std::size_t ways, const DeadShort& dead,
                   const std::vector<std::string>& supplies, const std::vector<ItemId>& turned) {
  std::vector<std::string> way, devices, off;
  for (const BranchId branch : dead.way) {
    const Branch& at = checked.circuit.branches[branch];
    way.push_back(at.conductor ? id_of(checked.plan, *at.conductor) : id_of(checked.plan, *at.item));
    if (at.kind == BranchKind::device) devices.push_back(way.back());
  }
  std::vector<ConductorId> too_many;
  if (turned.empty()) too_many = ones_too_many(checked, ways, dead);
  for (const ConductorId conductor : too_many) off.push_back(id_of(checked.plan, conductor));
  const Supply& supply = checked.study.sides[ways].supplies[dead.supply];
  const ItemId owner = !turned.empty() ? turned.front() : supply.converter ? *supply.converter : supply.sources.front();
  Finding finding =
      too_many.empty() ? found(dead_short, checked.plan, owner) : found(dead_short, checked.plan, too_many.front());
  finding.subjects = turned.empty() ? off : names_of(checked.plan, turned);
  for (const auto* names : std::initializer_list<const std::vector<std::string>*>{&supplies, &devices}) {
    for (const std::string& name : *names)
      if (std::ranges::find(finding.subjects, name) == finding.subjects.end()) finding.subjects.push_back(name);
  }
  const std::string opens =
      devices.empty() ? "no fuse is on that way" : fmt::format("only {} would open", listed(devices));
  finding.message = fmt::format(
      "the + of {} runs straight to {} - with no load between{}, by way of {}; {}; "
      "currents and voltages are not worked out here",
      listed(supplies), supplies.size() == 1 ? "its" : "their", in_ways_text(checked.study, ways), listed(way), opens);
  finding.mend = turned.empty() ? mend_text(off) : turn_text(names_of(checked.plan, turned));
  finding.source = "common practice";
  return finding;
}

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  std::set<std::vector<BranchId>> told;
  for (std::size_t ways = 0; ways < checked.study.sides.size(); ++ways) {
    const Sides& sides = checked.study.sides[ways];
    const TurnedSources turned(checked, sides);
    // Supplies that are joined have one short between them, not one each.
    std::map<PartId, std::vector<const DeadShort*>> by_part;
    for (const DeadShort& dead : sides.shorts)
      by_part[sides.part_of[sides.supplies[dead.supply].plus]].push_back(&dead);
    for (const auto& [part, shorts] : by_part) {
      const auto nearest =
          *std::ranges::min_element(shorts, {}, [](const DeadShort* dead) { return dead->way.size(); });
      std::vector<std::string> supplies;
      for (const DeadShort* dead : shorts) {
        for (std::string& name : names_of(checked, sides.supplies[dead->supply])) {
          if (std::ranges::find(supplies, name) == supplies.end()) supplies.push_back(std::move(name));
        }
      }
      if (told.insert(nearest->way).second)
        findings.push_back(finding_of(checked, ways, *nearest, supplies, turned.to_turn(*nearest)));
    }
  }
  return findings;
}

}  // namespace

constexpr Rule dead_short = {
    "dead-short",
    Severity::danger,
    "A supply's + reaches its - through conductors, contacts and fuses alone, with no load between, in some "
    "position of the switches.",
    "The moment the battery is connected, or the switch is turned, the whole fault current flows. At best a fuse "
    "blows; where there is none on the way, the wire burns.",
    "Take off the conductor that joins the two sides, or land its end where it belongs; often a return wire "
    "landed on the + bus, or a load's two wires on one terminal. A charger or a battery that lies the wrong way "
    "round against the others is turned: its two conductors change places.",
    "A short circuit needs no table: common practice.",
    check};

}  // namespace loomleaf
