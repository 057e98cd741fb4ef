// The legs as a map: points where a leg ends, joined along legs and inside places.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "loomleaf/plan/plan.h"

namespace loomleaf {

// Lengths are whole micrometres here, so that ways of equal length are equal whatever the order of their legs.
using Micrometres = std::int64_t;
Micrometres micrometres(Length length);
Length length_of(Micrometres length);

using PointId = Index<struct PointOf>;

// Where a wire starts or ends, or a leg does. Without a position nothing is added inside the place.
struct Spot {
  PlaceId place;
  std::optional<Micrometres> at;
  auto operator<=>(const Spot&) const = default;
};
Micrometres apart(Micrometres a, Micrometres b);

struct WayMap {
  struct Edge {
    PointId to;
    Micrometres length = 0;
    std::optional<LegId> leg;  // absent: along the place
  };
  struct Point {
    PlaceId place;
    Micrometres at = 0;
    std::vector<Edge> edges;
  };
  IndexedList<PointOf, Point> points;
  IndexedList<PlaceOf, std::vector<PointId>> points_in;  // along each place
  IndexedList<PlaceOf, int> rank;                        // of the places' IDs in order
};

WayMap map_ways(const Plan& plan);

}  // namespace loomleaf
