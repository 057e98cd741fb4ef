#include "way_map.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace loomleaf {

namespace {

Spot end_of(const Standing& standing) { return {standing.place, micrometres(standing.offset.value_or(Length{}))}; }

IndexedList<PlaceOf, int> rank_places(const Plan& plan) {
  std::vector<PlaceId> sorted;
  for (const PlaceId id : plan.places.ids()) sorted.push_back(id);
  std::stable_sort(sorted.begin(), sorted.end(),
                   [&](PlaceId a, PlaceId b) { return plan.places[a].id < plan.places[b].id; });
  IndexedList<PlaceOf, int> rank(plan.places.size());
  for (std::size_t n = 0; n < sorted.size(); ++n) rank[sorted[n]] = static_cast<int>(n);
  return rank;
}

}  // namespace

Micrometres micrometres(Length length) { return std::llround(length.in(millimetres)*1000.0); }
Length length_of(Micrometres length) { return metres(static_cast<double>(length) / 1e6); }
Micrometres apart(Micrometres a, Micrometres b) { return a < b ? b - a : a - b; }

WayMap map_ways(const Plan& plan) {
  WayMap map;
  map.points_in = IndexedList<PlaceOf, std::vector<PointId>>(plan.places.size());
  map.rank = rank_places(plan);
  std::map<Spot, PointId> point_at;
  for (const Leg& leg : plan.legs)
    for (const Standing* standing : {&leg.from, &leg.to}) point_at.try_emplace(end_of(*standing));
  for (auto& [spot, id] : point_at) {  // by place, then along it
    id = map.points.add({spot.place, *spot.at, {}});
    std::vector<PointId>& along = map.points_in[spot.place];
    if (!along.empty()) {
      const Micrometres length = apart(map.points[along.back()].at, *spot.at);
      map.points[along.back()].edges.push_back({id, length, {}});
      map.points[id].edges.push_back({along.back(), length, {}});
    }
    along.push_back(id);
  }
  for (const LegId id : plan.legs.ids()) {
    const Leg& leg = plan.legs[id];
    const PointId from = point_at.at(end_of(leg.from)), to = point_at.at(end_of(leg.to));
    const Micrometres length = micrometres(leg.length) + micrometres(leg.slack);
    map.points[from].edges.push_back({to, length, id});
    map.points[to].edges.push_back({from, length, id});
  }
  return map;
}

}  // namespace loomleaf
