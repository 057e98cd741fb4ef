#include "tolerance.h"

#include <algorithm>
#include <limits>
#include <map>
#include <queue>

namespace loomleaf {
namespace {

constexpr double kSameLength_m = 1e-9;

// How one node of the stretch is reached by the shortest way.
struct Way {
  double length_m = std::numeric_limits<double>::infinity();
  bool sheathed = true;  // all along
  std::optional<BranchId> by;
  NodeId from;
  bool to_starter = false;       // the way on leads to a starter that needs no device
  std::optional<ItemId> device;  // the largest that is reached through here
  std::optional<Current> rating;
};

class StretchJudge {
 public:
  StretchJudge(const Plan& plan, const Routes& routes, const Circuit& circuit,
               const IndexedList<ConductorOf, ConductorFigures>& figures, const Rulebook& rulebook,
               const ExposedNetwork& exposed, NodeId fed_at, const ExposedNetwork::Stretch& stretch)
      : plan_(plan),
        routes_(routes),
        circuit_(circuit),
        figures_(figures),
        rulebook_(rulebook),
        exposed_(exposed),
        fed_at_(fed_at),
        stretch_(stretch),
        from_battery_(exposed.joined_at(fed_at).battery) {}

  StretchVerdict judge() {
    find_ways();
    for (const NodeId node : stretch_.nodes) look_at_end(node);
    hand_back();
    StretchVerdict verdict = std::move(verdict_);
    const bool is_open = !verdict.open_items.empty() || !verdict.further.empty();
    for (const BranchId id : stretch_.branches)
      if (circuit_.branches[id].conductor) verdict.conductors.push_back(judge_conductor(id, is_open));
    sort_once(verdict.open_items);
    sort_once(verdict.further);
    return verdict;
  }

 private:
  template <class Id>
  static void sort_once(std::vector<Id>& list) {
    std::sort(list.begin(), list.end());
    list.erase(std::unique(list.begin(), list.end()), list.end());
  }

  double length_m(BranchId id) const {
    const Branch& branch = circuit_.branches[id];
    return branch.conductor ? figures_[*branch.conductor].length.in(metres) : 0.0;
  }
  bool is_sheathed(BranchId id) const {
    const Branch& branch = circuit_.branches[id];
    return !branch.conductor || routes_.runs[plan_.conductors[*branch.conductor].run].sheathed_throughout;
  }

  // Dijkstra's shortest ways, from the feeding point through the stretch alone.
  void find_ways() {
    using Open = std::pair<double, NodeId>;
    std::priority_queue<Open, std::vector<Open>, std::greater<>> open;
    std::map<NodeId, std::vector<BranchId>> at;
    for (const BranchId id : stretch_.branches) {
      at[circuit_.branches[id].a].push_back(id);
      if (circuit_.branches[id].b != circuit_.branches[id].a) at[circuit_.branches[id].b].push_back(id);
    }
    ways_[fed_at_].length_m = 0.0;
    open.emplace(0.0, fed_at_);
    while (!open.empty()) {
      const auto [length, node] = open.top();
      open.pop();
      if (length > ways_[node].length_m) continue;
      settled_.push_back(node);
      const bool sheathed = ways_[node].sheathed;
      for (const BranchId id : at[node]) {
        const Branch& branch = circuit_.branches[id];
        const NodeId next = branch.a == node ? branch.b : branch.a;
        Way& way = ways_[next];
        if (length + length_m(id) >= way.length_m) continue;
        way.length_m = length + length_m(id);
        way.sheathed = sheathed && is_sheathed(id);
        way.by = id;
        way.from = node;
        open.emplace(way.length_m, next);
      }
    }
  }

  void look_at_end(NodeId node) {
    const JoinedThere joined = exposed_.joined_at(node);
    verdict_.open_items.insert(verdict_.open_items.end(), joined.open.begin(), joined.open.end());
    verdict_.further.insert(verdict_.further.end(), joined.further.begin(), joined.further.end());
    if (exposed_.is_loose(node))
      for (const TerminalId terminal : circuit_.nodes[node].terminals)
        verdict_.open_items.push_back(plan_.terminals[terminal].item);
    Way& way = ways_.at(node);
    if (!joined.starters.empty()) {
      way.to_starter = best_row(way.length_m, way.sheathed, true).has_value();
      if (!way.to_starter)
        verdict_.open_items.insert(verdict_.open_items.end(), joined.starters.begin(), joined.starters.end());
    }
    for (const ItemId id : joined.devices) count_device(way, id, std::get<Device>(plan_.items[id].data).rating);
  }

  static void count_device(Way& way, std::optional<ItemId> device, std::optional<Current> rating) {
    if (!rating || (way.rating && *way.rating >= *rating)) return;
    way.device = device;
    way.rating = rating;
  }

  // Every way hands what lies beyond it to the way before, from the far end back.
  void hand_back() {
    for (auto node = settled_.rbegin(); node != settled_.rend(); ++node) {
      const Way& way = ways_.at(*node);
      if (!way.by) continue;
      beyond_[*way.by] = *node;
      Way& before = ways_.at(way.from);
      before.to_starter = before.to_starter || way.to_starter;
      count_device(before, way.device, way.rating);
    }
  }

  // The most generous row that holds for a way this long; `starter`: among those for starters, and only where the way
  // is within it.
  std::optional<PositionRow> best_row(double way_m, bool sheathed, bool starter) const {
    std::optional<PositionRow> best;
    for (const PositionRow& row : rulebook_.positions) {
      if (row.only_starter != starter || (row.only_sheathed && !sheathed) || (row.only_from_battery && !from_battery_))
        continue;
      if (starter && !is_within(way_m, row)) continue;
      if (!best || (best->longest && (!row.longest || *row.longest > *best->longest))) best = row;
    }
    return best;
  }

  static bool is_within(double way_m, const PositionRow& row) {
    return !row.longest || way_m <= row.longest->in(metres) + kSameLength_m;
  }

  Verdict judge_conductor(BranchId id, bool is_open) const {
    const Branch& branch = circuit_.branches[id];
    Verdict verdict;
    verdict.conductor = *branch.conductor;
    const Way& a = ways_.at(branch.a);
    const Way& b = ways_.at(branch.b);
    const Way& nearer = b.length_m < a.length_m ? b : a;
    const double reach_m = nearer.length_m + length_m(id);
    const bool sheathed = nearer.sheathed && is_sheathed(id);
    verdict.reach = metres(reach_m);
    const auto beyond = beyond_.find(id);
    const Way* on = beyond == beyond_.end() ? nullptr : &ways_.at(beyond->second);
    if (on && on->to_starter) verdict.row = best_row(reach_m, sheathed, true);
    if (!verdict.row) verdict.row = best_row(reach_m, sheathed, false);
    if (on) {
      verdict.device = on->device;
      verdict.device_rating = on->rating;
    }
    const std::optional<Current>& may_carry = figures_[verdict.conductor].may_carry;
    if (is_open)
      verdict.exposure = Exposure::open_stretch;
    else if (!verdict.row || !is_within(reach_m, *verdict.row))
      verdict.exposure = Exposure::too_far;
    else if (verdict.device_rating && may_carry && *may_carry < *verdict.device_rating)
      verdict.exposure = Exposure::too_thin_for_device;
    return verdict;
  }

  const Plan& plan_;
  const Routes& routes_;
  const Circuit& circuit_;
  const IndexedList<ConductorOf, ConductorFigures>& figures_;
  const Rulebook& rulebook_;
  const ExposedNetwork& exposed_;
  const NodeId fed_at_;
  const ExposedNetwork::Stretch& stretch_;
  const bool from_battery_;
  std::map<NodeId, Way> ways_;
  std::vector<NodeId> settled_;        // in the order of their distance
  std::map<BranchId, NodeId> beyond_;  // the far node of each branch that a shortest way takes
  StretchVerdict verdict_;
};

}  // namespace

StretchVerdict judge_stretch(const Plan& plan, const Routes& routes, const Circuit& circuit,
                             const IndexedList<ConductorOf, ConductorFigures>& figures, const Rulebook& rulebook,
                             const ExposedNetwork& exposed, NodeId fed_at, const ExposedNetwork::Stretch& stretch) {
  return StretchJudge(plan, routes, circuit, figures, rulebook, exposed, fed_at, stretch).judge();
}

}  // namespace loomleaf
