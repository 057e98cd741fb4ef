// The size of each box of a block, with the texts that stand beside its symbol.
#pragma once

#include <string>
#include <vector>

#include "diagram_block.h"

namespace loomleaf {

// What a reference box lists.
struct ReferenceEntry {
  std::string name;  // "F1", "W12"
  std::string what;  // "Reading lamps"
  std::optional<Reference> target;
  bool is_circuit = false;
};

struct MeasuredBox {
  BlockBox box;
  LayoutBox size;
};

// `from_left`, `to_right`: whether any line comes or goes there.
MeasuredBox measure_piece(const BlockSource& source, PieceId id, bool from_left, bool to_right);
MeasuredBox measure_repeated(const BlockSource& source, PieceId id, std::size_t terminal, bool at_left);
MeasuredBox measure_references(const BlockSource& source, PieceId id, std::size_t terminal, bool at_left,
                               const std::vector<ReferenceEntry>& entries);

// The side at which lines come to a terminal, as the piece is turned.
TerminalSide side_of(const Piece& piece, std::size_t terminal);

}  // namespace loomleaf
