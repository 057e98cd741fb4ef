#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "catalogue.h"
#include "cure.h"
#include "found.h"
#include "loomleaf/units/format.h"
#include "steps.h"

namespace loomleaf {

namespace {

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  for (const ConductorId conductor : checked.plan.conductors.ids()) {
    const ConductorFigures& figures = checked.study.conductors[conductor];
    const auto& worst = checked.study.working.branches[checked.circuit.branch_of[conductor]];
    const auto most = figures.carries_at_most();
    if (!most || !worst || run_of(checked.plan, conductor).signal) continue;
    const Current is = abs(worst->value);
    if (!exceeds(is.in(amperes), most->in(amperes))) continue;
    Finding finding = found(overloaded_wire, checked.plan, conductor);
    const FigureTexts texts = set_values(finding, is, *most);
    finding.message = fmt::format("{} carries {} in normal work{}, but may carry {}{}", finding.subjects[0], texts.is,
                                  in_case_text(checked.study, worst->in_case),
                                  figures.ampacity ? "at most " + texts.may_be : may_carry_text(figures, texts.may_be),
                                  factors_text(figures));
    finding.mend = thicker_text(checked, conductor, is, Bears::working_current);
    finding.source = ampacity_source(figures, Bears::working_current);
    findings.push_back(std::move(finding));
  }
  return findings;
}

Steps work_out(const Checked& checked, const Subject& subject) {
  const ConductorId* conductor = std::get_if<ConductorId>(&subject);
  if (!conductor) return {};
  Steps steps = ampacity_steps(checked, *conductor, false);
  const auto& worst = checked.study.working.branches[checked.circuit.branch_of[*conductor]];
  if (steps.empty() || !worst) return {};
  const Current is = abs(worst->value), may_be = *checked.study.conductors[*conductor].carries_at_most();
  steps.push_back(fmt::format("working current = {}{}", alike(is, may_be).is, case_words(checked, worst->in_case)));
  steps.push_back(held_against(is, may_be));
  return steps;
}

}  // namespace

constexpr Rule overloaded_wire = {
    "overloaded-wire",
    Severity::warning,
    "The current of normal work in a conductor is more than the rulebook lets a conductor of its size, insulation "
    "and surroundings carry.",
    "The wire runs too hot hour after hour. Its insulation hardens, cracks, and one day lets a short through, "
    "where a cover hides it.",
    "A thicker conductor, insulation for a higher temperature, a cooler way, or fewer cables in one conduit; or a "
    "second circuit for part of the loads.",
    "The rulebook's ampacity table, with its factors for warmth and for cables run together.",
    check,
    "ampacity = the table's x factor for a warm place x factor for what runs together; the greatest working "
    "current over all cases may not be more. Of a size or an insulation without a table it may not be more than the "
    "nearest row that surely carries no less.",
    "12 A through a wire for 15 A at 30 C; at 50 C the factor is 0.58: 15 A x 0.58 = 8.7 A, and 12 A is more.",
    work_out};

}  // namespace loomleaf
