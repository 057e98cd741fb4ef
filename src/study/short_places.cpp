#include "short_places.h"

#include <algorithm>
#include <queue>
#include <tuple>

namespace loomleaf {
namespace {

// How much farther than the feed has come the way back may lead: two runs that lie side by side are seldom cut alike.
constexpr double farther_share = 1.25, farther_metres = 0.5;

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
    : plan_(plan), circuit_(circuit), supplies_(supplies) {
  feed_ = find_ways(supplies.pluses(), supplies, figures);
  back_ = find_ways(supplies.minuses(), supplies, figures);
  for (Across* across : {&back_of_feed_, &feed_of_back_})
    across->at = across->beyond = IndexedList<NodeOf, std::optional<NodeId>>(circuit.nodes.size());
  list_users(supplies);
  gather_beyond(back_of_feed_, feed_, back_);
  gather_beyond(feed_of_back_, back_, feed_);
}

ShortestWays ShortPlaces::find_ways(const std::vector<NodeId>& from, const FaultSupplies& supplies,
                                    const IndexedList<ConductorOf, ConductorFigures>& figures) const {
  ShortestWays ways;
  const std::size_t count = circuit_.nodes.size();
  ways.metres = IndexedList<NodeOf, double>(count, ShortestWays::unreached);
  ways.ohm = IndexedList<NodeOf, double>(count, 0.0);
  ways.towards = IndexedList<NodeOf, std::optional<NodeId>>(count);
  ways.by = IndexedList<NodeOf, std::optional<BranchId>>(count);
  ways.steps = IndexedList<NodeOf, std::size_t>(count, 0);
  using Entry = std::tuple<double, std::size_t, NodeId>;  // metres, steps, node
  std::priority_queue<Entry, std::vector<Entry>, std::greater<>> front;
  for (const NodeId node : from) {
    if (!supplies.is_sound(node) || ways.metres[node] == 0.0) continue;
    ways.metres[node] = 0.0;
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
      if (!supplies.passes(id)) continue;
      const Branch& branch = circuit_.branches[id];
      const NodeId next = branch.a == node ? branch.b : branch.a;
      const double metres_there = metres_here + (branch.conductor ? figures[*branch.conductor].length.in(metres) : 0.0);
      if (std::tie(ways.metres[next], ways.steps[next]) <= std::tuple(metres_there, steps_here + 1)) continue;
      ways.metres[next] = metres_there;
      ways.ohm[next] = ways.ohm[node] + 1.0 / supplies.siemens(id);
      ways.steps[next] = steps_here + 1;
      ways.towards[next] = node;
      ways.by[next] = id;
      front.push({metres_there, steps_here + 1, next});
    }
  }
  return ways;
}

void ShortPlaces::join(std::optional<NodeId>& so_far, NodeId more, const ShortestWays& ways) {
  so_far = so_far ? ways.common(*so_far, more).value_or(*so_far) : more;
}

void ShortPlaces::add_user(NodeId plus, NodeId minus, const FaultSupplies& supplies) {
  if (!supplies.state().across(plus, minus) || !feed_.reaches(plus) || !back_.reaches(minus)) return;
  join(back_of_feed_.at[plus], minus, back_);
  join(feed_of_back_.at[minus], plus, feed_);
}

void ShortPlaces::list_users(const FaultSupplies& supplies) {
  for (const std::vector<TwoPole>* list : {&circuit_.loads, &circuit_.coils})
    for (const TwoPole& user : *list) {
      add_user(user.plus, user.minus, supplies);
      add_user(user.minus, user.plus, supplies);
    }
  for (const ConverterPorts& converter : circuit_.converters) add_user(converter.in_plus, converter.in_minus, supplies);
  for (const FaultSupplies::Pushing& charger : supplies.pushing())  // a battery feeds back into it
    add_user(charger.plus, charger.minus, supplies);
}

void ShortPlaces::gather_beyond(Across& across, const ShortestWays& own, const ShortestWays& other) {
  across.beyond = across.at;
  for (auto node = own.order.rbegin(); node != own.order.rend(); ++node)
    if (across.beyond[*node] && own.towards[*node])
      join(across.beyond[*own.towards[*node]], *across.beyond[*node], other);
}

std::optional<NodeId> ShortPlaces::opposite(NodeId end, const Across& across, const ShortestWays& own,
                                            const ShortestWays& other) {
  if (across.at[end]) return across.at[end];
  std::optional<NodeId> meets = across.beyond[end];
  const double farthest = farther_share * own.metres[end] + farther_metres;
  while (meets && other.metres[*meets] > farthest && other.towards[*meets]) meets = other.towards[*meets];
  return meets;
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

NodeId ShortPlaces::far_end(const Branch& branch, const ShortestWays& ways) {
  return std::tie(ways.metres[branch.a], ways.steps[branch.a]) > std::tie(ways.metres[branch.b], ways.steps[branch.b])
             ? branch.a
             : branch.b;
}

std::optional<ShortPlace> ShortPlaces::of(ConductorId conductor) const {
  const BranchId id = circuit_.branch_of[conductor];
  const Branch& branch = circuit_.branches[id];
  if (!supplies_.passes(id)) return std::nullopt;
  if (supplies_.is_feed(branch.a) && feed_.reaches(branch.a)) {
    const NodeId end = far_end(branch, feed_);
    std::optional<NodeId> back = beside(conductor, end, back_);
    if (!back) back = opposite(end, back_of_feed_, feed_, back_);
    if (back) return ShortPlace{end, *back, true, 0.0};
    for (const SupplyId supply : supplies_.sides().plus_in[supplies_.sides().part_of[end]]) {
      const NodeId minus = supplies_.sides().supplies[supply].minus;
      if (back_.reaches(minus)) return ShortPlace{end, minus, true, feed_.ohm[end]};
    }
    return std::nullopt;
  }
  if (!supplies_.is_return(branch.a) || !back_.reaches(branch.a)) return std::nullopt;
  const NodeId end = far_end(branch, back_);
  std::optional<NodeId> feed = beside(conductor, end, feed_);
  if (!feed) feed = opposite(end, feed_of_back_, back_, feed_);
  if (!feed) return std::nullopt;
  return ShortPlace{*feed, end, false, 0.0};
}

}  // namespace loomleaf
