// A part of the figure that is placed as one and stands in one frame on a sheet: a circuit, or a piece of one.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "loomleaf/figure/figure.h"
#include "loomleaf/layout/layered.h"
#include "loomleaf/sheets/diagram_symbols.h"
#include "loomleaf/type/text_measure.h"

namespace loomleaf {

inline constexpr TextStyle kLargeText{2.5, true}, kSmallText{1.8, false};

using SymbolSet = std::map<std::string, Symbol>;

// Where a reference points to: what it says is known only when all blocks have their place.
struct Reference {
  std::optional<PieceId> piece;
  std::optional<LineId> line;
};

// One run of text beside a box, from the box's left edge and rail.
struct BlockText {
  Point at;  // its left end on the baseline
  std::string text;
  TextStyle style;
  std::optional<Reference> reference;  // the text is where that stands
};

struct BlockBox {
  enum class Kind {
    piece,
    repeated,   // a short labelled piece of an item that stands elsewhere
    fan,        // where the lines of one terminal part
    references  // where lines of a terminal go on, as text
  } kind = Kind::piece;
  PieceId piece;
  std::size_t terminal = 0;
  const Symbol* symbol = nullptr;
  Point symbol_at;  // of the symbol's origin, from the box's left edge and rail
  std::vector<BlockText> texts;
};

struct Block {
  std::size_t group = 0;
  bool continued = false;
  std::vector<PieceId> pieces;
  std::vector<BlockBox> boxes;
  LayoutGraph graph;                                // its boxes are `boxes`
  std::vector<std::optional<LineId>> line_of_edge;  // absent: joins a fan or a reference to its terminal
  LayoutPlacement placement;
};

struct BlockLimits {
  double width = 200.0, height = 150.0;  // mm
};

// What all blocks are made from.
struct BlockSource {
  const WiringFigure& figure;
  const Plan& plan;
  const SymbolSet& symbols;
  const TextMeasure& type;
  double text_width = 34.0;  // of what stands beside an item, before it is broken
};

// The figure in blocks that fit the limits, in reading order: what serves several circuits first. A line between two
// blocks is drawn in one of them and ends there at a repeated piece of what it joins.
std::vector<Block> make_blocks(const BlockSource& source, const BlockLimits& limits);

// The piece in whose block a line is drawn.
PieceId home_of(const WiringFigure& figure, const FigureLine& line);

// Width of a wire on paper by its copper, mm.
double line_width(const Plan& plan, const FigureLine& line);

// How high a line of text reaches above its lower edge.
double text_height(const TextMeasure& type, TextStyle style);

}  // namespace loomleaf
