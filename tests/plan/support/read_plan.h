// From the text of a plan to the plan, for tests.
#pragma once

#include <string>
#include <vector>

#include "loomleaf/plan/plan.h"

namespace loomleaf {

KnownNames known_names_for_tests();

// The plan with the complaints of both stages, in order of place, as the user sees them.
struct ReadPlan {
  Plan plan;
  std::vector<Complaint> complaints;
  std::string complaints_text;
};
ReadPlan read_plan(const std::string& text, const std::string& name = "test.loom");

}  // namespace loomleaf
