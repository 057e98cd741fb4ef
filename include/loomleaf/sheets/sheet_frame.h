// Paper, frame and title block, from templates/sheets/*.xml.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "loomleaf/sheets/display_list.h"
#include "loomleaf/stock/stock.h"

namespace loomleaf {

// A paper with its frame, as a template measures it. All in mm.
struct SheetFormat {
  std::string name;                            // "a4", "letter", "a3", "tabloid"
  double width_mm = 297.0, height_mm = 210.0;  // as used: landscape has width > height
  double margin_mm = 10.0;
  double frame_band_mm = 4.0;           // between outer and inner frame line, where the zones stand
  int zone_columns = 6, zone_rows = 4;  // zones after ISO 5457: figures across, letters down
  double head_mm = 9.0;                 // strip along the top inside the frame: the sheet's name, the notice
  double title_width_mm = 118.0, title_height_mm = 34.0;  // the title block, lower right corner of the inner frame

  Box outer_frame() const;
  Box inner_frame() const;
  Box head() const;   // inside the inner frame, at its top
  Box inner() const;  // the drawing area: what the frame and the head leave; the title block is in it
  Box title_block() const;
  std::string zone(Point at) const;  // "B3"
};

enum class Orientation { portrait, landscape };
Loaded<SheetFormat> load_sheet_format(const TemplateFolders& folders, std::string_view paper, Orientation orientation);

// What the title block says on every sheet (fields after ISO 7200).
struct TitleFields {
  std::string title, revision, date, by, rules;
  std::string sheet_name;    // "Diagram: distribution"; heads the sheet, large
  std::string sheet_note;    // "fed from PB, sheet 1 zone C4"; beside it, small; may be empty
  std::string check_status;  // "checked: nothing found", "checked: 1 DANGER, 2 WARNING"
  int checks_not_done = 0;
  bool cleared = true;                // false: NOT CLEARED FOR POWER-UP across the sheet's head
  std::vector<std::string> cautions;  // of this sheet
};

// What stands across each sheet of a plan that has a DANGER.
inline constexpr const char* kNotCleared = "NOT CLEARED FOR POWER-UP";

// The notice as white letters on a black bar, `height_mm` high, its right edge at `right`; gives the bar's box. Large
// and solid, since it must not be overlooked in black and white.
Box draw_not_cleared(Page& page, double right, double top, double height_mm, const TextMeasure& type);

// A page of this paper without anything on it.
Page blank_page(const SheetFormat& format, std::string name);

// Frame, zones, head, title block and, where it is not cleared, the notice; appended to the page.
void draw_frame(Page& page, const SheetFormat& format, const TitleFields& fields, int sheet, int sheets,
                const TextMeasure& type);

}  // namespace loomleaf
