#include <fmt/format.h>

#include "catalogue.h"
#include "found.h"
#include "highest_voltage.h"
#include "loomleaf/units/format.h"

namespace loomleaf {

namespace {

constexpr double borne = 1.25;  // times the rated voltage, where no `max V` is given

struct Limit {
  Voltage voltage{};
  std::string source;
};

std::optional<Limit> limit_of(const Checked& checked, const Item& item, const Load& load, const Highest& highest) {
  if (load.max_voltage) return Limit{*load.max_voltage, fmt::format("the plan's `max V` of {}", item.id)};
  if (load.rated_voltage)
    return Limit{*load.rated_voltage * borne, "1.25 times the load's rated voltage, common practice"};
  const Supply& supply = checked.study.sides[highest.ways].supplies[highest.supply];
  if (supply.converter) return std::nullopt;  // the load is taken as made for its converter
  if (checked.plan.system.voltages.size() != 1) return std::nullopt;
  return Limit{checked.plan.system.voltages.front() * borne, "1.25 times the system's voltage, common practice"};
}

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  for (const TwoPole& ends : checked.circuit.loads) {
    const Item& item = checked.plan.items[ends.item];
    const Load* load = item.as<Load>();
    const auto highest = highest_across(checked, ends.plus, ends.minus);
    if (!load || !highest) continue;
    const auto limit = limit_of(checked, item, *load, *highest);
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

}  // namespace

constexpr Rule over_voltage = {
    "over-voltage",
    Severity::warning,
    "The highest voltage of its supply exceeds a load's `max V`, or where none is given 1.25 times the voltage it is "
    "rated at.",
    "Lamps burn out, electronics fail at once or within days, mostly while the battery is being charged.",
    "A converter that holds the voltage, or a load made for the range; where the maker allows more, say so: `max 16 "
    "V`.",
    "The load's `max V`, else 1.25 times its rated voltage (common practice: charging raises a 12 V battery to 14.4 V "
    "and "
    "more).",
    check};

}  // namespace loomleaf
