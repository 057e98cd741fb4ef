// How a conductor looks: its colours, its weight, its edge.
#pragma once

#include <vector>

#include "loomleaf/plan/plan.h"
#include "loomleaf/sheets/display_list.h"

namespace loomleaf {

// The lines that make one wire, the lowest first: a dark edge for light colours, the base colour, the tracer.
std::vector<PathShape> wire_shapes(const std::vector<Point>& points, const std::optional<WireColour>& colour,
                                   double width_mm, bool dashed);

}  // namespace loomleaf
