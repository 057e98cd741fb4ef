// What reaches a load or a converter's input, in any position of the switches.
#pragma once

#include <vector>

#include "loomleaf/rules/rule.h"

namespace loomleaf {

struct Reach {
  ItemId item;
  bool has_feed = false;    // some supply's + reaches it; converters that feed each other in a ring have none
  bool has_return = false;  // that supply's - does too
};

// Loads in the plan's order, then converters by their inputs. What is wired the wrong way round, or lies in series with
// another, is left out: that is the finding, and the missing supply or return comes of it.
std::vector<Reach> reach_of_consumers(const Checked& checked);

}  // namespace loomleaf
