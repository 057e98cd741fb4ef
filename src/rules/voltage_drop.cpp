#include <fmt/format.h>

#include "catalogue.h"
#include "found.h"
#include "less_drop.h"
#include "loomleaf/units/format.h"

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
        fmt::format("{} loses {} of {} on the way out and back{}, it may lose {}", finding.subjects[0], texts.is,
                    to_text(supply), in_case_text(checked.study, result.drop->in_case), texts.may_be);
    finding.mend = cures.text(load, result.drop->in_case, supply * result.drop->value, supply * result.drop_limit);
    finding.source = to_text(result.drop_limit_from);
    findings.push_back(std::move(finding));
  }
  return findings;
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
    check};

}  // namespace loomleaf
