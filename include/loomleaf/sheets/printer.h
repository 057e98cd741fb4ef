// What a printer does to a sheet, and how sheets are drawn to come out right all the same.
//
// The calibration sheet has a line across and one down, and a cross. What a ruler says of them on the printed sheet is
// put down in a small text file, one measure a line, `#` for comments:
//
//     across 149.6 mm     # the line across, meant to be 150 mm
//     down   199.3 mm     # the line down, meant to be 200 mm
//     left    30.8 mm     # from the paper's left edge to the cross, meant to be 30 mm
//     top     29.5 mm     # from its top edge to the cross, meant to be 30 mm
//
// A measure that is left out is as it is meant to be.
#pragma once

#include <string_view>

#include "loomleaf/sheets/display_list.h"
#include "loomleaf/sheets/sheet_frame.h"
#include "loomleaf/stock/stock.h"

namespace loomleaf {

inline constexpr double kAcrossMm = 150.0, kDownMm = 200.0, kCrossMm = 30.0;

// What the ruler says.
struct PrinterMeasures {
  double across_mm = kAcrossMm, down_mm = kDownMm, left_mm = kCrossMm, top_mm = kCrossMm;
};

// Complaints name `file` and the line. Measures more than 5 per cent or 10 mm off are taken for a slip of the pen.
Loaded<PrinterMeasures> read_printer_measures(std::string_view file, std::string_view text);

// Moves and scales a page so that this printer puts everything where it is meant to be. Letters are scaled by the
// width.
void correct_for_printer(Page& page, const PrinterMeasures& measures);

// The sheet to be measured: A4 or Letter, as the format says.
Page draw_calibration_sheet(const SheetFormat& format);

}  // namespace loomleaf
