#include "protection/support/brute_exposure.h"

#include <algorithm>
#include <map>

#include "protection/support/brute_force.h"

namespace loomleaf::test {
namespace {

using Edges = std::set<std::uint32_t>;
using Nodes = std::set<std::uint32_t>;

class BruteExposure {
 public:
  BruteExposure(const TestPlan& built, const Judged& judged, const Rulebook& book)
      : built_(built), circuit_(judged.circuit), book_(book) {
    for (const Ways& ways : judged.ways) brutes_.emplace_back(built.plan, judged.circuit, ways);
    for (const ConductorId id : built.plan.conductors.ids())
      for (const BruteForce& brute : brutes_) {
        const BruteLetThrough one = brute.of(id);
        if (one.is_feed && exceeds(one.feed, id)) stretch_edges_.insert(circuit_.branch_of[id].value);
      }
    exposed_ = stretch_edges_;
    // Contacts beside them, and beside these again, that carry feed in the way they are closed in.
    for (bool more = true; more;) {
      more = false;
      for (const BranchId id : circuit_.branches.ids()) {
        const Branch& branch = circuit_.branches[id];
        if (branch.kind != BranchKind::contact || stretch_edges_.count(id.value)) continue;
        if (has_further(branch.a) && has_further(branch.b)) continue;
        bool carries_feed = false;
        for (std::size_t w = 0; w < judged.ways.size(); ++w) {
          const int position = branch.changer ? judged.ways[w].way_of[*branch.changer] : branch.way;
          const bool is_both = branch.changer && position == judged.circuit.changers[*branch.changer].ways;
          const bool closed = position == branch.way || is_both;
          carries_feed = carries_feed || (closed && brutes_[w].is_feed(branch.a));
        }
        if (carries_feed && (touches_stretch(branch.a) || touches_stretch(branch.b))) {
          stretch_edges_.insert(id.value);
          more = true;
        }
      }
    }
  }

  BruteVerdict of(ConductorId conductor) const {
    const std::uint32_t own = circuit_.branch_of[conductor].value;
    BruteVerdict worst;
    worst.exposed_feed = exposed_.count(own) > 0;
    if (!worst.exposed_feed) return worst;
    struct Point {
      NodeId node;
      Edges stretch;
      BruteFlow flow;
    };
    std::vector<Point> points;
    bool one_brings_it_all = false;
    for (const NodeId node : circuit_.nodes.ids()) {
      if (!can_feed(node)) continue;
      const Edges stretch = stretch_of(own, node);
      const bool touches = std::any_of(stretch.begin(), stretch.end(), [&](std::uint32_t e) { return ends(e, node); });
      if (!touches) continue;
      Edges away = stretch;
      for (const std::uint32_t e : stretch_edges_)
        if (ends(e, node)) away.insert(e);
      BruteFlow flow;
      flow.most_uA = 0;
      for (const BruteForce& brute : brutes_) flow = std::max(flow, brute.feed_into(node, away), less);
      if (flow.most_uA == 0) continue;
      points.push_back({node, stretch, flow});
      one_brings_it_all = one_brings_it_all || exceeds(flow, conductor);
    }
    bool any = false;
    for (const Point& point : points) {
      if (one_brings_it_all && !exceeds(point.flow, conductor)) continue;
      const std::optional<std::pair<Exposure, double>> judged = judge(conductor, point.node, point.stretch);
      if (!judged) continue;
      const auto [exposure, length] = *judged;
      if (!any) worst.exposure = exposure;
      any = true;
      worst.length_m = std::max(worst.length_m, length);
      if (rank(exposure) > rank(worst.exposure)) worst.exposure = exposure;
    }
    if (!any) worst.exposure = Exposure::open_stretch;
    return worst;
  }

 private:
  static bool less(const BruteFlow& a, const BruteFlow& b) { return b > a; }
  static int rank(Exposure exposure) {
    if (exposure == Exposure::open_stretch) return 3;
    if (exposure == Exposure::too_far) return 2;
    return exposure == Exposure::too_thin_for_device ? 1 : 0;
  }
  const Branch& branch(std::uint32_t edge) const { return circuit_.branches[BranchId(edge)]; }
  bool ends(std::uint32_t edge, NodeId node) const { return branch(edge).a == node || branch(edge).b == node; }
  bool touches_stretch(NodeId node) const {
    return std::any_of(stretch_edges_.begin(), stretch_edges_.end(), [&](std::uint32_t e) { return ends(e, node); });
  }
  double may_carry(ConductorId conductor) const { return built_.figures[conductor].may_carry->in(amperes); }
  bool exceeds(const BruteFlow& flow, ConductorId conductor) const {
    return static_cast<double>(flow.most_uA) / 1e6 > may_carry(conductor) * (1 + 1e-9);
  }
  double length(std::uint32_t edge) const {
    return branch(edge).conductor ? built_.figures[*branch(edge).conductor].length.in(metres) : 0.0;
  }
  bool sheathed(std::uint32_t edge) const {
    if (!branch(edge).conductor) return true;
    return built_.routes.runs[built_.plan.conductors[*branch(edge).conductor].run].sheathed_throughout;
  }
  const Item& item_at(TerminalId terminal) const { return built_.plan.items[built_.plan.terminals[terminal].item]; }

  std::vector<double> device_ratings(NodeId node) const {
    std::vector<double> ratings;
    for (const Branch& one : circuit_.branches)
      if (one.kind == BranchKind::device && (one.a == node || one.b == node))
        ratings.push_back(std::get<Device>(built_.plan.items[*one.item].data).rating->in(amperes));
    return ratings;
  }
  // All nodes that are reached from the node through a source from its - to its +, then along the exposed network, and
  // so on through further sources.
  std::set<NodeId> behind_sources(NodeId node) const {
    std::set<NodeId> behind;
    for (bool more = true; more;) {
      more = false;
      for (const TwoPole& source : circuit_.sources)
        if (source.minus == node || behind.count(source.minus)) more = behind.insert(source.plus).second || more;
      for (const std::uint32_t e : stretch_edges_)
        for (const auto& [from, to] : {std::pair{branch(e).a, branch(e).b}, std::pair{branch(e).b, branch(e).a}})
          if (behind.count(from)) more = behind.insert(to).second || more;
    }
    return behind;
  }
  bool has_further(NodeId node) const {
    for (const BranchId id : circuit_.branches.ids())
      if (circuit_.branches[id].conductor && ends(id.value, node) && !exposed_.count(id.value)) return true;
    return false;
  }
  bool has_supply(NodeId node, bool battery_plus_only = false) const {
    for (const TerminalId id : circuit_.nodes[node].terminals) {
      const TerminalRole role = built_.plan.terminals[id].role;
      if (const Source* source = item_at(id).as<Source>())
        if (!battery_plus_only || (role == TerminalRole::plus && !source->is_limited())) return true;
      if (!battery_plus_only && item_at(id).is<Converter>() &&
          (role == TerminalRole::out_plus || role == TerminalRole::out_minus))
        return true;
    }
    return false;
  }
  bool is_post(NodeId node) const {
    return std::ranges::any_of(circuit_.nodes[node].terminals, [&](TerminalId id) {
      const Source* source = item_at(id).as<Source>();
      return source && !source->is_limited();
    });
  }
  bool is_beside_any(std::uint32_t edge, const Edges& others) const {
    return std::ranges::any_of(
        others, [&](std::uint32_t other) { return ends(other, branch(edge).a) && ends(other, branch(edge).b); });
  }
  // A limited source's + or a converter's output.
  bool has_limited(NodeId node) const {
    return std::any_of(circuit_.nodes[node].terminals.begin(), circuit_.nodes[node].terminals.end(),
                       [&](TerminalId id) {
                         const TerminalRole role = built_.plan.terminals[id].role;
                         const Source* source = item_at(id).as<Source>();
                         return (source && source->is_limited() && role == TerminalRole::plus) ||
                                (item_at(id).is<Converter>() && role == TerminalRole::out_plus);
                       });
  }
  bool can_feed(NodeId node) const { return has_supply(node) || has_further(node) || !device_ratings(node).empty(); }

  // What hangs together with the edge without passing the node.
  Edges stretch_of(std::uint32_t own, NodeId but) const {
    Edges stretch{own};
    for (bool more = true; more;) {
      more = false;
      for (const std::uint32_t e : stretch_edges_) {
        if (stretch.count(e)) continue;
        const bool meets = std::any_of(stretch.begin(), stretch.end(), [&](std::uint32_t other) {
          return (branch(e).a != but && ends(other, branch(e).a)) || (branch(e).b != but && ends(other, branch(e).b));
        });
        if (meets) more = stretch.insert(e).second || more;
      }
    }
    return stretch;
  }

  // Whether a conductor bears all that can come into that end of it.
  bool bears_from(std::uint32_t edge, NodeId end) const {
    if (!branch(edge).conductor) return false;
    return std::none_of(brutes_.begin(), brutes_.end(), [&](const BruteForce& brute) {
      return exceeds(brute.feed_into(end, {edge}), *branch(edge).conductor);
    });
  }

  // What bears all that comes from the feeding point is not counted, up to the first that does not.
  struct Way {
    std::pair<double, double> length{1e9, 1e9};  // counted, and all of it
    Edges edges;
    bool by_contact = false, by_relay = false;
    // What the book is held against: it begins anew at each post of the bank.
    double metres = 0;
    Edges counted;
    NodeId start;
  };
  std::map<NodeId, Way> ways_from(NodeId node, const Edges& stretch) const {
    std::map<NodeId, Way> ways;
    ways[node].length = {0, 0};
    ways[node].start = node;
    for (std::size_t round = 0; round <= stretch.size(); ++round)
      for (const std::uint32_t e : stretch)
        for (const auto& [from, to] : {std::pair{branch(e).a, branch(e).b}, std::pair{branch(e).b, branch(e).a}}) {
          if (!ways.count(from)) continue;
          Way on = ways[from];
          const bool counts = on.length.first > 0 || !bears_from(e, from);
          on.length.first += counts ? length(e) : 0;
          on.length.second += length(e);
          on.edges.insert(e);
          if (on.metres > 0 || !bears_from(e, from)) {
            on.metres += length(e);
            on.counted.insert(e);
          } else {
            on.start = to;
          }
          on.by_contact = on.by_contact || branch(e).kind == BranchKind::contact;
          if (has_supply(node, true) && !on.by_contact && has_supply(to, true)) {
            on.metres = 0;
            on.counted.clear();
            on.start = to;
          }
          on.by_relay = on.by_relay || (branch(e).item && built_.plan.items[*branch(e).item].is<Relay>());
          if (on.length < ways[to].length) ways[to] = on;
        }
    return ways;
  }

  // The longest that a row for such a way allows, in metres; negative: no row.
  double allowed(const Way& way, bool starter) const {
    double most = -1;
    for (const PositionRow& row : book_.positions) {
      if (row.only_starter != starter || (row.only_from_battery && !has_supply(way.start, true))) continue;
      if (row.only_sheathed &&
          !std::all_of(way.counted.begin(), way.counted.end(), [&](std::uint32_t e) { return sheathed(e); }))
        continue;
      most = std::max(most, row.longest ? row.longest->in(metres) : 1e9);
    }
    return most;
  }

  bool is_way_of_changeover(NodeId node) const {
    if (circuit_.nodes[node].terminals.size() != 1) return false;
    const TerminalId only = circuit_.nodes[node].terminals.front();
    const Switch* changeover = item_at(only).as<Switch>();
    return changeover && changeover->ways > 1 && built_.plan.terminals[only].role == TerminalRole::out;
  }

  // Nothing where the conductor bears all that comes from there.
  std::optional<std::pair<Exposure, double>> judge(ConductorId conductor, NodeId from, const Edges& stretch) const {
    const std::uint32_t own = circuit_.branch_of[conductor].value;
    std::map<NodeId, Way> ways = ways_from(from, stretch);
    bool open = false, on_starters_way = false;
    double largest = 0;
    for (const auto& [node, way] : ways) {
      if (node == from) continue;
      std::set<NodeId> loaded_by = behind_sources(node);
      loaded_by.insert(node);
      for (const NodeId at : loaded_by)
        for (const double rating : device_ratings(at))
          if (way.edges.count(own) || is_beside_any(own, way.edges)) largest = std::max(largest, rating);
      bool ends_here = has_supply(node) || !device_ratings(node).empty();
      if (has_further(node) || has_limited(node) || (way.by_relay && has_supply(node, true))) open = true;
      for (const TerminalId id : circuit_.nodes[node].terminals) {
        const TerminalRole role = built_.plan.terminals[id].role;
        const Load* load = item_at(id).as<Load>();
        if (load && load->kind == Load::Kind::starter) {
          ends_here = true;
          if (way.metres <= allowed(way, true) + 1e-9)
            on_starters_way = on_starters_way || way.edges.count(own);
          else
            open = true;
        } else if (load ||
                   (item_at(id).is<Converter>() && (role == TerminalRole::in_plus || role == TerminalRole::in_minus))) {
          open = true;
        }
      }
      int joined = 0;
      for (const std::uint32_t e : stretch_edges_) joined += ends(e, node) ? 1 : 0;
      const bool free_way = joined == 1 && is_way_of_changeover(node) && circuit_.at[node].size() == 1 &&
                            circuit_.branches[circuit_.at[node].front()].kind == BranchKind::contact;
      if (joined == 1 && !ends_here && !free_way) open = true;
    }
    const NodeId near = ways[branch(own).a].length <= ways[branch(own).b].length ? branch(own).a : branch(own).b;
    Way to = ways[near];
    if (to.metres == 0 && bears_from(own, near)) return std::nullopt;
    const NodeId far = near == branch(own).a ? branch(own).b : branch(own).a;
    if (has_supply(from, true) && !to.by_contact && has_supply(far, true)) {  // measured from that post of the bank
      to.metres = 0;
      to.counted.clear();
      to.start = far;
    }
    to.counted.insert(own);
    const bool is_link = is_post(branch(own).a) && is_post(branch(own).b) && length(own) <= 0.5;  // half of it counts
    const double reach = to.metres + length(own) * (is_link ? 0.5 : 1);
    if (open) return std::pair(Exposure::open_stretch, reach);
    const double starter_m = on_starters_way ? allowed(to, true) : -1;
    if (reach > (starter_m >= 0 ? starter_m : allowed(to, false)) + 1e-9) return std::pair(Exposure::too_far, reach);
    if (may_carry(conductor) < largest) return std::pair(Exposure::too_thin_for_device, reach);
    return std::pair(Exposure::tolerated, reach);
  }

  const TestPlan& built_;
  const Circuit& circuit_;
  const Rulebook& book_;
  std::vector<BruteForce> brutes_;
  Edges exposed_, stretch_edges_;
};

}  // namespace

std::vector<BruteVerdict> brute_exposure(const TestPlan& built, const Judged& judged, const Rulebook& book) {
  const BruteExposure brute(built, judged, book);
  std::vector<BruteVerdict> verdicts;
  for (const ConductorId id : built.plan.conductors.ids()) verdicts.push_back(brute.of(id));
  return verdicts;
}

}  // namespace loomleaf::test
