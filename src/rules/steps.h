// The words of the steps that `explain` gives with a plan's own figures.
#pragma once

#include <string>

#include "found.h"
#include "loomleaf/rules/rule.h"

namespace loomleaf {

// Both figures with the decimals that `held_against` gives them, for the steps before it: one rounding throughout.
FigureTexts alike(double is, double may_be, const std::string& unit);
FigureTexts alike(Current is, Current may_be);
FigureTexts alike(Voltage is, Voltage may_be);

// "3.4 % is more than 3 %: a finding", "2 % is not more than 3 %: no finding".
std::string held_against(double is, double may_be, const std::string& unit);
std::string held_against(Current is, Current may_be);
std::string held_against(Voltage is, Voltage may_be);

// From the rulebook's table to what this conductor may carry where it runs; a device's allowance where that counts.
Steps ampacity_steps(const Checked& checked, ConductorId conductor, bool with_allowance);

// What a working current comes to against a rating, for the rules on overload. No steps where either is not known.
Steps overload_steps(const Checked& checked, const std::string& what, const std::optional<Worst<Current>>& current,
                     const std::optional<Current>& rating);

// ", in case `load` (everything on, each as it is used)": the name of the case and what it stands for.
std::string case_words(const Checked& checked, std::size_t in_case);

}  // namespace loomleaf
