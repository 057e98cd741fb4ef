// The wiring diagram as pages.
#pragma once

#include <string>
#include <vector>

#include "loomleaf/circuit/circuit.h"
#include "loomleaf/plan/plan.h"
#include "loomleaf/route/route.h"
#include "loomleaf/sheets/display_list.h"
#include "loomleaf/sheets/sheet_frame.h"
#include "loomleaf/study/study.h"

namespace loomleaf {

// Where everything stands on a sheet, for tests and `--as json` ("loomleaf-placement/1").
struct PlacedItem { std::string id; Box box; };
struct PlacedWire { std::string id; std::vector<Point> points; double width_mm = 0.3; };
struct PlacedText {
  std::string of;  // the item, wire or group it stands at; empty in a table
  std::string text;
  Box box;
  double cap_mm = 2.0;
  std::string leads_to = {};  // of a cross-reference: the item or wire that stands in the zone it says
};
struct PlacedSheet {
  double width_mm = 0.0, height_mm = 0.0;
  std::vector<PlacedItem> items;
  std::vector<PlacedWire> wires;
  std::vector<PlacedText> texts;
};

struct DiagramSheets {
  std::vector<Page> pages;
  std::vector<OutlineEntry> outline;
  std::vector<PlacedSheet> placement;       // one a page
  std::vector<TemplateError> template_errors;  // not empty: a symbol file is bad, and nothing was drawn
};

DiagramSheets draw_diagram(const Plan& plan, const Routes& routes, const Circuit& circuit, const Study& study,
                           const Stock& stock, const TemplateFolders& folders, const SheetFormat& format,
                           const TitleFields& fields, const TextMeasure& type);

}  // namespace loomleaf
