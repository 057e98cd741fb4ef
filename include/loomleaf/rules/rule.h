// The catalogue of checks. Each rule is one file in src/rules/ that holds its check and its manual page.
#pragma once

#include <optional>
#include <span>
#include <string_view>
#include <variant>
#include <vector>

#include "loomleaf/circuit/circuit.h"
#include "loomleaf/plan/plan.h"
#include "loomleaf/route/route.h"
#include "loomleaf/rules/finding.h"
#include "loomleaf/stock/rulebook.h"
#include "loomleaf/stock/stock.h"
#include "loomleaf/study/study.h"

namespace loomleaf {

// All that a rule may look at.
struct Checked {
  const Plan& plan;
  const Routes& routes;
  const Circuit& circuit;
  const Study& study;
  const Stock& stock;
  const Rulebook& rulebook;
};

// What an ID in a plan can name for a rule.
using Subject = std::variant<ItemId, ConductorId, LegId>;

// The way from the plan's figures to a rule's verdict, one step a line: "drop = (12 V - 11.63 V) / 12 V = 3.1 %".
using Steps = std::vector<std::string>;

struct Rule {
  std::string_view name;
  Severity severity;        // the highest it gives; `lowest` below is told where it gives several
  std::string_view what;    // the manual page, each a short paragraph: what it finds,
  std::string_view why;     // why it matters,
  std::string_view mend;    // how to mend it,
  std::string_view source;  // where the limit comes from
  std::vector<Finding> (*check)(const Checked&);
  // How the figure is come by, and the same in round numbers. Empty where the rule has no figure.
  std::string_view formula = {}, example = {};
  // The same with this plan's own numbers; no steps where the rule has nothing to work out for such a thing. Null where
  // it has no figure.
  Steps (*work_out)(const Checked&, const Subject&) = nullptr;
  std::optional<Severity> lowest = {};

  // No finding of such a rule can be accepted.
  bool is_always_danger() const { return severity == Severity::danger && !lowest; }
};

std::span<const Rule> all_rules();  // in order of severity, then name
const Rule* find_rule(std::string_view name);

// Runs every rule, applies the plan's `accept`s, and sorts: severity, then place in the plan, then rule, then subjects.
// A DANGER stays whatever the plan accepts; an `accept` that meets one, or meets nothing, is itself a finding.
std::vector<Finding> run_rules(const Checked& checked);

// Accepted findings count as `accepted` alone. `not_done`: how many times a check found its data missing, by subject.
struct Tally {
  int danger = 0, warning = 0, caution = 0, notice = 0, accepted = 0, not_done = 0;
};
Tally tally(const std::vector<Finding>& findings);

}  // namespace loomleaf
