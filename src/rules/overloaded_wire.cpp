#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "catalogue.h"
#include "cure.h"
#include "found.h"
#include "loomleaf/study/adiabatic.h"
#include "loomleaf/units/format.h"
#include "steps.h"

namespace loomleaf {

namespace {

// How long a starter is cranked at a stretch: common practice, no source.
constexpr Duration kCranking = seconds(30);
constexpr Temperature kUsualStart = celsius(30);  // of a conductor before, where nothing warmer is told

// What a conductor of this area bears for as long as a starter is cranked: from the temperature of its surroundings to
// that of its insulation, while no heat leaves it (adiabatic.h).
Current bears_cranking(const Checked& checked, ConductorId conductor, Area area) {
  const RunId run = checked.plan.conductors[conductor].run;
  const Temperature start = std::max(checked.plan.system.conductor_temperature.value_or(kUsualStart),
                                     checked.routes.runs[run].warmest.value_or(kUsualStart));
  const Temperature limit = checked.study.conductors[conductor].insulation;
  if (limit <= start) return {};
  return amperes(adiabatic_k(start, limit) * area.in(square_millimetres) / std::sqrt(kCranking.in(seconds)));
}

// A current that a conductor is asked to carry, and what it may.
struct Burden {
  enum class Kind { lasting, cranking, asked_for };
  Kind kind = Kind::lasting;
  Current is{}, may_be{};
  std::size_t in_case = 0;
  bool is_too_much() const { return exceeds(is.in(amperes), may_be.in(amperes)); }
};

bool is_cranking(const Checked& checked, std::size_t in_case) {
  return checked.study.working.cases[in_case].kind == Case::Kind::starter;
}

// What counts of a conductor: what it carries all day, then what it carries while a starter runs, then what is asked
// for where the voltage breaks down, all day and by a starter. A starter that asks for more masks nothing that lasts.
std::vector<Burden> burdens_of(const Checked& checked, ConductorId conductor) {
  const ConductorFigures& figures = checked.study.conductors[conductor];
  const auto most = figures.carries_at_most();
  if (!most || run_of(checked.plan, conductor).signal) return {};
  const WorkingPoints& working = checked.study.working;
  const BranchId branch = checked.circuit.branch_of[conductor];
  const Current for_seconds = std::max(*most, bears_cranking(checked, conductor, figures.area));
  std::vector<Burden> burdens;
  if (const auto& worst = working.lasting_branches[branch])
    burdens.push_back({Burden::Kind::lasting, abs(worst->value), *most, worst->in_case});
  if (const auto& worst = working.branches[branch]; worst && is_cranking(checked, worst->in_case))
    burdens.push_back({Burden::Kind::cranking, abs(worst->value), for_seconds, worst->in_case});
  const auto ask = [&](const std::optional<Worst<Current>>& worst, Current may_be) {
    burdens.push_back({Burden::Kind::asked_for, abs(worst->value), may_be, worst->in_case});
  };
  if (const auto& worst = working.lasting_asked_for[branch]) ask(worst, *most);
  if (const auto& worst = working.asked_for[branch]; worst && is_cranking(checked, worst->in_case))
    ask(worst, for_seconds);
  return burdens;
}

std::string message_of(const Checked& checked, const std::string& id, const ConductorFigures& figures,
                       const Burden& burden, const FigureTexts& texts) {
  const std::string in_case = in_case_text(checked.study, burden.in_case);
  const std::string may_be =
      is_cranking(checked, burden.in_case)
          ? fmt::format("bears at most {} for {}", texts.may_be, to_text(kCranking))
          : fmt::format("may carry {}{}",
                        figures.ampacity ? "at most " + texts.may_be : may_carry_text(figures, texts.may_be),
                        factors_text(figures));
  switch (burden.kind) {
    case Burden::Kind::lasting:
      break;
    case Burden::Kind::cranking:
      return fmt::format("{} carries {} while a starter runs{}, but {}", id, texts.is, in_case, may_be);
    case Burden::Kind::asked_for:
      return fmt::format("{} is asked for {} or more{}, under which the voltage breaks down, but {}", id, texts.is,
                         in_case, may_be);
  }
  return fmt::format("{} carries {} in normal work{}, but {}", id, texts.is, in_case, may_be);
}

std::string mend_of(const Checked& checked, ConductorId conductor, const Burden& burden) {
  if (!is_cranking(checked, burden.in_case)) return thicker_text(checked, conductor, burden.is, Bears::working_current);
  const Run& run = run_of(checked.plan, conductor);
  for (const WireStock* wire : thicker_stock(checked.stock, checked.study.conductors[conductor].size, run.is_cable)) {
    const Current bears = bears_cranking(checked, conductor, wire->area);
    if (!exceeds(burden.is.in(amperes), bears.in(amperes)))
      return fmt::format("make {} {} or thicker, which bears {} for {}", run.id, to_text(wire->size), to_text(bears),
                         to_text(kCranking));
  }
  return fmt::format("lead {} a cooler way, or give it insulation for a higher temperature", run.id);
}

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  for (const ConductorId conductor : checked.plan.conductors.ids()) {
    const std::vector<Burden> burdens = burdens_of(checked, conductor);
    const auto burden = std::ranges::find_if(burdens, &Burden::is_too_much);
    if (burden == burdens.end()) continue;
    const ConductorFigures& figures = checked.study.conductors[conductor];
    Finding finding = found(overloaded_wire, checked.plan, conductor);
    const FigureTexts texts = set_values(finding, burden->is, burden->may_be);
    finding.message = message_of(checked, finding.subjects[0], figures, *burden, texts);
    finding.mend = mend_of(checked, conductor, *burden);
    finding.source = is_cranking(checked, burden->in_case) ? "common practice, after IEC 60949"
                                                           : ampacity_source(figures, Bears::working_current);
    findings.push_back(std::move(finding));
  }
  return findings;
}

Steps work_out(const Checked& checked, const Subject& subject) {
  const ConductorId* conductor = std::get_if<ConductorId>(&subject);
  if (!conductor) return {};
  Steps steps = ampacity_steps(checked, *conductor, false);
  const std::vector<Burden> burdens = burdens_of(checked, *conductor);
  if (steps.empty() || burdens.empty()) return {};
  for (const Burden& burden : burdens) {
    const bool cranking = is_cranking(checked, burden.in_case);
    if (cranking)
      steps.push_back(fmt::format("while a starter runs, for {}, it bears {}", to_text(kCranking),
                                  alike(burden.is, burden.may_be).may_be));
    steps.push_back(fmt::format("{} = {}{}",
                                burden.kind == Burden::Kind::asked_for ? "asked for where the voltage breaks down"
                                : cranking                             ? "current while a starter runs"
                                                                       : "working current",
                                alike(burden.is, burden.may_be).is, case_words(checked, burden.in_case)));
    steps.push_back(held_against(burden.is, burden.may_be));
  }
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
