// The leads that bond a battery's - to metalwork.
#pragma once

#include <optional>
#include <vector>

#include "loomleaf/rules/rule.h"

namespace loomleaf {

struct BatteryBond {
  ConductorId conductor;
  std::optional<ConductorId> lead;  // the thickest on the other pole of a battery that it bonds
};

// In the plan's order: conductors that end at a `chassis`, and at their other end hang together with a battery's -
// through conductors, devices and contacts, though not through a converter, over more metalwork, or a load.
std::vector<BatteryBond> battery_bonds(const Checked& checked);

}  // namespace loomleaf
