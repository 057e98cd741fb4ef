#include <fmt/format.h>

#include <algorithm>

#include "catalogue.h"
#include "found.h"
#include "less_drop.h"
#include "loomleaf/units/format.h"
#include "steps.h"

namespace loomleaf {

namespace {

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  DropCures cures(checked);
  for (std::size_t load = 0; load < checked.circuit.loads.size(); ++load) {
    const LoadResult& result = checked.study.working.loads[load];
    if (!result.drop || !exceeds(result.drop->value, result.drop_limit)) continue;
    Finding finding = found(voltage_drop, checked.plan, checked.circuit.loads[load].item);
    const FigureTexts texts = set_values(finding, result.drop->value * 100, result.drop_limit * 100, "%");
    const Voltage supply = result.supply_voltage.value_or(Voltage{});
    finding.message =
        fmt::format("{} loses {} of {} on the way out and back{}, but may lose at most {}", finding.subjects[0],
                    texts.is, to_text(supply), in_case_text(checked.study, result.drop->in_case), texts.may_be);
    finding.mend = cures.text(load, result.drop->in_case, supply * result.drop->value, supply * result.drop_limit);
    finding.source = to_text(result.drop_limit_from);
    findings.push_back(std::move(finding));
  }
  return findings;
}

std::optional<std::size_t> load_at(const Checked& checked, const Subject& subject) {
  const ItemId* item = std::get_if<ItemId>(&subject);
  const auto found =
      std::ranges::find_if(checked.circuit.loads, [&](const TwoPole& load) { return item && load.item == *item; });
  if (found == checked.circuit.loads.end()) return std::nullopt;
  return static_cast<std::size_t>(found - checked.circuit.loads.begin());
}

// What each conductor of its final circuit loses, at the greatest current that it carries.
void add_losses(const Checked& checked, ItemId load, Steps& steps) {
  for (const FinalCircuit& circuit : checked.study.circuits) {
    if (std::ranges::find(circuit.loads, load) == circuit.loads.end()) continue;
    for (const BranchId branch : circuit.branches) {
      const auto& conductor = checked.circuit.branches[branch].conductor;
      const auto& worst = checked.study.working.branches[branch];
      if (!conductor || !worst || abs(worst->value) < milliamperes(1)) continue;
      const Resistance ohm = checked.study.conductors[*conductor].resistance;
      steps.push_back(fmt::format("at most in {}: {} x {} = {} V", id_of(checked.plan, *conductor),
                                  to_text(abs(worst->value)), to_text(ohm),
                                  to_text((abs(worst->value) * ohm).in(volts), 3)));
    }
  }
}

Steps work_out(const Checked& checked, const Subject& subject) {
  const auto load = load_at(checked, subject);
  if (!load) return {};
  const LoadResult& result = checked.study.working.loads[*load];
  if (!result.drop || !result.supply_voltage) return {};
  const Voltage supply = *result.supply_voltage, there = supply * (1.0 - result.drop->value);
  const FigureTexts texts = alike(result.drop->value * 100, result.drop_limit * 100, "%");
  Steps steps{fmt::format("its supply stands at {}, it gets {}{}", to_text(supply), to_text(there),
                          case_words(checked, result.drop->in_case)),
              fmt::format("drop = ({} - {}) / {} = {}", to_text(supply), to_text(there), to_text(supply), texts.is)};
  add_losses(checked, checked.circuit.loads[*load].item, steps);
  steps.push_back(fmt::format("it may lose at most {}: {}", texts.may_be, to_text(result.drop_limit_from)));
  steps.push_back(held_against(result.drop->value * 100, result.drop_limit * 100, "%"));
  return steps;
}

}  // namespace

constexpr Rule voltage_drop = {
    "voltage-drop",
    Severity::caution,
    "What a load loses on its way out and back, in per cent of its supply's voltage, is over the load's own "
    "limit, else the plan's, else the rulebook's.",
    "Lamps are dim, pumps are slow, and electronics switch off long before the battery is empty; what is lost "
    "heats the wire.",
    "A thicker conductor on the longest part of the way, a shorter way, or fewer loads on one circuit.",
    "The load's `drop`, the plan's `drop`, or the rulebook's limit.",
    check,
    "drop = (U - voltage at the load) / U, with U the voltage of its supply. What a conductor loses is its "
    "current times its resistance, and the length counts once on the way out and once on the way back.",
    "2 A through 10 m of 1.5 mm2 and 10 m back: 20 m x 0.0138 ohm/m = 0.28 ohm, 2 A x 0.28 ohm = 0.55 V. Of "
    "12 V that is 4.6 %, more than 3 %.",
    work_out};

}  // namespace loomleaf
