#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <utility>

#include "catalogue.h"
#include "found.h"
#include "left_live.h"

namespace loomleaf {

namespace {

// A pole of a part: where it lies in those standings of the changeovers in which it conducts.
struct Pole {
  std::vector<std::pair<BranchId, std::size_t>> closed;  // each of its branches with the first such standing
  bool on_return = false, on_feed = false;
  bool in_return_alone() const { return on_return && !on_feed; }
};

void take(const Checked& checked, BranchId branch, Pole& pole) {
  const Branch& at = checked.circuit.branches[branch];
  bool is_listed = false;
  for (std::size_t ways = 0; ways < checked.study.sides.size(); ++ways) {
    if (!conducts(checked.circuit, branch, checked.study.ways.all[ways])) continue;
    const Sides& sides = checked.study.sides[ways];
    pole.on_feed = pole.on_feed || sides.is_feed(at.a);
    pole.on_return = pole.on_return || sides.is_return(at.a);
    if (!is_listed) pole.closed.emplace_back(branch, ways);
    is_listed = true;
  }
}

using Poles = std::map<int, Pole>;  // by number

std::optional<ItemId> left_live(const LeftLive& left, const Poles& poles) {
  for (const auto& [number, pole] : poles) {
    if (!pole.in_return_alone()) continue;
    for (const auto& [branch, ways] : pole.closed)
      if (const auto live = left.behind(branch, ways)) return live;
  }
  return std::nullopt;
}

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  if (checked.rulebook.return_alone_may_be_switched.value) return findings;
  IndexedList<ItemOf, Poles> poles_of(checked.plan.items.size());
  for (const BranchId branch : checked.circuit.branches.ids()) {
    const Branch& at = checked.circuit.branches[branch];
    if (at.kind != BranchKind::conductor) take(checked, branch, poles_of[*at.item][at.pole]);
  }
  const LeftLive left(checked);
  for (const ItemId id : checked.plan.items.ids()) {
    const Item& item = checked.plan.items[id];
    const Poles& poles = poles_of[id];
    const auto any = [&](const auto& lies) { return std::ranges::any_of(poles, lies); };
    if (item.is<Shunt>() || item.is<Dimmer>()) continue;
    if (!any([](const auto& pole) { return pole.second.in_return_alone(); })) continue;
    Finding finding = found(switched_return, checked.plan, id);
    finding.source = sources_text({checked.rulebook.return_alone_may_be_switched.from});
    if (any([](const auto& pole) { return pole.second.on_feed; })) {
      // Poles in the feed excuse one in the return as far as they open the feed of the same.
      const std::optional<ItemId> live = left_live(left, poles);
      if (!live) continue;
      const std::string& name = id_of(checked.plan, *live);
      finding.message =
          fmt::format("{} opens the return of {} and not its feed, and leaves it under voltage", item.id, name);
      finding.mend = fmt::format("lead the feed of {} through {} too, or its return past it", name, item.id);
      finding.subjects.push_back(name);
    } else {
      finding.message = fmt::format("{} opens the return alone and leaves what it switches off under voltage", item.id);
      finding.mend = fmt::format("move {} into the feed, or let it open both sides", item.id);
    }
    findings.push_back(std::move(finding));
  }
  return findings;
}

}  // namespace

constexpr Rule switched_return = {
    "switched-return",
    Severity::caution,
    "A fuse, breaker, switch, relay contact or plug pole lies in the return alone, where the rulebook objects. "
    "Shunts and dimmers are excepted, and a pole whose fellow poles open the feed of the same loads.",
    "Switched off, the load and its whole wiring still stand under voltage: any touch of metalwork is a short, "
    "and may switch the load on.",
    "Move it into the feed, between the fuse and the load, or take a part with two poles that opens both sides.",
    "The rulebook's clause on switching the return.",
    check};

}  // namespace loomleaf
