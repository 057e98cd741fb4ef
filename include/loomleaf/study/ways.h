// The ways that changeovers can stand in together.
#pragma once

#include <string>
#include <vector>

#include "loomleaf/circuit/circuit.h"

namespace loomleaf {

// One standing of all changeovers.
struct Ways {
  IndexedList<ChangerOf, int> way_of;    // from 0; a changer's `ways` where all of them are closed at once
  std::string text;                      // "S1=2 R1=1 S2=both": the changeovers not in their first way, 1-based, in the plan's
                                         // order; a relay at rest is 0, energised 1; empty where all stand in their first way
};

// Which standings there are. Changeovers of an installation that hangs together, be it through loads and devices, are
// taken in every combination of their ways, up to 64. Where there are more,
//   - those that meet with no device between, up to 64 combinations of theirs, are still taken in every combination;
//   - all of them stand in their first way at once, in their second, and so on;
//   - any way of one meets any way of any other in some standing: a covering array of pairs (strength 2), which takes
//     some 2 log2 n standings for n changeovers of two ways; and of more that meet than these 64 each is taken alone. A
//     large installation, for which every standing costs much, has as many of these two as its size lets it have.
// What nothing joins runs side by side, and one that is through stays in its first way. A relay with only one of its
// contacts joined is no changeover: it stands closed on that one, which then is its first way.
struct WaysReading {
  std::vector<Ways> all;                             // at least one, the first has every changeover in its first way
  std::vector<std::vector<ItemId>> not_combined;     // what hangs together and has more combinations than were taken
};

WaysReading enumerate_ways(const Plan& plan, const Circuit& circuit);

// Whether a branch conducts: everything but the ways of a changeover in which it does not stand.
bool conducts(const Circuit& circuit, BranchId branch, const Ways& ways);

}  // namespace loomleaf
