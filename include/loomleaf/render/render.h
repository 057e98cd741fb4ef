// Display list to bytes. The only part that knows Cairo. Nothing here touches a file.
#pragma once

#include <string>
#include <vector>

#include "loomleaf/sheets/display_list.h"
#include "loomleaf/type/text_measure.h"

namespace loomleaf {

// Same drawing, same bytes. Throws std::runtime_error on a link to a destination that no page has.
std::string to_pdf(const Drawing& drawing, const TextMeasure& type);
std::string to_svg(const Page& page, const Drawing& drawing, const TextMeasure& type);
std::string to_png(const Page& page, const TextMeasure& type, double dots_per_inch = 150.0);   // with its resolution inside

}  // namespace loomleaf
