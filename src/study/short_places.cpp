#include "short_places.h"

#include <algorithm>
#include <queue>
#include <tuple>

namespace loomleaf {
namespace {

// How much farther than the feed has come the way back may lead, and how much less far back from what uses current it
// may have come than the feed still runs on to there: two runs that lie side by side are seldom cut alike.
constexpr double farther_share = 1.25, farther_metres = 0.5;
// How much nearer to the supply the feed must part to lie nowhere beside a return's end.
constexpr double long_before_share = 2.0, long_before_metres = 1.0;

// The places of nodes in the order of their names, whatever order the plan lists them in. A node is called by the first
// of its terminals' names.
IndexedList<NodeOf, std::size_t> places_by_name(const Plan& plan, const Circuit& circuit) {
  std::vector<std::pair<std::string, NodeId>> names;
  for (const TerminalId terminal : plan.terminals.ids())
    names.emplace_back(terminal_text(plan, terminal), circuit.node_of[terminal]);
  std::sort(names.begin(), names.end());
  IndexedList<NodeOf, std::size_t> place(circuit.nodes.size(), names.size());
  for (std::size_t i = 0; i < names.size(); ++i) place[names[i].second] = std::min(place[names[i].second], i);
  return place;
}

}  // namespace

std::optional<NodeId> ShortestWays::common(NodeId a, NodeId b) const {
  while (a != b) {
    NodeId& deeper = steps[a] >= steps[b] ? a : b;
    if (!towards[deeper]) return std::nullopt;
    deeper = *towards[deeper];
  }
  return a;
}

ShortPlaces::ShortPlaces(const Plan& plan, const Circuit& circuit, const FaultSupplies& supplies,
                         const IndexedList<ConductorOf, ConductorFigures>& figures)
    : plan_(plan), circuit_(circuit), supplies_(supplies), by_name_(places_by_name(plan, circuit)) {
  feed_ = find_ways(supplies.pluses(), figures);
  back_ = find_ways(supplies.minuses(), figures);
  for (Across* across : {&back_of_feed_, &feed_of_back_})
    across->at = across->beyond = IndexedList<NodeOf, Meeting>(circuit.nodes.size());
  list_users();
  gather_beyond(back_of_feed_, feed_, back_);
  gather_beyond(feed_of_back_, back_, feed_);
}

ShortestWays ShortPlaces::find_ways(const std::vector<NodeId>& from,
                                    const IndexedList<ConductorOf, ConductorFigures>& figures) const {
  ShortestWays ways;
  const std::size_t count = circuit_.nodes.size();
  ways.metres = IndexedList<NodeOf, double>(count, ShortestWays::unreached);
  ways.ohm = IndexedList<NodeOf, double>(count, 0.0);
  ways.towards = ways.next = ways.start = IndexedList<NodeOf, std::optional<NodeId>>(count);
  ways.by = IndexedList<NodeOf, std::optional<BranchId>>(count);
  ways.steps = IndexedList<NodeOf, std::size_t>(count, 0);
  using Entry = std::tuple<double, std::size_t, NodeId>;  // metres, steps, node
  std::priority_queue<Entry, std::vector<Entry>, std::greater<>> front;
  for (const NodeId node : from) {
    if (!supplies_.is_sound(node) || ways.metres[node] == 0.0) continue;
    ways.metres[node] = 0.0;
    ways.start[node] = node;
    front.push({0.0, 0, node});
  }
  IndexedList<NodeOf, bool> settled(count, false);
  while (!front.empty()) {
    const auto [metres_here, steps_here, node] = front.top();
    front.pop();
    if (settled[node]) continue;
    settled[node] = true;
    ways.order.push_back(node);
    for (const BranchId id : circuit_.at[node]) {
      if (!supplies_.passes(id)) continue;
      const Branch& branch = circuit_.branches[id];
      const double metres_there = metres_here + (branch.conductor ? figures[*branch.conductor].length.in(metres) : 0.0);
      const NodeId next = branch.a == node ? branch.b : branch.a;
      if (ways.take({node, id, metres_there, 1.0 / supplies_.siemens(id)}, next, by_name_))
        front.push({metres_there, steps_here + 1, next});
    }
  }
  return ways;
}

// Whether it is shorter than any so far. One that is as short parts the ways.
bool ShortestWays::take(const Step& step, NodeId to, const IndexedList<NodeOf, std::size_t>& by_name) {
  const auto there = std::pair(step.metres, steps[step.from] + 1), so_far = std::pair(metres[to], steps[to]);
  const double ohm_there = ohm[step.from] + step.ohm;
  if (there > so_far) return false;
  if (there < so_far) {
    std::tie(metres[to], steps[to]) = there;
    ohm[to] = ohm_there;
    towards[to] = next[to] = step.from;
    by[to] = step.by;
    start[to] = start[step.from];
    before.erase(to);
    return true;
  }
  if (by[to]) before.emplace(to, *towards[to]);
  before.emplace(to, step.from);
  if (towards[to]) towards[to] = common(*towards[to], step.from);
  by[to].reset();
  if (start[to] != start[step.from]) start[to].reset();
  if (ohm_there > ohm[to] || (ohm_there == ohm[to] && by_name[step.from] < by_name[*next[to]])) next[to] = step.from;
  ohm[to] = std::max(ohm[to], ohm_there);
  return false;
}

void ShortPlaces::Meeting::join(const Meeting& more, const ShortestWays& ways) {
  if (!more.any()) return;
  if (!any()) {
    *this = more;
    return;
  }
  node = node && more.node ? ways.common(*node, *more.node) : std::nullopt;
  apart = !node;
  own_metres = std::min(own_metres, more.own_metres);
  other_metres = std::min(other_metres, more.other_metres);
}

void ShortPlaces::add_user(NodeId plus, NodeId minus) {
  if (!supplies_.state().across(plus, minus) || !feed_.reaches(plus) || !back_.reaches(minus)) return;
  back_of_feed_.at[plus].join({minus, false, feed_.metres[plus], back_.metres[minus]}, back_);
  feed_of_back_.at[minus].join({plus, false, back_.metres[minus], feed_.metres[plus]}, feed_);
}

void ShortPlaces::list_users() {
  for (const std::vector<TwoPole>* list : {&circuit_.loads, &circuit_.coils})
    for (const TwoPole& user : *list) {
      add_user(user.plus, user.minus);
      add_user(user.minus, user.plus);
    }
  for (const ConverterPorts& converter : circuit_.converters) add_user(converter.in_plus, converter.in_minus);
  for (const FaultSupplies::Pushing& charger : supplies_.pushing())  // a battery feeds back into it
    add_user(charger.plus, charger.minus);
}

void ShortPlaces::gather_beyond(Across& across, const ShortestWays& own, const ShortestWays& other) {
  across.beyond = across.at;
  for (auto node = own.order.rbegin(); node != own.order.rend(); ++node) {
    if (!across.beyond[*node].any()) continue;
    if (own.by[*node]) across.beyond[*own.towards[*node]].join(across.beyond[*node], other);
    const auto [first, last] = own.before.equal_range(*node);
    for (auto before = first; before != last; ++before) across.beyond[before->second].join(across.beyond[*node], other);
  }
}

// What lies before that is protected by others.
bool ShortPlaces::comes_by_device(NodeId node, const ShortestWays& ways) const {
  return ways.by[node] && circuit_.branches[*ways.by[node]].kind == BranchKind::device;
}

std::optional<NodeId> ShortPlaces::opposite(NodeId end, const Across& across, const ShortestWays& own,
                                            const ShortestWays& other) const {
  Meeting meets = across.at[end];
  if (!meets.any()) {
    meets = across.beyond[end];
    const double farthest = farther_share * own.metres[end] + farther_metres;
    const double ahead = meets.own_metres - own.metres[end];
    const auto lies_beside = [&](NodeId node) {
      const double came_back = meets.other_metres - other.metres[node];
      const bool is_far_back = ahead == 0.0 || (came_back > 0.0 && farther_share * came_back + farther_metres >= ahead);
      return other.metres[node] <= farthest && (is_far_back || comes_by_device(node, other));
    };
    while (meets.node && !lies_beside(*meets.node) && other.next[*meets.node]) meets.node = other.next[*meets.node];
  }
  return meets.apart ? other_pole(end, own, other) : meets.node;
}

// Of the supply that the shortest way to this end starts at, or of another one that feeds it: of batteries before
// others, of a whole chain before its pieces, then of the one that can give least, and of such the first by name.
std::optional<NodeId> ShortPlaces::other_pole(NodeId end, const ShortestWays& own, const ShortestWays& other) const {
  const Sides& sides = supplies_.sides();
  const bool is_feed = &own == &feed_;
  std::optional<std::tuple<bool, bool, bool, double, std::ptrdiff_t>> best;
  std::optional<NodeId> found;
  for (const SupplyId id : (is_feed ? sides.plus_in : sides.minus_in)[sides.part_of[end]]) {
    const Supply& supply = sides.supplies[id];
    const NodeId pole = is_feed ? supply.plus : supply.minus, opposite = is_feed ? supply.minus : supply.plus;
    if (!other.reaches(opposite)) continue;
    const std::tuple suits(pole == own.start[end], !supply.limited && !supply.converter, !supply.piece_of,
                           -supplies_.gives(supply), -static_cast<std::ptrdiff_t>(by_name_[opposite]));
    if (best && suits <= *best) continue;
    best = suits;
    found = opposite;
  }
  return found;
}

// The same end of the core beside it that leads back.
std::optional<NodeId> ShortPlaces::beside(ConductorId conductor, NodeId end, const ShortestWays& other) const {
  const Run& run = plan_.runs[plan_.conductors[conductor].run];
  if (!run.is_cable) return std::nullopt;
  const bool at_to = circuit_.node_of[plan_.conductors[conductor].to] == end;
  for (const ConductorId core : run.conductors) {
    const NodeId there = circuit_.node_of[at_to ? plan_.conductors[core].to : plan_.conductors[core].from];
    if (core != conductor && other.reaches(there)) return there;
  }
  return std::nullopt;
}

std::optional<ShortPlace> ShortPlaces::in_feed(ConductorId conductor, NodeId end) const {
  std::optional<NodeId> back = beside(conductor, end, back_);
  if (!back) back = opposite(end, back_of_feed_, feed_, back_);
  if (back) return ShortPlace{end, *back, true, 0.0};
  back = other_pole(end, feed_, back_);
  return back ? std::optional(ShortPlace{end, *back, true, feed_.ohm[end]}) : std::nullopt;
}

// Where the feed of all that hangs beyond parts long before this end, nothing lies beside it but the feeds of each:
// their own shorts come back over it.
std::optional<ShortPlace> ShortPlaces::in_return(ConductorId conductor, NodeId end) const {
  std::optional<NodeId> feed = beside(conductor, end, feed_);
  if (!feed) {
    feed = opposite(end, feed_of_back_, back_, feed_);
    const bool is_across = feed_of_back_.at[end].any();
    if (feed && !is_across && long_before_share * feed_.metres[*feed] + long_before_metres < back_.metres[end])
      return std::nullopt;
  }
  return feed ? std::optional(ShortPlace{*feed, end, false, 0.0}) : std::nullopt;
}

std::vector<ShortPlace> ShortPlaces::of(ConductorId conductor) const {
  const BranchId id = circuit_.branch_of[conductor];
  const Branch& branch = circuit_.branches[id];
  std::vector<ShortPlace> places;
  if (!supplies_.passes(id)) return places;
  const bool is_feed = supplies_.is_feed(branch.a) && feed_.reaches(branch.a);
  if (!is_feed && !(supplies_.is_return(branch.a) && back_.reaches(branch.a))) return places;
  const ShortestWays& ways = is_feed ? feed_ : back_;
  const auto how_far = [&](NodeId node) { return std::pair(ways.metres[node], ways.steps[node]); };
  for (const auto& [end, start] : {std::pair(branch.a, branch.b), std::pair(branch.b, branch.a)}) {
    if (how_far(end) < how_far(start)) continue;
    const auto place = is_feed ? in_feed(conductor, end) : in_return(conductor, end);
    if (place) places.push_back(*place);
  }
  return places;
}

}  // namespace loomleaf
