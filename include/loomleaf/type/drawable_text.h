// Text from a plan made safe to draw.
#pragma once

#include <string>
#include <string_view>

namespace loomleaf {

// Valid UTF-8 that stays on one line and within its height, whatever came in. A visible replacement (U+FFFD) stands
// for each control or formatting character, line separator, unassigned or private one and for each byte that is not
// UTF-8, and for any run of combining marks beyond the first two on a letter, which would climb out of the line.
// Tabs become spaces. Other text comes back as it was.
std::string drawable(std::string_view text);

}  // namespace loomleaf
