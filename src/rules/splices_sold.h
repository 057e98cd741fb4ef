// Which conductors go into a splice, and which splice of the stock would take what ends at one.
#pragma once

#include <string>

#include "loomleaf/rules/joints.h"
#include "loomleaf/rules/rule.h"

namespace loomleaf {

// The area to hold against a range of sizes: vehicle wire counts by its number where the range is one of AWG.
Area area_against(const WireSize& size, const SizeRange& takes);
// A size may be 3 % outside in area, so that a gauge and its metric neighbour count as one.
Area least_that_goes_in(const SizeRange& takes);
Area most_that_goes_in(const SizeRange& takes);
bool goes_into(const WireSize& size, const SizeRange& takes);

// "the stock's lever splice of 5 ways takes 0.14 mm2 to 4 mm2 and 32 A": the least that takes all that ends here and
// the current of normal work. Where there is none, that it has none, or none of known current.
std::string splice_sold_text(const Checked& checked, ItemId splice, const ItemEnds& ends);

}  // namespace loomleaf
