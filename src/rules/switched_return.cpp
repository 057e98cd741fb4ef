#include <fmt/format.h>

#include "catalogue.h"
#include "found.h"

namespace loomleaf {

namespace {

// Where a branch lies in those positions of the switches in which it conducts.
struct Lies {
  bool on_return = false, on_feed = false;
};

Lies lies_of(const Checked& checked, BranchId branch) {
  const Branch& at = checked.circuit.branches[branch];
  Lies lies;
  for (std::size_t ways = 0; ways < checked.study.sides.size(); ++ways) {
    if (!conducts(checked.circuit, branch, checked.study.ways.all[ways])) continue;
    const Sides& sides = checked.study.sides[ways];
    lies.on_feed = lies.on_feed || sides.is_feed(at.a);
    lies.on_return = lies.on_return || sides.is_return(at.a);
  }
  return lies;
}

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  if (checked.rulebook.return_alone_may_be_switched.value) return findings;
  IndexedList<ItemOf, Lies> lies(checked.plan.items.size());
  for (const BranchId branch : checked.circuit.branches.ids()) {
    const Branch& at = checked.circuit.branches[branch];
    if (at.kind == BranchKind::conductor) continue;
    const Lies here = lies_of(checked, branch);
    lies[*at.item].on_feed = lies[*at.item].on_feed || here.on_feed;
    lies[*at.item].on_return = lies[*at.item].on_return || here.on_return;
  }
  for (const ItemId id : checked.plan.items.ids()) {
    const Item& item = checked.plan.items[id];
    if (item.is<Shunt>() || item.is<Dimmer>() || !lies[id].on_return || lies[id].on_feed) continue;
    Finding finding = found(switched_return, checked.plan, id);
    finding.message = fmt::format("{} opens the return alone and leaves what it switches off under voltage", item.id);
    finding.mend = fmt::format("move {} into the feed, or let it open both sides", item.id);
    finding.source = sources_text({checked.rulebook.return_alone_may_be_switched.from});
    findings.push_back(std::move(finding));
  }
  return findings;
}

}  // namespace

constexpr Rule switched_return = {
    "switched-return",
    Severity::caution,
    "A fuse, breaker, switch, relay contact or plug pole lies in the return alone, where the rulebook objects. "
    "Shunts and dimmers are excepted.",
    "Switched off, the load and its whole wiring still stand under voltage: any touch of metalwork is a short, "
    "and may switch the load on.",
    "Move it into the feed, between the fuse and the load, or take a part with two poles that opens both sides.",
    "The rulebook's clause on switching the return.",
    check};

}  // namespace loomleaf
