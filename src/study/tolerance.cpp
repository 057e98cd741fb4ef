#include "tolerance.h"

#include <algorithm>
#include <queue>

#include "exposure.h"

namespace loomleaf {
namespace {

constexpr double kSameLength_m = 1e-9;
constexpr double kLongestLink_m = 0.5;  // between the posts of batteries that stand side by side

constexpr std::size_t kMostEndsTold = 12;  // of a stretch with more, nobody reads them all, once for each conductor

template <class Id>
void keep_first(std::vector<Id>& list) {
  std::sort(list.begin(), list.end());
  list.erase(std::unique(list.begin(), list.end()), list.end());
  if (list.size() > kMostEndsTold) list.erase(list.begin() + kMostEndsTold, list.end());
}

}  // namespace

StretchJudge::StretchJudge(const Plan& plan, const Routes& routes, const Circuit& circuit,
                           const IndexedList<ConductorOf, ConductorFigures>& figures, const Rulebook& rulebook,
                           const ExposedNetwork& exposed, const IndexedList<ConductorOf, InflowAtEnds>& inflow)
    : plan_(plan),
      routes_(routes),
      circuit_(circuit),
      figures_(figures),
      rulebook_(rulebook),
      exposed_(exposed),
      inflow_(inflow),
      beyond_sources_(devices_beyond_sources(plan, circuit, exposed)),
      in_stretch_(circuit.branches.size(), false),
      ways_(circuit.nodes.size()),
      beyond_(circuit.branches.size()) {}

StretchVerdict StretchJudge::judge(NodeId fed_at, const ExposedNetwork::Stretch& stretch) {
  for (const BranchId id : stretch.branches) in_stretch_[id] = true;
  is_fed_at_post_ = !exposed_.joined_at(fed_at).batteries.empty();
  find_ways(fed_at);
  for (const NodeId node : stretch.nodes) look_at_end(node);
  hand_back();
  StretchVerdict verdict = std::move(verdict_);
  const bool is_open = !verdict.open_items.empty() || !verdict.further.empty();
  for (const BranchId id : stretch.branches)
    if (circuit_.branches[id].conductor) verdict.conductors.push_back(judge_conductor(id, is_open));
  keep_first(verdict.open_items);
  keep_first(verdict.further);
  forget(fed_at, stretch);
  return verdict;
}

void StretchJudge::forget(NodeId fed_at, const ExposedNetwork::Stretch& stretch) {
  for (const BranchId id : stretch.branches) {
    in_stretch_[id] = false;
    beyond_[id].reset();
  }
  for (const NodeId node : stretch.nodes) ways_[node] = Way{};
  ways_[fed_at] = Way{};
  settled_.clear();
  verdict_ = {};
}

double StretchJudge::length_m(BranchId id) const {
  const Branch& branch = circuit_.branches[id];
  return branch.conductor ? figures_[*branch.conductor].length.in(metres) : 0.0;
}

bool StretchJudge::is_sheathed(BranchId id) const {
  const Branch& branch = circuit_.branches[id];
  return !branch.conductor || routes_.runs[plan_.conductors[*branch.conductor].run].sheathed_throughout;
}

// Whether a conductor bears all that can come into this end of it.
bool StretchJudge::bears_from(BranchId id, NodeId end) const {
  const Branch& branch = circuit_.branches[id];
  if (!branch.conductor) return false;
  const InflowAtEnds& inflow = inflow_[*branch.conductor];
  return !exceeds(branch.a == end ? inflow.a : inflow.b, figures_[*branch.conductor].may_carry);
}

StretchJudge::Way StretchJudge::step(const Way& way, NodeId node, BranchId id) const {
  const Branch& branch = circuit_.branches[id];
  const NodeId next = branch.a == node ? branch.b : branch.a;
  const bool counts = way.reach.counted_m > 0.0 || !bears_from(id, node);
  Way on;
  on.reach = {way.reach.counted_m + (counts ? length_m(id) : 0.0), way.reach.all_m + length_m(id)};
  on.by_contact = way.by_contact || branch.kind == BranchKind::contact;
  on.by_relay = way.by_relay || (branch.item && plan_.items[*branch.item].is<Relay>());
  on.by = id;
  on.from = node;
  on.count = is_post_of_bank(next, on.by_contact) ? Count{0.0, next, true} : count_on(way, node, id, next);
  return on;
}

bool StretchJudge::is_post_of_bank(NodeId node, bool by_contact) const {
  return is_fed_at_post_ && !by_contact && !exposed_.joined_at(node).batteries.empty();
}

StretchJudge::Count StretchJudge::count_on(const Way& way, NodeId node, BranchId id, NodeId next) const {
  const Count& so_far = way.count;
  if (!(so_far.metres > 0.0) && bears_from(id, node)) return {0.0, next, true};
  return {so_far.metres + length_m(id), so_far.start, so_far.sheathed && is_sheathed(id)};
}

// Dijkstra's shortest ways, from the feeding point through the stretch alone.
void StretchJudge::find_ways(NodeId fed_at) {
  using Open = std::pair<Reach, NodeId>;
  std::priority_queue<Open, std::vector<Open>, std::greater<>> open;
  ways_[fed_at].reach = {0.0, 0.0};
  ways_[fed_at].count = {0.0, fed_at, true};
  open.emplace(ways_[fed_at].reach, fed_at);
  while (!open.empty()) {
    const auto [reach, node] = open.top();
    open.pop();
    if (reach > ways_[node].reach) continue;
    ways_[node].settled = settled_.size();
    settled_.push_back(node);
    for (const BranchId id : exposed_.at(node)) {
      if (!in_stretch_[id]) continue;
      const Branch& branch = circuit_.branches[id];
      const NodeId next = branch.a == node ? branch.b : branch.a;
      const Way on = step(ways_[node], node, id);
      if (on.reach >= ways_[next].reach) continue;
      ways_[next] = on;
      open.emplace(on.reach, next);
    }
  }
}

// Whether a way to this node through the branch from the other end of it is as short as the one that was found.
bool StretchJudge::is_shortest(NodeId node, BranchId id) const {
  const Branch& branch = circuit_.branches[id];
  const NodeId before = branch.a == node ? branch.b : branch.a;
  const Way &from = ways_[before], &to = ways_[node];
  if (!in_stretch_[id] || from.settled >= to.settled) return false;
  const Reach by_it = step(from, before, id).reach;
  return by_it.counted_m <= to.reach.counted_m + kSameLength_m && by_it.all_m <= to.reach.all_m + kSameLength_m;
}

void StretchJudge::look_at_end(NodeId node) {
  const JoinedThere& joined = exposed_.joined_at(node);
  verdict_.open_items.insert(verdict_.open_items.end(), joined.open.begin(), joined.open.end());
  verdict_.further.insert(verdict_.further.end(), joined.further.begin(), joined.further.end());
  if (exposed_.is_loose(node))
    for (const TerminalId terminal : circuit_.nodes[node].terminals)
      verdict_.open_items.push_back(plan_.terminals[terminal].item);
  Way& way = ways_[node];
  // A charging source needs a device between it and the battery, and so does a battery that a relay takes off: what
  // feeds from this side goes on into it as into a load.
  verdict_.open_items.insert(verdict_.open_items.end(), joined.limited.begin(), joined.limited.end());
  if (way.by_relay)
    verdict_.open_items.insert(verdict_.open_items.end(), joined.batteries.begin(), joined.batteries.end());
  if (!joined.starters.empty()) {
    way.to_starter = best_row(way.count, true).has_value();
    if (!way.to_starter)
      verdict_.open_items.insert(verdict_.open_items.end(), joined.starters.begin(), joined.starters.end());
  }
  for (const ItemId id : joined.devices) way.device.count(plan_, id);
  way.device.count(plan_, beyond_sources_[node]);
}

// Every way hands what lies beyond it to the way before, from the far end back.
void StretchJudge::hand_back() {
  for (auto node = settled_.rbegin(); node != settled_.rend(); ++node) {
    const Way& way = ways_[*node];
    if (!way.by) continue;
    for (const BranchId id : exposed_.at(*node)) {
      if (id != way.by && !is_shortest(*node, id)) continue;
      beyond_[id] = *node;
      const Branch& branch = circuit_.branches[id];
      Way& before = ways_[branch.a == *node ? branch.b : branch.a];
      before.to_starter = before.to_starter || way.to_starter;
      before.device.count(plan_, way.device);
    }
  }
}

// The most generous row that holds for a way this long; `starter`: among those for starters, and only where the way
// is within it.
std::optional<PositionRow> StretchJudge::best_row(const Count& count, bool starter) const {
  const JoinedThere& start = exposed_.joined_at(count.start);
  std::optional<PositionRow> best;
  for (const PositionRow& row : rulebook_.positions) {
    if (row.only_starter != starter || (row.only_sheathed && !count.sheathed)) continue;
    if ((row.only_from_battery && start.batteries.empty()) || (row.only_from_charger && !start.charger)) continue;
    if (starter && !is_within(count.metres, row)) continue;
    if (!best || (best->longest && (!row.longest || *row.longest > *best->longest))) best = row;
  }
  return best;
}

bool StretchJudge::is_within(double way_m, const PositionRow& row) {
  return !row.longest || way_m <= row.longest->in(metres) + kSameLength_m;
}

// Of a short link from post to post of a bank half: no point of it is farther from one.
double StretchJudge::own_length_m(BranchId id) const {
  const Branch& branch = circuit_.branches[id];
  const bool is_link = exposed_.joined_at(branch.a).post && exposed_.joined_at(branch.b).post;
  return length_m(id) * (is_link && length_m(id) <= kLongestLink_m ? 0.5 : 1.0);
}

// A longer one beside that which a shortest way takes serves the same.
const StretchJudge::Way* StretchJudge::way_beyond(BranchId id) const {
  if (beyond_[id]) return &ways_[*beyond_[id]];
  const Branch& branch = circuit_.branches[id];
  const bool has_a_fewer = exposed_.at(branch.a).size() < exposed_.at(branch.b).size();
  for (const BranchId beside : exposed_.at(has_a_fewer ? branch.a : branch.b)) {
    const Branch& other = circuit_.branches[beside];
    if (beyond_[beside] && std::minmax(other.a, other.b) == std::minmax(branch.a, branch.b))
      return &ways_[*beyond_[beside]];
  }
  return nullptr;
}

Verdict StretchJudge::judge_conductor(BranchId id, bool is_open) const {
  const Branch& branch = circuit_.branches[id];
  Verdict verdict;
  verdict.conductor = *branch.conductor;
  const Way& a = ways_[branch.a];
  const Way& b = ways_[branch.b];
  const bool is_b_nearer = b.reach < a.reach;
  const Way& nearer = is_b_nearer ? b : a;
  Count count = nearer.count;
  verdict.is_borne = !(count.metres > 0.0) && bears_from(id, is_b_nearer ? branch.b : branch.a);
  const NodeId far = is_b_nearer ? branch.a : branch.b;
  if (is_post_of_bank(far, nearer.by_contact)) count = {0.0, far, true};
  count.metres += own_length_m(id);
  count.sheathed = count.sheathed && is_sheathed(id);
  verdict.reach = metres(count.metres);
  verdict.counted_from = count.start;
  const Way* on = way_beyond(id);
  if (on && on->to_starter) verdict.row = best_row(count, true);
  if (!verdict.row) verdict.row = best_row(count, false);
  if (on) verdict.device = on->device;
  const std::optional<Current>& may_carry = figures_[verdict.conductor].may_carry;
  if (is_open)
    verdict.exposure = Exposure::open_stretch;
  else if (!verdict.row || !is_within(count.metres, *verdict.row))
    verdict.exposure = Exposure::too_far;
  else if (verdict.device.item && may_carry && *may_carry < verdict.device.rating)
    verdict.exposure = Exposure::too_thin_for_device;
  return verdict;
}

}  // namespace loomleaf
