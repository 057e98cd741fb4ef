// What the rules on overloaded items have in common: a working current held against a rating.
#pragma once

#include <optional>
#include <vector>

#include "loomleaf/rules/rule.h"

namespace loomleaf {

// Adds a finding where the current is over the rating; silent where either is not known.
void add_overload(std::vector<Finding>& findings, const Rule& rule, const Checked& checked, ItemId item,
                  const std::optional<Worst<Current>>& current, const std::optional<Current>& rating);

// One contact of an item: a pole of a switch or connector, a way of a changeover, a run of a dimmer.
struct Contact {
  BranchId branch;
  std::optional<Current> rating;
};
// By item in the plan's order, then by branch.
std::vector<Contact> contacts_of(const Plan& plan, const Circuit& circuit);

}  // namespace loomleaf
