// Labels laid on their stock.
#pragma once

#include <string_view>
#include <vector>

#include "loomleaf/sheets/display_list.h"
#include "loomleaf/sheets/sheet_frame.h"
#include "loomleaf/stock/stock.h"
#include "loomleaf/takeoff/labels.h"

namespace loomleaf {

// A label stock by measure, from templates/labels/*.xml: one kind of label and how it lies on one paper. All in mm.
// A sleeve stock is heat-shrink sleeve laid flat on a carrier sheet, printed before it shrinks; a plain one is paper
// with cut lines, to go under clear sleeve or tape. The labels are all of one size: which sleeve a conductor's diameter
// asks for is not chosen yet.
struct LabelStock {
  enum class Kind { sleeve, plain };
  std::string name, title;
  Kind kind = Kind::plain;
  double page_width_mm = 210.0, page_height_mm = 297.0;
  double first_x_mm = 10.0, first_y_mm = 10.0;  // upper left of the first label
  double pitch_x_mm = 50.0, pitch_y_mm = 10.0;
  int columns = 3, rows = 20;
  double label_width_mm = 45.0, label_height_mm = 8.0;
  double printed_x_mm = 1.0, printed_y_mm = 1.0;  // the printed face inside a label
  double printed_width_mm = 43.0, printed_height_mm = 6.0;
  double supplied_bore_mm = 0.0, recovered_bore_mm = 0.0;  // sleeve
  double least_cap_mm = 2.0;
};

// Free paper above the first and below the last row of labels, for the sheet's title and the check ruler.
inline constexpr double kLabelHeadRoomMm = 18.0, kLabelFootRoomMm = 16.0;

// Reads labels/NAME.xml and takes its layout for this paper ("a4", "letter"; the large papers take the sheet that a
// home printer has beside them).
Loaded<LabelStock> load_label_stock(const TemplateFolders& folders, std::string_view name, std::string_view paper);

struct LabelSheets {
  std::vector<Page> pages;
  std::vector<std::string> could_not_fit;  // what was shortened or left out, in words
};

// Row by row in the order given, always at least one sheet. A label says its ID large and underlined, then where this
// end lands, where the far end goes, its fuse, its size, all as large as fits; what cannot stand at the least height is
// left out from the last, and said in `could_not_fit`.
LabelSheets draw_label_sheets(const std::vector<Label>& labels, const LabelStock& stock, const TitleFields& fields,
                              const TextMeasure& type);

}  // namespace loomleaf
