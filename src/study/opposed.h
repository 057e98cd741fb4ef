// Sources of one ring of conductors that do not all lie as its two sides would have it: one of them is turned.
#pragma once

#include "series.h"

namespace loomleaf {

// Of each step, how many of its ends meet the like pole of one other source and nothing else: in a row of sources a
// sign that one of the two is turned.
using LikeEnds = std::vector<int>;

// Rings in which what drives one way round disagrees with what drives the other, though neither is one way of steps
// between two parts. None where a disagreement that is known already lies in the same network.
std::vector<Disagreement> find_opposed(const std::vector<Step>& steps, const Series& series, std::size_t part_count,
                                       const std::vector<Disagreement>& known);

// With the one source that must be turned to make it agree, where the likes tell which, told as such.
Disagreement with_turned(const Disagreement& found, const std::vector<Step>& steps, const LikeEnds& likes);

}  // namespace loomleaf
