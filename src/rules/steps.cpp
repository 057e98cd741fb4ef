#include "steps.h"

#include <fmt/format.h>

#include "loomleaf/units/format.h"

namespace loomleaf {

FigureTexts alike(double is, double may_be, const std::string& unit) {
  if (is == may_be) return {to_text(is, 2) + " " + unit, to_text(may_be, 2) + " " + unit};
  return apart(is, may_be, unit);
}

FigureTexts alike(Current is, Current may_be) { return alike(is.in(amperes), may_be.in(amperes), "A"); }

FigureTexts alike(Voltage is, Voltage may_be) { return alike(is.in(volts), may_be.in(volts), "V"); }

std::string held_against(double is, double may_be, const std::string& unit) {
  const bool over = exceeds(is, may_be);
  const FigureTexts texts = alike(is, may_be, unit);
  return fmt::format("{} is {}more than {}: {} finding", texts.is, over ? "" : "not ", texts.may_be, over ? "a" : "no");
}

std::string held_against(Current is, Current may_be) { return held_against(is.in(amperes), may_be.in(amperes), "A"); }

std::string held_against(Voltage is, Voltage may_be) { return held_against(is.in(volts), may_be.in(volts), "V"); }

Steps ampacity_steps(const Checked& checked, ConductorId conductor, bool with_allowance) {
  const ConductorFigures& figures = checked.study.conductors[conductor];
  const auto table = figures.from_table();
  if (!table) return {};
  const auto insulation_text = [](const std::optional<Temperature>& of) {
    return of ? to_text(*of) + " insulation" : std::string("insulation not given");
  };
  LookedUpAs as{figures.size, run_of(checked.plan, conductor).insulation};
  Steps steps;
  if (figures.no_more_than) {
    steps.push_back(fmt::format("{}, {}: the rulebook has no table for it, but what follows carries no less",
                                to_text(as.size), insulation_text(as.insulation)));
    as = figures.no_more_than->as;
  }
  if (const WireSize judged = checked.rulebook.judged_as(as.size); judged != as.size)
    steps.push_back(fmt::format("{} counts as {} ({})", to_text(as.size), to_text(judged),
                                to_text(checked.rulebook.sae_counts_as_awg.from)));
  steps.push_back(fmt::format("table: {}, {}, may carry {} ({})", to_text(as.size), insulation_text(as.insulation),
                              to_text(table->value), to_text(table->from)));
  if (figures.ambient_factor != 1.0)
    steps.push_back(
        fmt::format("warm place: x {} ({})", to_text(figures.ambient_factor, 3), to_text(figures.ambient_from)));
  if (figures.grouping_factor != 1.0)
    steps.push_back(fmt::format("{} run together: x {} ({})", figures.grouped_with, to_text(figures.grouping_factor, 3),
                                to_text(figures.grouping_from)));
  const Current ampacity = *figures.carries_at_most();
  if (ampacity != table->value) steps.push_back(fmt::format("ampacity where it runs = {}", to_text(ampacity)));
  const Figure<double>& allowance = figures.allowance;
  if (with_allowance && allowance.value != 1.0)
    steps.push_back(fmt::format("a device may be {} times that: {} x {} = {} ({})", to_text(allowance.value, 2),
                                to_text(allowance.value, 2), to_text(ampacity), to_text(ampacity * allowance.value),
                                to_text(allowance.from)));
  if (with_allowance && figures.side_by_side > 1)
    steps.push_back(fmt::format("{} alike side by side share what flows: x {} = {} ({})", figures.side_by_side,
                                figures.side_by_side, to_text(*figures.may_carry),
                                to_text(checked.rulebook.parallel_from->from)));
  return steps;
}

std::string case_words(const Checked& checked, std::size_t in_case) {
  const Case& at = checked.study.working.cases[in_case];
  const std::string subject = at.subject ? id_of(checked.plan, *at.subject) : "";
  std::string stands_for;
  switch (at.kind) {
    case Case::Kind::load:
      stands_for = "everything on, each as it is used";
      break;
    case Case::Kind::charge:
      stands_for = "the loads off, the chargers at their limit";
      break;
    case Case::Kind::load_charge:
      stands_for = fmt::format("everything on as it is used{}, and what charges through converters at its limit",
                               subject.empty() ? "" : fmt::format(", what {} feeds in full", subject));
      break;
    case Case::Kind::full:
      stands_for = fmt::format("everything on as it is used, what {} feeds in full", subject);
      break;
    case Case::Kind::starter:
      stands_for = fmt::format("{} runs alone", subject);
      break;
  }
  if (at.at_highest) stands_for += "; the supplies at their highest voltage";
  return fmt::format(", in case `{}` ({})", at.name, stands_for);
}

Steps overload_steps(const Checked& checked, const std::string& what, const std::optional<Worst<Current>>& current,
                     const std::optional<Current>& rating) {
  if (!current || !rating) return {};
  const Current is = abs(current->value);
  const FigureTexts texts = alike(is, *rating);
  return {fmt::format("{} = {}{}", what, texts.is, case_words(checked, current->in_case)),
          fmt::format("rating = {}", texts.may_be), held_against(is, *rating)};
}

}  // namespace loomleaf
