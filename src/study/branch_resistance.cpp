#include "loomleaf/study/branch_resistance.h"

namespace loomleaf {
namespace {

std::optional<Resistance> device_resistance(const Device& device, const Stock& stock) {
  if (device.resistance) return device.resistance;
  const FuseFamily* family = stock.find_family(device.family);
  if (!family || !device.rating) return std::nullopt;
  return family->resistance(*device.rating);
}

std::optional<Resistance> own_resistance(const Item& item, const Stock& stock) {
  if (const Device* device = item.as<Device>()) return device_resistance(*device, stock);
  if (const Shunt* shunt = item.as<Shunt>()) return shunt->resistance;
  return std::nullopt;
}

}  // namespace

BranchResistances branch_resistances(const Plan& plan, const Circuit& circuit, const Stock& stock,
                                     const IndexedList<ConductorOf, ConductorFigures>& conductors) {
  BranchResistances resistances;
  for (const Branch& branch : circuit.branches) {
    if (branch.conductor) {
      resistances.value.add(conductors[*branch.conductor].resistance);
      resistances.unknown.add(false);
      continue;
    }
    const std::optional<Resistance> own = own_resistance(plan.items[*branch.item], stock);
    const Resistance otherwise = branch.kind == BranchKind::contact ? stock.contact_resistance.value : Resistance{};
    resistances.value.add(own.value_or(otherwise));
    resistances.unknown.add(!own && otherwise == Resistance{});
  }
  return resistances;
}

}  // namespace loomleaf
