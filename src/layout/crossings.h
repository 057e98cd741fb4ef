// Less crossings between layers, by the order of nodes in each.
#pragma once

#include "loomleaf/layout/layered.h"

namespace loomleaf {

// Sorts each layer by the middle of what its nodes are joined to, from left to right and back, and exchanges neighbours
// where that helps (Gansner, Koutsofios, North, Vo 1993), as long as it gets better. What crosses the line of a bar
// counts as well.
void reduce_crossings(const LayoutGraph& graph, Ordering& ordering);

}  // namespace loomleaf
