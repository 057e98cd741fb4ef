#include "idle_accept.h"

#include <fmt/format.h>

#include <algorithm>

#include "catalogue.h"
#include "found.h"

namespace loomleaf {

std::vector<Finding> idle_accepts(const Plan& plan, const std::vector<bool>& met,
                                  const std::vector<Finding>& findings) {
  std::vector<Finding> idle;
  for (std::size_t at = 0; at < plan.acceptances.size(); ++at) {
    if (met[at]) continue;
    const Acceptance& acceptance = plan.acceptances[at];
    std::vector<std::string> elsewhere;
    for (const Finding& finding : findings) {
      if (finding.rule != acceptance.rule || finding.accepted) continue;
      if (std::ranges::find(elsewhere, finding.subjects[0]) == elsewhere.end())
        elsewhere.push_back(finding.subjects[0]);
      if (elsewhere.size() > 8) break;
    }
    Finding finding;
    finding.rule = std::string(idle_accept.name);
    finding.severity = idle_accept.severity;
    finding.subjects = acceptance.subjects;
    finding.span = acceptance.span;
    finding.message = fmt::format("`accept {} on {}` meets no finding", acceptance.rule, listed(acceptance.subjects));
    finding.mend = "take the line out";
    if (!elsewhere.empty()) finding.mend += fmt::format(", or say it of what the finding is on: {}", listed(elsewhere));
    finding.source = "common practice";
    idle.push_back(std::move(finding));
  }
  return idle;
}

namespace {

// run_rules calls idle_accepts when all other findings are there; on its own this rule has nothing to look at.
std::vector<Finding> check(const Checked&) { return {}; }

}  // namespace

constexpr Rule idle_accept = {
    "idle-accept",
    Severity::notice,
    "An `accept` line in the plan that meets no finding.",
    "What it accepted has been mended, or it names the wrong thing. Left in the plan it would one day hide a new "
    "finding that nobody has looked at.",
    "Take the line out, or correct the name behind `on`.",
    "It follows from the plan itself: common practice.",
    check};

}  // namespace loomleaf
