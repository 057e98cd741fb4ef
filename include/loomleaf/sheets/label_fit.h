// Which size of a label stock a wire takes, and what shrinking does to its letters.
#pragma once

#include <optional>
#include <string>

#include "loomleaf/sheets/label_stock.h"
#include "loomleaf/stock/outside_diameter.h"

namespace loomleaf {

// A sleeve that goes on once the terminal is crimped has to pass over that as well; zero: it goes on before, as it should.
// What is stuck round the wire does not mind.
bool goes_over(const LabelStock& stock, const LabelSize& size, const Outside& outside, Length terminal);
bool holds_on(const LabelSize& size, const Outside& outside);

// The smallest size that goes over and holds; none where the stock has no such size.
const LabelSize* choose_size(const LabelStock& stock, const Outside& outside, Length terminal = {});

// How high printed letters are on the wire, as a share: the sleeve's outer girth after shrinking over that before. The
// wall keeps its section as it shrinks. 1 for whatever does not shrink.
double height_left(const LabelSize& size, Length girth);

// What a wire without a fitting size would take, in words: "a sleeve of 13.2 mm or more that shrinks to 9.1 mm or less".
std::string wanted_text(const LabelStock& stock, const Outside& outside, Length terminal);

}  // namespace loomleaf
