// What a block's pieces and lines come to as boxes and edges for the placer.
#pragma once

#include <vector>

#include "diagram_block.h"

namespace loomleaf {

// Number of the block each piece is in.
using Membership = IndexedList<PieceOf, int>;

// Fills the boxes, graph and lines of a block whose pieces are chosen. `lines_of`: by piece.
void make_graph(const BlockSource& source, const Membership& member, const std::vector<std::vector<LineId>>& lines_of,
                Block& block);

}  // namespace loomleaf
