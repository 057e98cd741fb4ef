// What stands on a label sheet besides its labels: title, check ruler, ticks and cut lines.
#pragma once

#include <string>
#include <vector>

#include "loomleaf/sheets/display_list.h"
#include "loomleaf/sheets/label_stock.h"
#include "loomleaf/sheets/sheet_frame.h"

namespace loomleaf {

// Where the labels of one side of a sheet lie. On the back they lie as they come when it is turned over top to bottom.
struct LabelSide {
  const LabelSize& size;
  bool is_back = false;

  double top() const { return is_back ? size.page_height_mm - size.bottom_edge() : size.first_y_mm; }
  double bottom() const { return is_back ? size.page_height_mm - size.first_y_mm : size.bottom_edge(); }
  // A part of the label in that cell, such as its face.
  Box box_of(int cell, const Box& part) const;
};

struct LabelSheetNote {
  int sheet = 1, sheets = 1;
  std::string stock;   // "heat-shrink sleeve 2:1, size 3.2"
  std::string places;  // "for ends at LOCKER, ROOF"; may be empty
};

// Plan, revision, date, sheet and stock above the labels; the notice at the right.
void draw_label_title(Page& page, const LabelSide& side, const TitleFields& fields, const LabelSheetNote& note,
                      const TextMeasure& type);

// A ruler to hold a real one against, since printers like to scale, and how the labels are put on.
void draw_check_ruler(Page& page, const LabelSide& side, const std::vector<std::string>& advice,
                      const TextMeasure& type);

// Short ticks beside the first rows, to hold a trial print against the stock: the labels themselves stay clean.
void draw_row_ticks(Page& page, const LabelSide& side, int rows);

// Where one cuts.
void draw_cut_line(Page& page, const Box& label);

}  // namespace loomleaf
