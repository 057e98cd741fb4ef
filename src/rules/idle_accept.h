// Idle accepts are seen only once all other findings are there.
#pragma once

#include <vector>

#include "loomleaf/rules/rule.h"

namespace loomleaf {

// What an `accept` line covers.
struct Met {
  bool accepted = false;  // a finding that it lets be
  bool danger = false;    // one that it cannot
};

// `met`: by position in plan.acceptances.
std::vector<Finding> idle_accepts(const Plan& plan, const std::vector<Met>& met, const std::vector<Finding>& findings);

}  // namespace loomleaf
