#include "search.h"

#include <algorithm>

namespace loomleaf {

Search::Search(const WayMap& map, const Spot& start, const std::vector<Via>& via, std::int64_t& steps_left)
    : map_(map), start_(start), via_(via), steps_left_(steps_left) {
  for (const PointId id : map_.points_in[start.place]) {
    const Micrometres length = start.at ? apart(*start.at, map_.points[id].at) : 0;
    reach(state(0, id), {length, 0, {}, {}});
  }
}

// Below zero where the places of `a` come first, read from the start. Both have as many legs, so they are walked back
// in step, to where the ways meet; the last difference met is the first from the start.
int Search::compare_places(const Label& a, const Label& b) const {
  const auto to_leg = [this](const Label* at) {
    while (at->before && !at->leg) at = &labels_.at(*at->before);
    return at;
  };
  const auto rank_before = [this](const Label& label) { return map_.rank[map_.points[point(*label.before)].place]; };
  int order = 0;
  const Label *x = to_leg(&a), *y = to_leg(&b);
  while (x->before && y->before && *x->before != *y->before && steps_left_ > 0) {
    --steps_left_;
    if (rank_before(*x) != rank_before(*y)) order = rank_before(*x) < rank_before(*y) ? -1 : 1;
    x = to_leg(&labels_.at(*x->before));
    y = to_leg(&labels_.at(*y->before));
  }
  return order;
}

bool Search::is_better(const Label& a, const Label& b) const {
  if (a.length != b.length) return a.length < b.length;
  if (a.legs != b.legs) return a.legs < b.legs;
  return compare_places(a, b) < 0;
}

void Search::reach(State state, const Label& label) {
  const auto [known, is_new] = labels_.try_emplace(state, label);
  if (!is_new) {
    if (settled_.contains(state) || !is_better(label, known->second)) return;
    known->second = label;
  }
  waiting_.push({label.length, label.legs, state});
}

void Search::leave(State from) {
  const Label label = labels_.at(from);
  const PointId here = point(from);
  const std::size_t behind = passed(from);
  const Via* next = behind < via_.size() ? &via_[behind] : nullptr;
  if (next != nullptr && *next == Via(map_.points[here].place))
    reach(state(behind + 1, here), {label.length, label.legs, from, {}});
  for (const WayMap::Edge& edge : map_.points[here].edges) {
    const Label there{label.length + edge.length, label.legs + (edge.leg ? 1 : 0), from, edge.leg};
    reach(state(behind, edge.to), there);
    if (next != nullptr && edge.leg && *next == Via(*edge.leg)) reach(state(behind + 1, edge.to), there);
  }
}

// What a goal in this state's place costs from here; nothing where the state is elsewhere or has `via` before it.
std::optional<Search::Label> Search::label_at(const Spot& goal, State from) const {
  const WayMap::Point& here = map_.points[point(from)];
  if (here.place != goal.place || passed(from) != via_.size()) return std::nullopt;
  const Label& label = labels_.at(from);
  return Label{label.length + (goal.at ? apart(*goal.at, here.at) : 0), label.legs, from, {}};
}

std::optional<Way> Search::to(const Spot& goal) {
  std::optional<Label> best;
  const auto try_from = [&](State from) {
    const auto label = label_at(goal, from);
    if (label && (!best || is_better(*label, *best))) best = label;
  };
  for (const PointId id : map_.points_in[goal.place])
    if (settled_.contains(state(via_.size(), id))) try_from(state(via_.size(), id));
  while (!waiting_.empty() && steps_left_ > 0 && (!best || waiting_.top().length <= best->length)) {
    --steps_left_;
    const State next = waiting_.top().state;
    waiting_.pop();
    if (!settled_.insert(next).second) continue;
    leave(next);
    try_from(next);
  }
  return best ? std::optional(way_to(*best)) : std::nullopt;
}

Way Search::way_to(const Label& goal) const {
  Way way;
  way.length = goal.length;
  std::optional<State> at = goal.before;
  while (at) {
    const Label& label = labels_.at(*at);
    const PlaceId place = map_.points[point(*at)].place;
    if (way.places.empty() || way.places.back() != place) way.places.push_back(place);
    if (label.leg) way.legs.push_back(*label.leg);
    at = label.before;
  }
  std::reverse(way.legs.begin(), way.legs.end());
  std::reverse(way.places.begin(), way.places.end());
  return way;
}

}  // namespace loomleaf
