#include <fmt/format.h>

#include <algorithm>

#include "catalogue.h"
#include "found.h"
#include "less_drop.h"
#include "loomleaf/units/format.h"
#include "lost_on_the_way.h"
#include "steps.h"

namespace loomleaf {

namespace {

std::optional<TooMuchLost> over_the_limit(const Plan&, ItemId, const LoadResult& result) {
  if (!result.drop || !exceeds(result.drop->value, result.drop_limit)) return std::nullopt;
  const Voltage supply = result.supply_voltage.value_or(Voltage{});
  return TooMuchLost{result.drop->in_case, supply * result.drop->value, supply * result.drop_limit};
}

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  DropCures cures(checked, over_the_limit);
  for (std::size_t load = 0; load < checked.circuit.loads.size(); ++load) {
    const LoadResult& result = checked.study.working.loads[load];
    const ItemId item = checked.circuit.loads[load].item;
    if (!over_the_limit(checked.plan, item, result)) continue;
    Finding finding = found(voltage_drop, checked.plan, item);
    const FigureTexts texts = set_values(finding, result.drop->value * 100, result.drop_limit * 100, "%");
    const Voltage supply = result.supply_voltage.value_or(Voltage{});
    finding.message =
        fmt::format("{} loses {} of {} on the way out and back{}, but may lose at most {}", finding.subjects[0],
                    texts.is, to_text(supply), in_case_text(checked.study, result.drop->in_case), texts.may_be);
    finding.mend = cures.text(load);
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

std::string loss_text(const Checked& checked, const Loss& loss) {
  const Branch& branch = checked.circuit.branches[loss.branch];
  const Resistance ohm = checked.study.working.branch_resistance[loss.branch];
  const std::string& id = branch.conductor ? id_of(checked.plan, *branch.conductor) : id_of(checked.plan, *branch.item);
  const std::string text = fmt::format("in {}: {} x {} = {} V", id, to_text(loss.current), to_text(ohm),
                                       to_text((loss.current * ohm).in(volts), 3));
  if (loss.share > 0.999) return text;
  return text + fmt::format(", of which {} counts, as its current comes several ways",
                            to_text(loss.volts.in(volts), 3) + " V");
}

// What each piece on the way out and back loses in the case that counts.
void add_losses(const Checked& checked, std::size_t load, std::size_t in_case, Steps& steps) {
  constexpr std::size_t no_end = 1'000'000;
  const Solution solution = solution_of(checked, checked.study.working.cases[in_case]);
  const auto losses = losses_of(checked, solution, load, no_end);
  if (!losses) return;
  Voltage sum{};
  for (const Loss& loss : *losses) {
    if (loss.volts < volts(0.0005)) continue;  // nothing that three decimals show
    steps.push_back(loss_text(checked, loss));
    sum = sum + loss.volts;
  }
  steps.push_back(fmt::format("together, out and back: {} V", to_text(sum.in(volts), 2)));
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
  add_losses(checked, *load, result.drop->in_case, steps);
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
