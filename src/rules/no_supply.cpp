#include <fmt/format.h>

#include "catalogue.h"
#include "found.h"
#include "reach.h"

namespace loomleaf {

namespace {

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  const IndexedList<TerminalOf, bool> joined = joined_terminals(checked.plan);
  for (const Reach& reach : reach_of_consumers(checked)) {
    if (reach.has_feed) continue;
    Finding finding = found(no_supply, checked.plan, reach.item);
    const std::vector<std::string> free = free_terminals(checked.plan, reach.item, joined);
    finding.message = fmt::format("{} gets no supply: no supply's + reaches it{}", finding.subjects[0],
                                  free.empty() ? "" : ", and nothing is joined to " + listed(free));
    finding.mend = free.empty() ? "follow its + wire back, and join the place where it ends to a fused + of the supply"
                                : fmt::format("run a wire from a fused + of the supply to {}", free.front());
    finding.source = "common practice";
    findings.push_back(std::move(finding));
  }
  return findings;
}

}  // namespace

constexpr Rule no_supply = {
    "no-supply",
    Severity::warning,
    "In no position of the switches does the + of any supply reach this load, or this converter's input. Where it "
    "has no way back either, this alone is said. A load in series with another is `not-checked` instead.",
    "The load will not work, and somewhere a wire that was meant for it ends in the wrong place.",
    "Follow the wire on its + back towards the supply and join it where it ends; a `wire` line that the plan "
    "lacks is the usual cause.",
    "Common practice.",
    check};

}  // namespace loomleaf
