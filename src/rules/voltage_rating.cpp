#include <fmt/format.h>

#include "catalogue.h"
#include "found.h"
#include "highest_voltage.h"
#include "loomleaf/units/format.h"
#include "steps.h"

namespace loomleaf {

namespace {

struct Rated {
  Voltage voltage{};
  std::string source;
  Severity severity = Severity::danger;
};

std::optional<Rated> rating_of(const Checked& checked, const Item& item) {
  const std::string stated = fmt::format("the plan's `V` of {}", item.id);
  if (const Switch* contact = item.as<Switch>()) {
    if (contact->rated_voltage) return Rated{*contact->rated_voltage, stated, Severity::warning};
  }
  if (const Device* device = item.as<Device>()) {
    if (device->rated_voltage) return Rated{*device->rated_voltage, stated};
    if (const FuseFamily* family = checked.stock.find_family(device->family))
      return Rated{family->rated_voltage, to_text(family->from)};
  }
  return std::nullopt;
}

std::vector<Finding> check(const Checked& checked) {
  IndexedList<ItemOf, std::optional<Highest>> highest(checked.plan.items.size());
  for (const BranchId branch : checked.circuit.branches.ids()) {
    const Branch& at = checked.circuit.branches[branch];
    if (at.kind == BranchKind::conductor || !rating_of(checked, checked.plan.items[*at.item])) continue;
    const auto here = highest_at(checked, branch);
    auto& so_far = highest[*at.item];
    if (here && (!so_far || here->voltage > so_far->voltage)) so_far = here;
  }
  std::vector<Finding> findings;
  for (const ItemId id : checked.plan.items.ids()) {
    if (!highest[id]) continue;
    const Item& item = checked.plan.items[id];
    const Rated rated = *rating_of(checked, item);
    if (!exceeds(highest[id]->voltage.in(volts), rated.voltage.in(volts))) continue;
    Finding finding = found(voltage_rating, checked.plan, id);
    finding.severity = rated.severity;
    const FigureTexts texts = set_values(finding, highest[id]->voltage, rated.voltage);
    finding.message = fmt::format("{} stands at up to {} from {}, it is made for {}", item.id, texts.is,
                                  supply_text(checked, *highest[id]), texts.may_be);
    finding.mend = fmt::format("fit a {} that is made for {} or more", item.keyword, texts.is);
    finding.source = rated.source;
    findings.push_back(std::move(finding));
  }
  return findings;
}

Steps work_out(const Checked& checked, const Subject& subject) {
  const ItemId* item = std::get_if<ItemId>(&subject);
  const auto rated = item ? rating_of(checked, checked.plan.items[*item]) : std::nullopt;
  if (!rated) return {};
  std::optional<Highest> highest;
  for (const BranchId id : checked.circuit.branches.ids()) {
    const Branch& branch = checked.circuit.branches[id];
    if (branch.kind == BranchKind::conductor || branch.item != *item) continue;
    const auto here = highest_at(checked, id);
    if (here && (!highest || here->voltage > highest->voltage)) highest = here;
  }
  if (!highest) return {};
  const FigureTexts texts = alike(highest->voltage, rated->voltage);
  return {fmt::format("highest voltage = {} from {}", texts.is, supply_text(checked, *highest)),
          fmt::format("made for {}: {}", texts.may_be, rated->source), held_against(highest->voltage, rated->voltage)};
}

}  // namespace

constexpr Rule voltage_rating = {
    "voltage-rating",
    Severity::danger,
    "The highest voltage of a supply exceeds what a fuse or breaker is made for. On a switch it is a WARNING.",
    "A fuse above its voltage blows but does not put the arc out: the current flows on through the arc, and the "
    "holder burns.",
    "A fuse, breaker or switch made for the voltage; mind that a charging battery stands well above its nominal "
    "voltage.",
    "The plan's `V` of the part, else its family's rated voltage.",
    check,
    "The `high` voltage of the supply, which is its nominal one where none is given, may not be above what "
    "the part is made for.",
    "A blade fuse is made for 32 V. Two batteries of 12.8 V in series, charged at 28.8 V, stay below; four in "
    "series do not.",
    work_out,
    Severity::warning};

}  // namespace loomleaf
