// Which size each label takes, its face set, and what has to be said of it.
#pragma once

#include <string>
#include <vector>

#include "label_face.h"
#include "loomleaf/sheets/label_sheets.h"

namespace loomleaf {

// A label that can be printed.
struct SetLabel {
  const LabelText* text = nullptr;
  LabelFace face;
  double height_mm = 0.0;  // of the label: a strip is cut to go once round its wire
};

struct LabelSetting {
  std::vector<std::vector<SetLabel>> by_size;  // as the stock's sizes; in the order given
  std::vector<std::string> size_of;            // for each text; empty: not printed
  std::vector<std::string> remarks;            // what was left out or is not printed, in words
};

// A size that the wishes name has to be one of the stock's. `texts` must outlive the setting.
LabelSetting set_labels(const std::vector<LabelText>& texts, const LabelStock& stock, const LabelWishes& wishes,
                        const TextMeasure& type);

}  // namespace loomleaf
