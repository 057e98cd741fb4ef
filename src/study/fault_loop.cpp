#include "fault_loop.h"

#include <algorithm>
#include <cmath>

#include "loomleaf/study/fuse_curve.h"

namespace loomleaf {
namespace {

constexpr double least_share = 1e-6;  // of the current in the short: less is rounding

std::vector<FaultLink> links_of_core(const Circuit& circuit, const FaultSupplies& supplies, const FeederTrees& trees,
                                     const std::vector<BranchId>& opened) {
  std::vector<FaultLink> links;
  for (const BranchId id : circuit.branches.ids())
    if (supplies.passes(id) && std::ranges::count(opened, id) == 0 && trees.in_core(circuit.branches[id].a) &&
        trees.in_core(circuit.branches[id].b))
      links.push_back({circuit.branches[id].a.value, circuit.branches[id].b.value, supplies.siemens(id)});
  for (const FaultSupplies::Held& held : supplies.held())
    links.push_back({held.plus.value, held.minus.value, held.low_siemens()});
  return links;
}

// Of ways that may both stay closed, the one whose device is less overloaded.
bool outlasts(const Cut& one, const Cut& other) {
  if (!is_alike(one.after_s, other.after_s)) return one.after_s > other.after_s;
  if (!is_alike(one.times, other.times)) return one.times < other.times;
  return !is_alike(one.ampere, other.ampere) && one.ampere < other.ampere;
}

}  // namespace

LoopFinder::LoopFinder(const Plan& plan, const Circuit& circuit, const Stock& stock, const FaultSupplies& supplies,
                       const IndexedList<ConductorOf, ConductorFigures>& figures, const std::vector<BranchId>& opened)
    : plan_(plan),
      circuit_(circuit),
      stock_(stock),
      supplies_(supplies),
      opened_(opened),
      trees_(plan, circuit, supplies, figures),
      joined_(opened.empty() ? 0 : circuit.nodes.size()),
      solver_(circuit.nodes.size(), links_of_core(circuit, supplies, trees_, opened)),
      held_plus_(circuit.nodes.size()),
      held_minus_(circuit.nodes.size()),
      seen_(circuit.nodes.size(), 0),
      cut_at_(circuit.nodes.size()) {
  std::vector<double> ampere_in(circuit.nodes.size(), 0.0);
  for (std::size_t i = 0; i < supplies.held().size(); ++i) {
    const FaultSupplies::Held& held = supplies.held()[i];
    ampere_in[held.plus.value] += held.low_V * held.low_siemens();
    ampere_in[held.minus.value] -= held.low_V * held.low_siemens();
    held_plus_[held.plus].push_back(i);
    held_minus_[held.minus].push_back(i);
  }
  open_volt_ = solver_.voltages(ampere_in);
  if (opened.empty()) return;
  for (const FaultLink& link : links_of_core(circuit, supplies, trees_, opened)) joined_.join(link.a, link.b);
}

double LoopFinder::feeds(const FaultSupplies::Held& held) {
  return held.low_siemens() * (solver_.fall(held.plus.value) - solver_.fall(held.minus.value));
}

// What stands across the two points of the short, not all that meets one of them.
const FeedOfPart& LoopFinder::feed_of(const ShortPlace& place) {
  const Sides& sides = supplies_.sides();
  const auto [feed, is_new] = feeds_.try_emplace({sides.part_of[place.feed], sides.part_of[place.back]});
  if (is_new) feed->second = supplies_.feed_across(place.feed, place.back);
  return feed->second;
}

std::optional<double> LoopFinder::current_at(const ShortPlace& place) {
  if (supplies_.feed_of(place.feed).unknown) return std::nullopt;
  const FeedOfPart& feed = feed_of(place);
  if (!feed.feeds()) return std::nullopt;
  const FeederTrees::Way &out = trees_.way(place.feed), &back = trees_.way(place.back);
  const double volt = open_volt_[out.core.value] - open_volt_[back.core.value];
  const double ohm =
      solver_.fall(out.core.value) - solver_.fall(back.core.value) + out.ohm + back.ohm + place.way_back_ohm;
  if (!(volt > 0.0) || !(ohm > 0.0)) return std::nullopt;
  return feed.battery ? volt / ohm : std::min(volt / ohm, feed.limit_A);
}

// From the short to the supplies, against the current on the feed side, with it on the way back.
void LoopFinder::walk(NodeId start, Side side, double ampere) {
  const double sign = side == Side::feed ? 1.0 : -1.0;
  const auto reach = [&](NodeId node) {
    if (seen_[node] == walk_) return;
    seen_[node] = walk_;
    reached_.push_back({node, 0, 0, solver_.fall(node.value)});
  };
  reach(start);
  for (std::size_t i = 0; i < reached_.size(); ++i) {
    const NodeId node = reached_[i].node;
    reached_[i].first_step = steps_.size();
    for (const BranchId id : trees_.leading(node)) {
      const Branch& branch = circuit_.branches[id];
      const NodeId next = branch.a == node ? branch.b : branch.a;
      const double share = sign * supplies_.siemens(id) * (reached_[i].fall - solver_.fall(next.value));
      if (share < least_share || std::ranges::count(opened_, id) > 0) continue;
      steps_.push_back({id, next, share * ampere, {}});
      reach(next);
    }
    reached_[i].last_step = steps_.size();
    if (side == Side::back) continue;
    for (const std::size_t h : held_plus_[node]) {
      const FaultSupplies::Held& held = supplies_.held()[h];
      // In the middle of a chain the way goes on through the next source.
      if (supplies_.is_feed(held.minus) && feeds(held) >= least_share) reach(held.minus);
    }
  }
}

double LoopFinder::times_rating(BranchId device, double ampere) const {
  return ampere / plan_.items[*circuit_.branches[device].item].as<Device>()->rating->in(amperes);
}

// When current stops behind a branch, where before it it stops like that.
Cut LoopFinder::through(BranchId id, double ampere, const Cut& before) {
  const Branch& branch = circuit_.branches[id];
  if (branch.kind != BranchKind::device) return before;
  const Device& device = *plan_.items[*branch.item].as<Device>();
  if (!device.rating) return before;
  const FuseFamily* family = stock_.find_family(device.family);
  const Opening opening = family ? opens_no_later(*family, *device.rating, amperes(ampere)) : Opening{};
  const double opens_s = opening.no_later ? opening.no_later->in(seconds) : Cut{}.after_s;
  const double times = times_rating(id, ampere);
  note_opening(id, opens_s, ampere);
  if (!opening.is_published) no_curve_.push_back({id, times});
  // Of two that may both stay closed, the one that is more overloaded is named; of two alike the one nearer to the
  // supply.
  const bool as_soon = is_alike(opens_s, before.after_s);
  const bool sooner = as_soon ? times > before.times && !is_alike(times, before.times) : opens_s < before.after_s;
  Cut cut = before;
  if (before.by.empty() || sooner) cut = {opens_s, true, {id}, times, ampere};
  cut.guarded = true;
  return cut;
}

void LoopFinder::note_opening(BranchId device, double after_s, double ampere) {
  if (is_alike(after_s, first_.after_s))
    first_.devices.push_back(device);
  else if (after_s < first_.after_s)
    first_ = {after_s, {device}, times_rating(device, ampere), ampere};
}

Cut LoopFinder::cut_at(const Reached& reached, Side side) {
  std::optional<Cut> longest;
  bool guarded = true;
  const auto take = [&](const Cut& cut) {
    guarded = guarded && cut.guarded;
    if (!longest || outlasts(cut, *longest))
      longest = cut;
    else if (!outlasts(*longest, cut))
      longest->by.insert(longest->by.end(), cut.by.begin(), cut.by.end());
  };
  for (const std::size_t h : side == Side::feed ? held_plus_[reached.node] : held_minus_[reached.node]) {
    const FaultSupplies::Held& held = supplies_.held()[h];
    if (feeds(held) < least_share) continue;
    take(side == Side::feed && supplies_.is_feed(held.minus) ? cut_at_[held.minus] : Cut{});
  }
  for (std::size_t i = reached.first_step; i < reached.last_step; ++i) {
    steps_[i].cut = through(steps_[i].branch, steps_[i].ampere, cut_at_[steps_[i].to]);
    take(steps_[i].cut);
  }
  Cut cut = longest.value_or(Cut{});
  cut.guarded = cut.guarded && guarded;
  std::sort(cut.by.begin(), cut.by.end());
  cut.by.erase(std::unique(cut.by.begin(), cut.by.end()), cut.by.end());
  return cut;
}

// What lies nearer to the supplies is settled first. On the feed side the short lowers it less, on the way back it
// lifts it less.
Cut LoopFinder::settle(NodeId start, Side side, FaultLoop& loop) {
  std::stable_sort(reached_.begin(), reached_.end(), [side](const Reached& a, const Reached& b) {
    return side == Side::feed ? a.fall < b.fall : a.fall > b.fall;
  });
  for (const Reached& reached : reached_) cut_at_[reached.node] = cut_at(reached, side);
  for (const Step& step : steps_)
    loop.pieces.push_back({step.branch, step.ampere, step.cut.after_s, side == Side::feed});
  reached_.clear();
  steps_.clear();
  return cut_at_[start];
}

// Through the core, then along the one way beyond it, where all of the current goes.
Cut LoopFinder::out_to(NodeId end, Side side, FaultLoop& loop) {
  const NodeId core = trees_.way(end).core;
  walk(core, side, loop.ampere);
  Cut cut = settle(core, side, loop);
  for (const BranchId id : trees_.devices_on(end)) cut = through(id, loop.ampere, cut);
  for (const BranchId id : trees_.conductors_on(end))
    loop.pieces.push_back({id, loop.ampere, Cut{}.after_s, side == Side::feed});
  return cut;
}

std::optional<FaultLoop> LoopFinder::find(const ShortPlace& place, const std::vector<ShortedEnd>& shorted) {
  const std::size_t from = trees_.way(place.feed).core.value, to = trees_.way(place.back).core.value;
  if (!opened_.empty() && joined_.root(from) != joined_.root(to)) return std::nullopt;
  solver_.draw(from, to);
  const std::optional<double> ampere = current_at(place);
  if (!ampere) return std::nullopt;
  FaultLoop loop;
  loop.ampere = *ampere;
  loop.limited = !feed_of(place).battery;
  for (const ShortedEnd& end : shorted)
    if (!trees_.in_core(end.is_feed ? place.feed : place.back))
      loop.pieces.push_back({circuit_.branch_of[end.conductor], *ampere, Cut{}.after_s, end.is_feed});
  ++walk_;
  no_curve_.clear();
  first_ = {};
  const Cut out = out_to(place.feed, Side::feed, loop), back = out_to(place.back, Side::back, loop);
  const bool is_sooner_out = is_alike(out.after_s, back.after_s) || out.after_s < back.after_s;
  const bool by_feed = !out.by.empty() && (back.by.empty() || is_sooner_out);
  loop.cut = by_feed ? out : back;
  loop.cut.guarded = out.guarded || back.guarded;
  loop.first = first_;
  for (LoopPiece& piece : loop.pieces) piece.lasts_s = std::min(piece.lasts_s, loop.cut.after_s);
  // A device without a curve that is less overloaded than the one that opens would hardly open before it.
  for (const Uncertain& one : no_curve_)
    if (one.times > loop.cut.times || std::ranges::count(loop.cut.by, one.device) > 0)
      loop.no_curve.push_back(one.device);
  return loop;
}

}  // namespace loomleaf
