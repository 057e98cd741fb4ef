// Whether the rulebook tolerates a stretch of exposed conductors, seen from one point where it is fed.
#pragma once

#include <optional>
#include <vector>

#include "loomleaf/study/protection.h"
#include "stretch.h"

namespace loomleaf {

// What one conductor of the stretch comes to.
struct Verdict {
  ConductorId conductor;
  Length reach{};                  // from the feeding point along the stretch to its far end
  std::optional<PositionRow> row;  // the most generous that holds for the way to it
  Exposure exposure = Exposure::tolerated;
  std::optional<ItemId> device;  // the largest beyond it
  std::optional<Current> device_rating;
};

struct StretchVerdict {
  std::vector<Verdict> conductors;  // in the stretch's order
  std::vector<ItemId> open_items;   // where it ends in something other than a device or a source's terminal
  std::vector<ConductorId> further;
};

StretchVerdict judge_stretch(const Plan& plan, const Routes& routes, const Circuit& circuit,
                             const IndexedList<ConductorOf, ConductorFigures>& figures, const Rulebook& rulebook,
                             const ExposedNetwork& exposed, NodeId fed_at, const ExposedNetwork::Stretch& stretch);

}  // namespace loomleaf
