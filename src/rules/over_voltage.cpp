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

Limit limit_by(Voltage rated) {
  return {rated * borne, fmt::format("1.25 times the {} it is rated at, common practice", to_text(rated))};
}

std::optional<Limit> limit_of(const Item& item, const Load& load, const std::optional<Voltage>& rated) {
  if (load.max_voltage) return Limit{*load.max_voltage, fmt::format("the plan's `max V` of {}", item.id)};
  return rated ? std::optional(limit_by(*rated)) : std::nullopt;
}

// What a voltage stands across, and what that bears.
struct Borne {
  ItemId item;
  Highest highest;
  Limit limit;
  bool is_input = false;  // of a converter
};

// Loads in the plan's order, then the inputs of converters: as far as both figures are known.
std::vector<Borne> list_borne(const Checked& checked) {
  std::vector<Borne> list;
  const auto add = [&](ItemId item, NodeId plus, NodeId minus, const std::optional<Limit>& limit, bool is_input) {
    const auto highest = highest_across(checked, plus, minus);
    if (limit && highest) list.push_back({item, *highest, *limit, is_input});
  };
  for (std::size_t at = 0; at < checked.circuit.loads.size(); ++at) {
    const TwoPole& ends = checked.circuit.loads[at];
    const Item& item = checked.plan.items[ends.item];
    const auto limit = limit_of(item, *item.as<Load>(), checked.study.working.loads[at].rated_voltage);
    add(ends.item, ends.plus, ends.minus, limit, false);
  }
  for (const ConverterPorts& ports : checked.circuit.converters) {
    const auto& rated = checked.plan.items[ports.item].as<Converter>()->in_voltage;
    const auto limit = rated ? std::optional(limit_by(*rated)) : std::nullopt;
    add(ports.item, ports.in_plus, ports.in_minus, limit, true);
  }
  return list;
}

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  for (const Borne& at : list_borne(checked)) {
    if (!exceeds(at.highest.voltage.in(volts), at.limit.voltage.in(volts))) continue;
    Finding finding = found(over_voltage, checked.plan, at.item);
    const std::string& id = finding.subjects[0];
    const FigureTexts texts = set_values(finding, at.highest.voltage, at.limit.voltage);
    finding.message = fmt::format("{}{} gets up to {} from {}, it bears {}", at.is_input ? "the input of " : "", id,
                                  texts.is, supply_text(checked, at.highest), texts.may_be);
    finding.mend =
        at.is_input
            ? fmt::format("take a converter whose input bears {} as {}, and say so: `in` its voltage", texts.is, id)
            : fmt::format("feed {} through a converter, or take one that bears {}", id, texts.is);
    finding.source = at.limit.source;
    findings.push_back(std::move(finding));
  }
  return findings;
}

Steps work_out(const Checked& checked, const Subject& subject) {
  const ItemId* item = std::get_if<ItemId>(&subject);
  Steps steps;
  if (!item) return steps;
  for (const Borne& at : list_borne(checked)) {
    if (at.item != *item) continue;
    const FigureTexts texts = alike(at.highest.voltage, at.limit.voltage);
    steps.push_back(fmt::format("highest voltage = {} from {}", texts.is, supply_text(checked, at.highest)));
    steps.push_back(fmt::format("it bears {}: {}", texts.may_be, at.limit.source));
    steps.push_back(held_against(at.highest.voltage, at.limit.voltage));
  }
  return steps;
}

}  // namespace

constexpr Rule over_voltage = {
    "over-voltage",
    Severity::warning,
    "The highest voltage of its supply exceeds a load's `max V`, or where none is given 1.25 times the voltage it "
    "is rated at; or 1.25 times the `in V` of a converter.",
    "Lamps burn out, electronics fail at once or within days, mostly while the battery is being charged.",
    "A converter that holds the voltage, or a load made for the range; where the maker allows more, say so: `max "
    "16 V`. Of a converter, one whose input is made for the voltage of that bank.",
    "The load's `max V`, else 1.25 times its rated voltage (common practice: charging raises a 12 V battery to "
    "14.4 V and more).",
    check,
    "The `high` voltage of its supply (a chain's is the sum) may not be above the load's `max V`, else 1.25 "
    "times the voltage that it is rated at; a converter's input bears 1.25 times its `in V`.",
    "A lamp for 12 V bears 1.25 x 12 V = 15 V: a battery charged at 14.4 V is no finding, one equalised at "
    "15.5 V is.",
    work_out};

}  // namespace loomleaf
