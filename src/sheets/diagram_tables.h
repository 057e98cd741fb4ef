// What stands beside the drawing: fuses, where to find each wire, what is behind which cover, symbols and colours.
#pragma once

#include <vector>

#include "diagram_draw.h"
#include "loomleaf/layout/geometry.h"

namespace loomleaf {

// A rectangle of text and small drawings, laid out from its upper left.
struct TableCell {
  Point at;  // left end of the text on its baseline
  std::string text;
  TextStyle style;
  std::optional<Reference> reference;  // the text is where that stands
};
struct TableSymbol {
  Point at;
  const Symbol* symbol = nullptr;
};
struct TableRule {
  Point from, to;
};
struct TableBlock {
  double width = 0.0, height = 0.0;
  std::vector<TableCell> cells;
  std::vector<TableSymbol> symbols;
  std::vector<TableRule> rules;
};

struct TableSource {
  const BlockSource& blocks;
  const Routes& routes;
  const Circuit& circuit;
  const Study& study;
  BlockLimits limits;  // of one table
};

std::vector<TableBlock> fuse_schedule(const TableSource& source);
std::vector<TableBlock> where_to_find_wires(const TableSource& source);
std::vector<TableBlock> where_to_find_items(const TableSource& source);
std::vector<TableBlock> behind_covers(const TableSource& source);
std::vector<TableBlock> legend(const TableSource& source);

void draw_table(DiagramPage& page, const TableBlock& table, Point corner, const Resolve& resolve);

}  // namespace loomleaf
