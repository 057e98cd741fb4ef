// What one label says, laid out on its printed face.
#pragma once

#include <string>
#include <vector>

#include "loomleaf/sheets/display_list.h"
#include "loomleaf/takeoff/labels.h"

namespace loomleaf {

struct LabelFace {
  std::vector<TextRun> runs;               // from the face's upper left
  std::vector<std::string> could_not_fit;  // in words, with the label's ID
};

// The ID large, bold and underlined; the rest beside or below it in as many lines as make the letters largest.
LabelFace lay_out_label(const Label& label, double width_mm, double height_mm, double least_cap_mm,
                        const TextMeasure& type);

}  // namespace loomleaf
