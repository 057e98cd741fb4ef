#include "idle_accept.h"

#include <fmt/format.h>

#include <algorithm>

#include "catalogue.h"
#include "found.h"

namespace loomleaf {

namespace {

Finding begun(const Acceptance& acceptance, std::string_view what) {
  Finding finding;
  finding.rule = std::string(idle_accept.name);
  finding.severity = idle_accept.severity;
  finding.subjects = acceptance.subjects;
  finding.span = acceptance.span;
  finding.message = fmt::format("`accept {} on {}` meets {}", acceptance.rule, listed(acceptance.subjects), what);
  finding.source = "common practice";
  return finding;
}

// The subjects that the rule finds something on and nothing accepts.
std::vector<std::string> open_subjects(const std::vector<Finding>& findings, const std::string& rule) {
  std::vector<std::string> subjects;
  for (const Finding& finding : findings) {
    if (finding.rule != rule || finding.accepted || finding.severity == Severity::danger) continue;
    if (std::ranges::find(subjects, finding.subjects[0]) == subjects.end()) subjects.push_back(finding.subjects[0]);
    if (subjects.size() > 8) break;
  }
  return subjects;
}

}  // namespace

std::vector<Finding> idle_accepts(const Plan& plan, const std::vector<Met>& met, const std::vector<Finding>& findings) {
  std::vector<Finding> idle;
  for (std::size_t at = 0; at < plan.acceptances.size(); ++at) {
    const Acceptance& acceptance = plan.acceptances[at];
    if (met[at].danger) {
      idle.push_back(begun(acceptance, "a DANGER, which cannot be accepted: it stays"));
      idle.back().mend = met[at].accepted ? "mend what the DANGER is about; the line holds for the rest alone"
                                          : "take the line out, and mend what the DANGER is about";
    }
    if (met[at].danger || met[at].accepted) continue;
    idle.push_back(begun(acceptance, "no finding"));
    idle.back().mend = "take the line out";
    const std::vector<std::string> elsewhere = open_subjects(findings, acceptance.rule);
    if (!elsewhere.empty())
      idle.back().mend += fmt::format(", or say it of what the finding is on: {}", listed(elsewhere));
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
    "An `accept` line in the plan that meets no finding, or meets a DANGER, which cannot be accepted.",
    "What it accepted has been mended, or it names the wrong thing. Left in the plan it would one day hide a new "
    "finding that nobody has looked at.",
    "Take the line out, or correct the name behind `on`.",
    "Common practice.",
    check};

}  // namespace loomleaf
