// Labels laid on their stock.
#pragma once

#include <string_view>
#include <vector>

#include "loomleaf/sheets/display_list.h"
#include "loomleaf/sheets/sheet_frame.h"
#include "loomleaf/stock/stock.h"
#include "loomleaf/takeoff/labels.h"

namespace loomleaf {

// A label stock by measure, from templates/labels/*.xml. All in mm.
struct LabelStock {
  enum class Kind { sleeve, plain };
  std::string name, title;
  Kind kind = Kind::plain;
  double page_width_mm = 210.0, page_height_mm = 297.0;
  double first_x_mm = 10.0, first_y_mm = 10.0;       // upper left of the first label
  double pitch_x_mm = 50.0, pitch_y_mm = 10.0;
  int columns = 3, rows = 20;
  double label_width_mm = 45.0, label_height_mm = 8.0;
  double printed_x_mm = 1.0, printed_y_mm = 1.0;     // the printed face inside a label
  double printed_width_mm = 43.0, printed_height_mm = 6.0;
  double supplied_bore_mm = 0.0, recovered_bore_mm = 0.0;  // sleeve
  double least_cap_mm = 2.0;
};

Loaded<LabelStock> load_label_stock(const TemplateFolders& folders, std::string_view name, std::string_view paper);

struct LabelSheets {
  std::vector<Page> pages;
  std::vector<std::string> could_not_fit;   // what was shortened or left out, in words
};

LabelSheets draw_label_sheets(const std::vector<Label>& labels, const LabelStock& stock, const TitleFields& fields,
                              const TextMeasure& type);

}  // namespace loomleaf
