// What a device can break.
#pragma once

#include <optional>
#include <string>

#include "loomleaf/rules/rule.h"

namespace loomleaf {

struct InterruptRating {
  Current breaks{};
  std::string source;
};
// The plan's `breaks`, else what its family breaks at the highest voltage that can stand there. Nothing where neither
// is known.
std::optional<InterruptRating> interrupt_rating_of(const Checked& checked, BranchId device);

// Whether it cuts a fault short before its peak, so that what lies behind it never sees the full current.
bool is_current_limiting(const Checked& checked, ItemId device);

}  // namespace loomleaf
