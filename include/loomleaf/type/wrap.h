// Text broken into lines.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "loomleaf/type/text_measure.h"

namespace loomleaf {

// Broken between words into at most `most_lines` lines of `width_mm`. A word that is wider than a line, and the last
// line where more text follows than fits, end in an ellipsis. No text, no lines.
std::vector<std::string> wrapped(const TextMeasure& type, std::string_view text, TextStyle style, double width_mm,
                                 int most_lines);

}  // namespace loomleaf
