// Idle accepts are seen only once all other findings are there.
#pragma once

#include <vector>

#include "loomleaf/rules/rule.h"

namespace loomleaf {

// `met`: by position in plan.acceptances, whether a finding was covered.
std::vector<Finding> idle_accepts(const Plan& plan, const std::vector<bool>& met, const std::vector<Finding>& findings);

}  // namespace loomleaf
