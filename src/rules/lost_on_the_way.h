// Where a load's voltage is lost: what really carries its current in one case, and how much of the loss falls on each.
#pragma once

#include <optional>
#include <vector>

#include "loomleaf/rules/rule.h"

namespace loomleaf {

// The currents and voltages of one case, worked out again: the study keeps the worst of all cases alone.
Solution solution_of(const Checked& checked, const Case& at);

// What one branch takes of the voltage on the load's way out and back.
struct Loss {
  BranchId branch;
  Current current{};   // that it carries in all
  double share = 1.0;  // of its loss that counts: less where the current comes several ways
  Voltage volts{};     // that share of current times resistance
};

// From the load's + upstream and from its - downstream, along the current; the losses add up to the load's drop. In
// order from the load, the way out first. Nothing where nothing flows, or where more than `most` branches lie on one
// side.
std::optional<std::vector<Loss>> losses_of(const Checked& checked, const Solution& solution, std::size_t load,
                                           std::size_t most);

}  // namespace loomleaf
