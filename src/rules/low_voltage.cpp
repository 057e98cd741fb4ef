#include <fmt/format.h>

#include <set>

#include "catalogue.h"
#include "found.h"
#include "less_drop.h"
#include "loomleaf/units/format.h"
#include "steps.h"

namespace loomleaf {

namespace {

std::optional<TooMuchLost> under_the_minimum(const Plan& plan, ItemId item, const LoadResult& result) {
  const Load* load = plan.items[item].as<Load>();
  if (!load || !load->min_voltage || !result.voltage) return std::nullopt;
  if (!exceeds(load->min_voltage->in(volts), result.voltage->value.in(volts))) return std::nullopt;
  const Voltage supply = result.supply_voltage.value_or(result.voltage->value);
  return TooMuchLost{result.voltage->in_case, supply - result.voltage->value, supply - *load->min_voltage};
}

Finding below_minimum(const Checked& checked, DropCures& cures, std::size_t load, const Worst<Voltage>& worst,
                      Voltage least) {
  const LoadResult& result = checked.study.working.loads[load];
  Finding finding = found(low_voltage, checked.plan, checked.circuit.loads[load].item);
  const std::string& id = finding.subjects[0];
  const FigureTexts texts = set_values(finding, worst.value, least);
  finding.message =
      fmt::format("{} gets {}{}, it needs {}", id, texts.is, in_case_text(checked.study, worst.in_case), texts.may_be);
  const Voltage supply = result.supply_voltage.value_or(worst.value);
  if (supply > least) {
    finding.mend = cures.text(load);
  } else {
    finding.mend = fmt::format("feed {} through a converter: its supply itself stands at only {}", id, to_text(supply));
  }
  finding.source = fmt::format("the plan's `min V` of {}", id);
  return finding;
}

Finding collapsed(const Checked& checked, const WorkingPoints::Collapse& collapse) {
  const ItemId first = collapse.gives_way_first ? *collapse.gives_way_first : collapse.loads.front();
  Finding finding = found(low_voltage, checked.plan, first);
  std::vector<std::string> others;
  for (const ItemId load : collapse.loads) {
    if (load != first) others.push_back(id_of(checked.plan, load));
  }
  finding.message =
      fmt::format("the wires cannot bring as much power as is asked for{}: the voltage breaks down, at {} first{}",
                  in_case_text(checked.study, collapse.in_case), finding.subjects[0],
                  others.empty() ? "" : ", and with it at " + listed(others));
  finding.mend =
      fmt::format("make the conductors to {} several sizes thicker or their way much shorter", finding.subjects[0]);
  finding.source = "common practice";
  finding.subjects.insert(finding.subjects.end(), others.begin(), others.end());
  return finding;
}

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  DropCures cures(checked, under_the_minimum);
  for (std::size_t load = 0; load < checked.circuit.loads.size(); ++load) {
    const LoadResult& result = checked.study.working.loads[load];
    const ItemId item = checked.circuit.loads[load].item;
    if (!under_the_minimum(checked.plan, item, result)) continue;
    const Voltage least = *checked.plan.items[item].as<Load>()->min_voltage;
    findings.push_back(below_minimum(checked, cures, load, *result.voltage, least));
  }
  std::set<ItemId> told;  // the first case of a breakdown stands for the others
  for (const WorkingPoints::Collapse& collapse : checked.study.working.collapses) {
    if (collapse.loads.empty() && !collapse.gives_way_first) continue;
    const ItemId first = collapse.gives_way_first ? *collapse.gives_way_first : collapse.loads.front();
    if (told.insert(first).second) findings.push_back(collapsed(checked, collapse));
  }
  return findings;
}

Steps work_out(const Checked& checked, const Subject& subject) {
  const ItemId* item = std::get_if<ItemId>(&subject);
  Steps steps;
  for (std::size_t at = 0; item && at < checked.circuit.loads.size(); ++at) {
    const LoadResult& result = checked.study.working.loads[at];
    const Load* load = checked.plan.items[*item].as<Load>();
    if (checked.circuit.loads[at].item != *item || !load || !load->min_voltage || !result.voltage) continue;
    const Voltage is = result.voltage->value, least = *load->min_voltage;
    const FigureTexts texts = alike(is, least);
    steps.push_back(fmt::format("it gets {}{}", texts.is, case_words(checked, result.voltage->in_case)));
    steps.push_back(fmt::format("its `min V` = {}", texts.may_be));
    const bool low = exceeds(least.in(volts), is.in(volts));
    steps.push_back(
        fmt::format("{} is {}less than {}: {} finding", texts.is, low ? "" : "not ", texts.may_be, low ? "a" : "no"));
  }
  return steps;
}

}  // namespace

constexpr Rule low_voltage = {
    "low-voltage",
    Severity::caution,
    "A load gets less than its own `min V`; or what is asked of the wires is more than they can bring at any "
    "voltage, so that no working point exists.",
    "Electronics switch off, relays let go. Where no working point exists the voltage breaks down as soon as all "
    "is on, and the load that gives way first pulls the others with it.",
    "A thicker conductor or a shorter way; where the battery itself stands too low, a converter.",
    "The load's `min V`; the breakdown follows from the solution of the whole network.",
    check,
    "The voltage at the load is its supply's less all that is lost out and back. A load of P watts behind R "
    "ohms solves V (U - V) / R = P, and there is no such V where P is more than U^2 / (4 R).",
    "100 W behind 0.5 ohm on 12 V: 12 V x 12 V / (4 x 0.5 ohm) = 72 W is all that the wires can bring; no "
    "voltage at the load gives 100 W.",
    work_out};

}  // namespace loomleaf
