// The contacts of an installation with their ratings.
#pragma once

#include <optional>
#include <vector>

#include "loomleaf/circuit/circuit.h"
#include "loomleaf/plan/plan.h"

namespace loomleaf {

// One contact of an item: a pole of a switch or connector, a way of a changeover, a run of a dimmer.
struct Contact {
  BranchId branch;
  std::optional<Current> rating;
};
// By item in the plan's order, then by branch.
std::vector<Contact> contacts_of(const Plan& plan, const Circuit& circuit);

}  // namespace loomleaf
