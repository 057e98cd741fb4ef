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
    if (!reach.has_feed || reach.has_return) continue;
    Finding finding = found(no_return, checked.plan, reach.item);
    const std::vector<std::string> free = free_terminals(checked.plan, reach.item, joined);
    finding.message =
        fmt::format("{} has no way back: it is fed, but nothing leads on to the - of the supply that feeds it{}",
                    finding.subjects[0], free.empty() ? "" : ", and nothing is joined to " + listed(free));
    finding.mend = free.empty() ? "follow its return wire, and join the place where it ends to the - of the supply"
                                : fmt::format("run a wire from {} to the - of the supply", free.front());
    finding.source = "common practice";
    findings.push_back(std::move(finding));
  }
  return findings;
}

}  // namespace

constexpr Rule no_return = {
    "no-return",
    Severity::warning,
    "A supply's + reaches this load, or this converter's input, but in no position of the switches is there a way "
    "from its other side back to that supply's -. A load in series with another is `not-checked` instead.",
    "The load will not work, yet its whole wiring is live: whoever looks for the fault works on a wire under "
    "voltage.",
    "Join its return to the negative bus or to the supply's -; a return that ends on a bus which itself is joined "
    "to nothing is the usual cause.",
    "Common practice.",
    check};

}  // namespace loomleaf
