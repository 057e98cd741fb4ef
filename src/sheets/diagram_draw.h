// Draws placed blocks and tables of the wiring diagram on a page, and notes where everything stands.
#pragma once

#include <functional>
#include <string>

#include "diagram_block.h"
#include "loomleaf/sheets/diagram_sheets.h"

namespace loomleaf {

// How a symbol is drawn.
struct SymbolLook {
  bool turned = false;  // mirrored
  int rows = 1;         // rails
  int drawn_way = 1;
  bool dashed = false;
  double scale = 1.0;
};

// Where a reference leads.
struct Target {
  std::string zone;         // as printed: "2/C4"; empty: nowhere
  std::string id;           // of the item or wire that stands there
  std::string destination;  // of a link
};

// A page in the making. Items, wires and texts drawn through it are noted in its placement.
class DiagramPage {
 public:
  DiagramPage(Page& page, PlacedSheet& placed, const TextMeasure& type) : page_(page), placed_(placed), type_(type) {}

  const TextMeasure& type() const { return type_; }
  void text(Point at, const std::string& text, TextStyle style, const std::string& of);  // left end on the baseline
  void reference(Point at, const Target& target, TextStyle style, const std::string& of);
  void symbol(const Symbol& symbol, Point origin, const SymbolLook& look);
  void item(const std::string& id, const Box& box) { placed_.items.push_back({id, box}); }
  void wire(const std::string& id, const std::vector<Point>& points, double width_mm) {
    placed_.wires.push_back({id, points, width_mm});
  }
  void add(DrawingItem drawing) { page_.items.push_back(std::move(drawing)); }

 private:
  Page& page_;
  PlacedSheet& placed_;
  const TextMeasure& type_;
};

// Space between a block's frame and what it holds.
struct BlockFrame {
  double side = 3.0, below = 3.0;
  double above = 7.0;  // with the block's title
};

using Resolve = std::function<Target(const Reference&)>;

void draw_block(DiagramPage& page, const Block& block, Point corner, const BlockSource& source, const BlockFrame& frame,
                const Resolve& resolve);

// Where a line of a block stands on paper: at its tag.
Point line_anchor(const Block& block, std::size_t edge, Point corner, const BlockFrame& frame);
Point box_anchor(const Block& block, std::size_t box, Point corner, const BlockFrame& frame);

std::string block_title(const WiringFigure& figure, const Block& block);

}  // namespace loomleaf
