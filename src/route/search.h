// The shortest way from one spot, through places and legs in turn.
#pragma once

#include <functional>
#include <optional>
#include <queue>
#include <tuple>
#include <unordered_map>
#include <unordered_set>
#include <variant>
#include <vector>

#include "way_map.h"

namespace loomleaf {

using Via = std::variant<PlaceId, LegId>;

struct Way {
  Micrometres length = 0;
  std::vector<LegId> legs;
  std::vector<PlaceId> places;  // all that it touches, in order
};

// Dijkstra's search from one spot, grown only as far as the goals so far asked for. Of ways of equal length the one of
// fewest legs is taken, then the one whose places come first by ID. What has been passed of `via` is a part of the
// state.
class Search {
 public:
  // Each step of the work takes one from `steps_left`; at none left, no further way is found.
  Search(const WayMap& map, const Spot& start, const std::vector<Via>& via, std::int64_t& steps_left);

  std::optional<Way> to(const Spot& goal);

 private:
  using State = std::uint64_t;  // how many of `via` are behind, and the point
  struct Label {
    Micrometres length = 0;
    int legs = 0;
    std::optional<State> before;
    std::optional<LegId> leg;  // by which this state was reached
  };
  struct Waiting {
    Micrometres length;
    int legs;
    State state;
    bool operator>(const Waiting& other) const {
      return std::tie(length, legs, state) > std::tie(other.length, other.legs, other.state);
    }
  };

  State state(std::size_t passed, PointId point) const { return passed * map_.points.size() + point.value; }
  PointId point(State state) const { return PointId(state % map_.points.size()); }
  std::size_t passed(State state) const { return state / map_.points.size(); }

  void reach(State state, const Label& label);
  void leave(State state);
  bool is_better(const Label& a, const Label& b) const;
  int compare_places(const Label& a, const Label& b) const;
  std::optional<Label> label_at(const Spot& goal, State state) const;
  Way way_to(const Label& goal) const;

  const WayMap& map_;
  Spot start_;
  std::vector<Via> via_;
  std::int64_t& steps_left_;
  std::unordered_map<State, Label> labels_;
  std::unordered_set<State> settled_;
  std::priority_queue<Waiting, std::vector<Waiting>, std::greater<>> waiting_;
};

}  // namespace loomleaf
