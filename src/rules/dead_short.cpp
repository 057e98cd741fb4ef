#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "catalogue.h"
#include "found.h"

namespace loomleaf {

namespace {

std::vector<std::string> names_of(const Checked& checked, const Supply& supply) {
  std::vector<std::string> names = names_of(checked.plan, supply.sources);
  if (supply.converter) names.push_back(id_of(checked.plan, *supply.converter));
  return names;
}

// How many loads still have a supply's + on one side and its - on the other once this conductor is off; nothing where
// the short stays.
std::optional<int> loads_left(const Checked& checked, const Ways& ways, const Supply& supply, BranchId off) {
  const Circuit& circuit = checked.circuit;
  const auto reached = [&](NodeId start) {
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
        if (!seen[next]) {
          seen[next] = true;
          open.push_back(next);
        }
      }
    }
    return seen;
  };
  const IndexedList<NodeOf, bool> plus = reached(supply.plus);
  if (plus[supply.minus]) return std::nullopt;
  const IndexedList<NodeOf, bool> minus = reached(supply.minus);
  int left = 0;
  for (const TwoPole& load : circuit.loads) {
    if ((plus[load.plus] && minus[load.minus]) || (plus[load.minus] && minus[load.plus])) ++left;
  }
  return left;
}

// The conductor to take off: the one without which the short is gone and most loads still have their supply.
std::optional<ConductorId> one_too_many(const Checked& checked, const Sides& sides, const Ways& ways,
                                        const DeadShort& dead) {
  constexpr int most_tried = 32;  // enough for any short that a person has made
  std::optional<ConductorId> best;
  int best_left = -1, tried = 0;
  for (const BranchId branch : dead.way) {
    const auto conductor = checked.circuit.branches[branch].conductor;
    if (!conductor || ++tried > most_tried) continue;
    const auto left = loads_left(checked, ways, sides.supplies[dead.supply], branch);
    if (left && *left > best_left) {
      best_left = *left;
      best = conductor;
    }
  }
  return best;
}

Finding finding_of(const Checked& checked, std::size_t ways, const DeadShort& dead,
                   const std::vector<std::string>& supplies) {
  const Sides& sides = checked.study.sides[ways];
  std::vector<std::string> way, devices;
  for (const BranchId branch : dead.way) {
    const Branch& at = checked.circuit.branches[branch];
    way.push_back(at.conductor ? id_of(checked.plan, *at.conductor) : id_of(checked.plan, *at.item));
    if (at.kind == BranchKind::device) devices.push_back(way.back());
  }
  const auto off = one_too_many(checked, sides, checked.study.ways.all[ways], dead);
  const Supply& supply = sides.supplies[dead.supply];
  const ItemId owner = supply.converter ? *supply.converter : supply.sources.front();
  Finding finding = off ? found(dead_short, checked.plan, *off) : found(dead_short, checked.plan, owner);
  for (const std::string& name : supplies) {
    if (name != finding.subjects[0]) finding.subjects.push_back(name);
  }
  for (const std::string& device : devices) finding.subjects.push_back(device);
  finding.message = fmt::format(
      "the + of {} runs straight to its - with no load between{}, by way of {}; {}; currents and voltages are not "
      "worked out here",
      listed(supplies), in_ways_text(checked.study, ways), listed(way),
      devices.empty() ? std::string("no fuse is on that way") : fmt::format("only {} would open", listed(devices)));
  finding.mend = off ? fmt::format("take off {}, or land it on the other side", finding.subjects[0])
                     : std::string("part that way: more than one conductor joins the two sides");
  finding.source = "a short circuit, common practice";
  return finding;
}

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  std::set<std::vector<BranchId>> told;
  for (std::size_t ways = 0; ways < checked.study.sides.size(); ++ways) {
    const Sides& sides = checked.study.sides[ways];
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
      if (told.insert(nearest->way).second) findings.push_back(finding_of(checked, ways, *nearest, supplies));
    }
  }
  return findings;
}

}  // namespace

constexpr Rule dead_short = {
    "dead-short",
    Severity::danger,
    "A supply's + reaches its - through conductors, contacts and fuses alone, with no load between, in some position "
    "of "
    "the switches.",
    "The moment the battery is connected, or the switch is turned, the whole fault current flows. At best a fuse "
    "blows; "
    "where there is none on the way, the wire burns.",
    "Take off the conductor that joins the two sides, or land its end where it belongs; often a return wire landed on "
    "the + bus, or a load's two wires on one terminal.",
    "A short circuit needs no table: common practice.",
    check};

}  // namespace loomleaf
