#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "loomleaf/route/route.h"
#include "search.h"

namespace loomleaf {

namespace {

// The ways of wires without `via`, one search for each spot that they start from. Wires tend to be declared by where
// they start, so a few searches are enough to keep; more would take memory by the square.
class Searches {
 public:
  explicit Searches(const WayMap& map) : map_(map) {}

  bool is_exhausted() const { return steps_left_ <= 0; }

  std::optional<Way> way(const Spot& from, const Spot& to, const std::vector<Via>& via) {
    if (!via.empty()) return Search(map_, from, via, steps_left_).to(to);
    if (from.place == to.place) return Way{from.at && to.at ? apart(*from.at, *to.at) : 0, {}, {from.place}};
    if (kept_.size() >= most_kept) kept_.clear();
    return kept_.try_emplace(from, map_, from, via, steps_left_).first->second.to(to);
  }

 private:
  static constexpr std::size_t most_kept = 64;
  const WayMap& map_;
  std::int64_t steps_left_ = 50'000'000;  // enough for any vessel; a plan made to hang this program ends here
  std::map<Spot, Search> kept_;
};

std::optional<Spot> spot_of(const Plan& plan, TerminalId terminal) {
  const auto& standing = plan.items[plan.terminals[terminal].item].standing;
  if (!standing) return std::nullopt;
  Spot spot{standing->place, {}};
  if (standing->offset) spot.at = micrometres(*standing->offset);
  return spot;
}

// What keeps a conductor's way from being worked out, ready for a complaint.
struct Trouble {
  std::string message;
  std::string write;
  bool may_be_a_consequence = false;  // of something not understood about places
};

struct Found {
  std::optional<Way> way;
  std::optional<Trouble> trouble;
};

// " through WALL, L2"; empty without `via`.
std::string via_text(const Plan& plan, const Run& run) {
  std::string text;
  for (const Via& via : run.via) {
    const PlaceId* place = std::get_if<PlaceId>(&via);
    text += fmt::format("{} {}", text.empty() ? " through" : ",",
                        place != nullptr ? plan.places[*place].id : plan.legs[std::get<LegId>(via)].id);
  }
  return text;
}

class RouteFinder {
 public:
  explicit RouteFinder(const Plan& plan) : plan_(plan), map_(map_ways(plan)), searches_(map_) {}

  RouteReading find() {
    RouteReading reading;
    reading.routes.on_leg = IndexedList<LegOf, std::vector<RunId>>(plan_.legs.size());
    for (const RunId id : plan_.runs.ids()) {
      const Run& run = plan_.runs[id];
      const Found found = find_longest(run);
      const Route& route = reading.routes.runs[reading.routes.runs.add(route_of(run, found))];
      for (const LegId leg : route.legs) reading.routes.on_leg[leg].push_back(id);
      const auto& trouble = found.trouble;
      if (trouble && !run.given_length && !(trouble->may_be_a_consequence && plan_.ways_unclear))
        reading.complaints.push_back({run.ends_span, trouble->message, trouble->write, {}, false});
    }
    sort_by_place(reading.complaints);
    return reading;
  }

 private:
  // A cable is as long as its longest core. A core without a way is the whole cable's trouble; one that stays in a
  // place without positions is so only where no other core has a length.
  Found find_longest(const Run& run) {
    Found longest;
    std::set<std::pair<std::optional<Spot>, std::optional<Spot>>> done;
    for (const ConductorId id : run.conductors) {
      const Conductor& core = plan_.conductors[id];
      const std::pair ends{spot_of(plan_, core.from), spot_of(plan_, core.to)};
      if (!done.insert(ends).second) continue;
      Found found = find_way(run, core);
      const auto weight = [](const Found& f) { return std::tuple(!f.way, !f.trouble, f.way ? f.way->length : 0); };
      if (done.size() == 1 || weight(found) > weight(longest)) longest = std::move(found);
    }
    return longest;
  }

  Found find_way(const Run& run, const Conductor& core) {
    const auto from = spot_of(plan_, core.from), to = spot_of(plan_, core.to);
    if (!from || !to) return {std::nullopt, no_place(run, plan_.terminals[from ? core.to : core.from].item)};
    auto way = searches_.way(*from, *to, run.via);
    if (!way) return {std::nullopt, searches_.is_exhausted() ? too_many(run) : no_way(run, *from, *to)};
    const bool is_measured = from->at && to->at && (way->length > 0 || run.plus > Length{});
    if (way->legs.empty() && !is_measured) return {way, no_length(run, *from)};
    return {way, std::nullopt};
  }

  Trouble no_place(const Run& run, ItemId item) const {
    const std::string& id = plan_.items[item].id;
    return {fmt::format("`{}` has no place, so the length of `{}` is not known", id, run.id),
            fmt::format("a length for `{}`, such as `1.5 m`; or where `{}` is, with `at`", run.id, id), true};
  }

  Trouble no_way(const Run& run, const Spot& from, const Spot& to) const {
    const std::string &a = plan_.places[from.place].id, &b = plan_.places[to.place].id;
    const std::string through = via_text(plan_, run);
    const std::string legs = through.empty() ? fmt::format("the legs between, such as `leg {} to {} 1.5 m`", a, b)
                                             : fmt::format("the legs that lead{}", through);
    return {fmt::format("no legs lead from {} to {}{}, so the length of `{}` is not known", a, b, through, run.id),
            fmt::format("a length for `{}`, such as `1.5 m`; or {}", run.id, legs), true};
  }

  Trouble too_many(const Run& run) const {
    return {fmt::format("the legs of this plan are too many to find a way for `{}` as well", run.id),
            fmt::format("a length for `{}`, such as `1.5 m`", run.id), false};
  }

  Trouble no_length(const Run& run, const Spot& from) const {
    return {fmt::format("both ends of `{}` are at {}, so its length is not known", run.id, plan_.places[from.place].id),
            fmt::format("its length, such as `0.4 m`; or where each end is, such as `at {} 0.4 m`",
                        plan_.places[from.place].id),
            false};
  }

  Route route_of(const Run& run, const Found& found) const {
    Route route;
    route.given = run.given_length.has_value();
    const Way way = found.way ? *found.way : way_as_far_as_known(run);
    route.length = run.given_length.value_or(length_of(way.length + micrometres(run.plus)));
    route.legs = way.legs;
    route.places = way.places;
    for (const PlaceId id : way.places) {
      const auto& ambient = plan_.places[id].ambient;
      if (ambient && (!route.warmest || *ambient > *route.warmest)) route.warmest = ambient;
    }
    route.sheathed_throughout = run.sheathed || run.is_cable || is_covered(way);
    return route;
  }

  // Without a way from end to end: the ends and what `via` names, for what shares a leg and how warm it is.
  Way way_as_far_as_known(const Run& run) const {
    Way way;
    const auto touch = [&](PlaceId place) {
      if (way.places.empty() || way.places.back() != place) way.places.push_back(place);
    };
    const auto touch_end = [&](TerminalId terminal) {
      if (const auto spot = spot_of(plan_, terminal)) touch(spot->place);
    };
    if (run.conductors.empty()) return way;
    const Conductor& core = plan_.conductors[run.conductors.front()];
    touch_end(core.from);
    for (const Via& via : run.via) {
      if (const PlaceId* place = std::get_if<PlaceId>(&via)) {
        touch(*place);
        continue;
      }
      const LegId leg = std::get<LegId>(via);
      way.legs.push_back(leg);
      touch(plan_.legs[leg].from.place);
      touch(plan_.legs[leg].to.place);
    }
    touch_end(core.to);
    return way;
  }

  bool is_covered(const Way& way) const {
    const auto leg_is = [&](LegId id) { return plan_.legs[id].sheathed || plan_.legs[id].conduit_bore; };
    const auto place_is = [&](PlaceId id) { return plan_.places[id].sheathed; };
    return !way.places.empty() && std::all_of(way.legs.begin(), way.legs.end(), leg_is) &&
           std::all_of(way.places.begin(), way.places.end(), place_is);
  }

  const Plan& plan_;
  WayMap map_;
  Searches searches_;
};

}  // namespace

RouteReading find_routes(const Plan& plan) { return RouteFinder(plan).find(); }

}  // namespace loomleaf
