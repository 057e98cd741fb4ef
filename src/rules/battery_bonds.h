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
// through conductors, devices and contacts in any position, though not through a converter, over more metalwork, or a
// load. Of several for one battery the thickest alone, of such the first: the others bond what stands about.
std::vector<BatteryBond> battery_bonds(const Checked& checked);

// What the rulebook asks of such a bond; nothing where it is silent.
std::optional<Figure<WireSize>> least_size_of(const Checked& checked, const BatteryBond& bond);

}  // namespace loomleaf
