#include "loomleaf/study/load_demand.h"

#include <algorithm>

namespace loomleaf {

std::optional<Voltage> rated_voltage(const Plan& plan, const Load& load, const Sides& sides,
                                     const std::vector<SupplyId>& across) {
  if (load.rated_voltage) return load.rated_voltage;
  const auto is_converter = [&](SupplyId id) { return sides.supplies[id].converter.has_value(); };
  if (!across.empty() && std::all_of(across.begin(), across.end(), is_converter))
    return sides.supplies[across.front()].nominal;
  if (plan.system.voltages.size() == 1) return plan.system.voltages.front();
  if (!across.empty()) return sides.supplies[across.front()].nominal;
  return std::nullopt;
}

Power input_power(const Load& load, Voltage rated) {
  const Power asked = load.power ? *load.power : rated * load.current.value_or(Current{});
  return asked / load.efficiency.value_or(1.0);
}

Demand demand_of(const Load& load, Voltage rated, double share) {
  const double watt = input_power(load, rated).in(watts)*share;
  const double volt = rated.in(volts);
  switch (load.kind) {
    case Load::Kind::resistive:
      return {0.0, watt / (volt * volt), 0.0};
    case Load::Kind::constant_current:
      return {0.0, 0.0, watt / volt};
    case Load::Kind::electronic:
    case Load::Kind::motor:
    case Load::Kind::starter:
      break;
  }
  return {watt, 0.0, 0.0};
}

}  // namespace loomleaf
