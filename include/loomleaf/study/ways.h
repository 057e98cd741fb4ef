// The ways that changeovers can stand in together.
#pragma once

#include <string>
#include <vector>

#include "loomleaf/circuit/circuit.h"

namespace loomleaf {

// One standing of all changeovers.
struct Ways {
  IndexedList<ChangerOf, int> way_of;    // from 0
  std::string text;                      // "S1=2 R1=1": the changeovers not in their first way, 1-based, in the plan's order; a
                                         // relay at rest is 0, energised 1; empty where all stand in their first way
};

// Changeovers that meet with no device between are one group; groups that do not meet run through their ways side by side,
// one that is through staying in its first way. A relay with only one of its contacts joined is no changeover: it stands
// closed on that one, which then is its first way.
struct WaysReading {
  std::vector<Ways> all;                             // at least one, the first has every changeover in its first way
  std::vector<std::vector<ItemId>> not_combined;     // groups of more than 64 combinations: only each alone was taken
};

WaysReading enumerate_ways(const Plan& plan, const Circuit& circuit);

// Whether a branch conducts: everything but the other ways of a changeover.
bool conducts(const Circuit& circuit, BranchId branch, const Ways& ways);

}  // namespace loomleaf
