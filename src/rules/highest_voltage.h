// The highest voltage that can stand at a place.
#pragma once

#include <optional>
#include <string>

#include "loomleaf/rules/rule.h"

namespace loomleaf {

struct Highest {
  Voltage voltage{};
  SupplyId supply;
  std::size_t ways = 0;
};

// The highest of the supplies whose + (or, on the return side, whose -) reaches this branch when it conducts.
std::optional<Highest> highest_at(const Checked& checked, BranchId branch);
// The highest of the supplies across these two nodes, either way round.
std::optional<Highest> highest_across(const Checked& checked, NodeId plus, NodeId minus);

std::string supply_text(const Checked& checked, const Highest& highest);

}  // namespace loomleaf
