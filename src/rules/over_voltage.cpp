#include <fmt/format.h>

#include "catalogue.h"
#include "found.h"
#include "highest_voltage.h"
#include "loomleaf/units/format.h"
#include "steps.h"

namespace loomleaf {

namespace {

constexpr double borne = 1.25;  // times the rated voltage, where no `max V` is given

struct Limit {
  Voltage voltage{};
  std::string source;
};

std::optional<Limit> limit_of(const Item& item, const Load& load, const std::optional<Voltage>& rated) {
  if (load.max_voltage) return Limit{*load.max_voltage, fmt::format("the plan's `max V` of {}", item.id)};
  if (rated)
    return Limit{*rated * borne, fmt::format("1.25 times the {} it is rated at, common practice", to_text(*rated))};
  return std::nullopt;
}

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  for (std::size_t at = 0; at < checked.circuit.loads.size(); ++at) {
    const TwoPole& ends = checked.circuit.loads[at];
    const Item& item = checked.plan.items[ends.item];
    const Load* load = item.as<Load>();
    const auto highest = highest_across(checked, ends.plus, ends.minus);
    if (!load || !highest) continue;
    const auto limit = limit_of(item, *load, checked.study.working.loads[at].rated_voltage);
    if (!limit || !exceeds(highest->voltage.in(volts), limit->voltage.in(volts))) continue;
    Finding finding = found(over_voltage, checked.plan, ends.item);
    const FigureTexts texts = set_values(finding, highest->voltage, limit->voltage);
    finding.message = fmt::format("{} gets up to {} from {}, it bears {}", item.id, texts.is,
                                  supply_text(checked, *highest), texts.may_be);
    finding.mend = fmt::format("feed {} through a converter, or take one that bears {}", item.id, texts.is);
    finding.source = limit->source;
    findings.push_back(std::move(finding));
  }
  return findings;
}

Steps work_out(const Checked& checked, const Subject& subject) {
  const ItemId* item = std::get_if<ItemId>(&subject);
  Steps steps;
  for (std::size_t at = 0; item && at < checked.circuit.loads.size(); ++at) {
    const TwoPole& ends = checked.circuit.loads[at];
    const Load* load = checked.plan.items[ends.item].as<Load>();
    const auto highest = highest_across(checked, ends.plus, ends.minus);
    if (ends.item != *item || !load || !highest) continue;
    const auto limit = limit_of(checked.plan.items[*item], *load, checked.study.working.loads[at].rated_voltage);
    if (!limit) continue;
    steps.push_back(
        fmt::format("highest voltage = {} from {}", to_text(highest->voltage), supply_text(checked, *highest)));
    steps.push_back(fmt::format("it bears {}: {}", to_text(limit->voltage), limit->source));
    steps.push_back(held_against(highest->voltage, limit->voltage));
  }
  return steps;
}

}  // namespace

constexpr Rule over_voltage = {
    "over-voltage",
    Severity::warning,
    "The highest voltage of its supply exceeds a load's `max V`, or where none is given 1.25 times the voltage it "
    "is rated at.",
    "Lamps burn out, electronics fail at once or within days, mostly while the battery is being charged.",
    "A converter that holds the voltage, or a load made for the range; where the maker allows more, say so: `max "
    "16 V`.",
    "The load's `max V`, else 1.25 times its rated voltage (common practice: charging raises a 12 V battery to "
    "14.4 V and more).",
    check,
    "The `high` voltage of its supply (a chain's is the sum) may not be above the load's `max V`, else 1.25 "
    "times the voltage that it is rated at.",
    "A lamp for 12 V bears 1.25 x 12 V = 15 V: a battery charged at 14.4 V is no finding, one equalised at "
    "15.5 V is.",
    work_out};

}  // namespace loomleaf
