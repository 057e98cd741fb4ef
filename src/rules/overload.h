// What the rules on overloaded items have in common: a working current held against a rating.
#pragma once

#include <optional>
#include <vector>

#include "loomleaf/rules/rule.h"

namespace loomleaf {

// Adds a finding where the current is over the rating; silent where either is not known.
void add_overload(std::vector<Finding>& findings, const Rule& rule, const Checked& checked, ItemId item,
                  const std::optional<Worst<Current>>& current, const std::optional<Current>& rating);

}  // namespace loomleaf
