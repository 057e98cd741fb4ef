#include <algorithm>
#include <tuple>

#include "acceptances.h"
#include "idle_accept.h"
#include "loomleaf/rules/rule.h"

namespace loomleaf {

std::string_view name_of(Severity severity) {
  switch (severity) {
    case Severity::notice:
      return "NOTICE";
    case Severity::caution:
      return "CAUTION";
    case Severity::warning:
      return "WARNING";
    case Severity::danger:
      return "DANGER";
  }
  return "";
}

namespace {

// Marks what the plan accepts; gives by `accept` line what it met. A DANGER cannot be accepted.
std::vector<Met> apply_acceptances(const Plan& plan, std::vector<Finding>& findings) {
  std::vector<Met> met(plan.acceptances.size());
  const Acceptances acceptances(plan);
  for (Finding& finding : findings) {
    const bool danger = finding.severity == Severity::danger;
    for (const std::size_t at : acceptances.covering(finding.rule, finding.subjects.front())) {
      (danger ? met[at].danger : met[at].accepted) = true;
      if (!danger && !finding.accepted) finding.accepted = plan.acceptances[at].reason;
    }
  }
  return met;
}

bool stands_before(const Finding& a, const Finding& b) {
  if (a.severity != b.severity) return a.severity > b.severity;
  return std::tie(a.span.begin, a.rule, a.subjects) < std::tie(b.span.begin, b.rule, b.subjects);
}

}  // namespace

std::vector<Finding> run_rules(const Checked& checked) {
  std::vector<Finding> findings;
  for (const Rule& rule : all_rules()) {
    std::vector<Finding> found = rule.check(checked);
    std::move(found.begin(), found.end(), std::back_inserter(findings));
  }
  const std::vector<Met> met = apply_acceptances(checked.plan, findings);
  std::vector<Finding> idle = idle_accepts(checked.plan, met, findings);
  std::move(idle.begin(), idle.end(), std::back_inserter(findings));
  std::ranges::stable_sort(findings, stands_before);
  return findings;
}

Tally tally(const std::vector<Finding>& findings) {
  Tally tally;
  for (const Finding& finding : findings) {
    if (finding.accepted) {
      ++tally.accepted;
      continue;
    }
    switch (finding.severity) {
      case Severity::danger:
        ++tally.danger;
        break;
      case Severity::warning:
        ++tally.warning;
        break;
      case Severity::caution:
        ++tally.caution;
        break;
      case Severity::notice:
        ++tally.notice;
        break;
    }
    if (finding.rule == "not-checked") tally.not_done += static_cast<int>(finding.subjects.size());
  }
  return tally;
}

}  // namespace loomleaf
