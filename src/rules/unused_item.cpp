#include <fmt/format.h>

#include <algorithm>

#include "catalogue.h"
#include "found.h"

namespace loomleaf {

namespace {

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  const IndexedList<TerminalOf, bool> joined = joined_terminals(checked.plan);
  for (const ItemId id : checked.plan.items.ids()) {
    const Item& item = checked.plan.items[id];
    if (item.is<Load>() || item.is<Converter>()) continue;  // no-supply says it already
    if (std::ranges::any_of(item.terminals, [&](TerminalId terminal) { return joined[terminal]; })) continue;
    Finding finding = found(unused_item, checked.plan, id);
    finding.message = fmt::format("nothing is joined to {}", item.id);
    finding.mend = fmt::format("join {}, or take its line out of the plan", item.id);
    finding.source = "common practice";
    findings.push_back(std::move(finding));
  }
  return findings;
}

}  // namespace

constexpr Rule unused_item = {
    "unused-item",
    Severity::notice,
    "Nothing joins any terminal of an item. Of a load or converter `no-supply` says so instead.",
    "It would be bought and found on the papers, yet it does nothing; mostly the plan lacks a line.",
    "Add the conductors that join it, or take its line out.",
    "Common practice.",
    check};

}  // namespace loomleaf
