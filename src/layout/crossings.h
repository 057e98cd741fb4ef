// Less crossings between layers, by the order of nodes in each.
#pragma once

#include "loomleaf/layout/layered.h"

namespace loomleaf {

// Sorts each layer by the middle of what its nodes are joined to, and exchanges neighbours where that helps (Gansner,
// Koutsofios, North, Vo 1993), there and back, as long as it gets better. What crosses the line of a bar counts as well;
// a bar's taps may stand apart, each beside what it feeds.
void reduce_crossings(const LayoutGraph& graph, Ordering& ordering);

}  // namespace loomleaf
