// A label stock by measure, from templates/labels/*.xml: one kind of label in one or more sizes, and how each size lies on
// each paper. All in mm.
#pragma once

#include <limits>
#include <string>
#include <string_view>
#include <vector>

#include "loomleaf/layout/geometry.h"
#include "loomleaf/stock/stock.h"

namespace loomleaf {

enum class LabelKind {
  sleeve,  // heat-shrink sleeve laid flat on a carrier sheet, printed before it shrinks
  wrap,    // a printed face that goes round the wire, and a clear tail that goes over it
  flag,    // a printed face on each side of a part that goes round the wire
  strip,   // paper with cut lines, rolled once round the wire under clear sleeve
  panel,   // legends beside switches and other things that one handles
  fuses,   // legends beside the ways of a fuse block
};

// One size of label on one paper.
struct LabelSize {
  std::string name;                             // "4.8", as in --label-size
  double label_width_mm = 45.0, label_height_mm = 8.0;
  Box face{1.0, 1.0, 43.0, 6.0};                // the printed face inside a label
  double second_x_mm = 0.0;                     // flag: where the same face begins once more
  double supplied_bore_mm = 0.0, recovered_bore_mm = 0.0, recovered_wall_mm = 0.0;  // sleeve

  double page_width_mm = 210.0, page_height_mm = 297.0;
  double first_x_mm = 10.0, first_y_mm = 20.0;  // upper left of the first label
  double pitch_x_mm = 50.0, pitch_y_mm = 10.0;
  int columns = 3, rows = 20;

  // What it suits, worked out from its measures. It holds on a girth like that of a round wire this thick or thicker,
  // and goes over what is so wide or narrower.
  double least_girth_mm = 0.0, most_width_mm = std::numeric_limits<double>::infinity();

  int on_a_sheet() const { return columns * rows; }
  Point corner(int cell) const;  // upper left of that label of a sheet, row by row from 0
  double right_edge() const;     // of the last column
  double bottom_edge() const;    // of the last row
};

struct LabelStock {
  std::string name, title;
  LabelKind kind = LabelKind::strip;
  int sides = 1;               // 2: the sheet is turned over, top to bottom, and its labels are printed on the back too
  double least_cap_mm = 2.0;   // on the wire: a sleeve's letters are printed higher, since they shrink
  std::vector<LabelSize> sizes;  // rising in what they go over

  bool for_wires() const { return kind != LabelKind::panel && kind != LabelKind::fuses; }
  bool goes_round() const {  // with text along the wire
    return kind == LabelKind::sleeve || kind == LabelKind::wrap || kind == LabelKind::strip;
  }
  const LabelSize* find(std::string_view size) const;
};

// Free paper above the first and below the last row of labels, for the sheet's title and the check ruler.
inline constexpr double kLabelHeadRoomMm = 18.0, kLabelFootRoomMm = 16.0;

// Text stays so far inside the edge of its face: half a millimetre, and a little more than the rounding of its place.
inline constexpr double kFaceMarginMm = 0.52;

// A label that is read in the hand needs capitals of 2 mm: 16 minutes of arc (NUREG-0700, seen) at 430 mm. No stock may
// ask for less.
inline constexpr double kLeastLegibleCapMm = 2.0;

// A sleeve's supplied bore is a fifth over what it has to pass over, or more (common practice: 20 to 30 per cent, from
// sleeve guides, seen).
inline constexpr double kSleeveRoom = 1.2;

// Reads labels/NAME.xml and takes its layouts for this paper ("a4", "letter"; the large papers take the sheet that a
// home printer has beside them).
Loaded<LabelStock> load_label_stock(const TemplateFolders& folders, std::string_view name, std::string_view paper);

}  // namespace loomleaf
