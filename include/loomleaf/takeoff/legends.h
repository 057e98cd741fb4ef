// The legends of what one handles, as a plain table.
#pragma once

#include <string>
#include <vector>

#include "loomleaf/plan/plan.h"

namespace loomleaf {

struct Legend {
  std::string id;
  std::string name;    // its description; may be empty
  std::string rating;  // "5 A"; empty where none is given
  std::string place;   // ID; may be empty
};

// Switches, breakers, dimmers and connectors: by place in the plan's order of places, then in the plan's order.
std::vector<Legend> list_legends(const Plan& plan);

}  // namespace loomleaf
