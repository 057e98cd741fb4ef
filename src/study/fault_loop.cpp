#include "fault_loop.h"

#include <algorithm>
#include <cmath>

#include "loomleaf/study/fuse_curve.h"

namespace loomleaf {
namespace {

constexpr double least_share = 1e-6;  // of the current in the short: less is rounding

std::vector<FaultLink> links_of(const Circuit& circuit, const FaultSupplies& supplies) {
  std::vector<FaultLink> links;
  for (const BranchId id : circuit.branches.ids())
    if (supplies.passes(id))
      links.push_back({circuit.branches[id].a.value, circuit.branches[id].b.value, supplies.siemens(id)});
  for (const FaultSupplies::Held& held : supplies.held())
    links.push_back({held.plus.value, held.minus.value, held.siemens});
  return links;
}

}  // namespace

LoopFinder::LoopFinder(const Plan& plan, const Circuit& circuit, const Stock& stock, const FaultSupplies& supplies)
    : plan_(plan),
      circuit_(circuit),
      stock_(stock),
      supplies_(supplies),
      solver_(circuit.nodes.size(), links_of(circuit, supplies)),
      leading_(circuit.nodes.size()),
      held_plus_(circuit.nodes.size()),
      held_minus_(circuit.nodes.size()),
      seen_(circuit.nodes.size(), 0),
      cut_at_(circuit.nodes.size()) {
  std::vector<double> ampere_in(circuit.nodes.size(), 0.0);
  for (std::size_t i = 0; i < supplies.held().size(); ++i) {
    const FaultSupplies::Held& held = supplies.held()[i];
    ampere_in[held.plus.value] += held.low_V * held.siemens;
    ampere_in[held.minus.value] -= held.low_V * held.siemens;
    held_plus_[held.plus].push_back(i);
    held_minus_[held.minus].push_back(i);
  }
  open_volt_ = solver_.voltages(ampere_in);
  for (const NodeId node : circuit.nodes.ids())
    for (const BranchId id : circuit.at[node])
      if (supplies.passes(id) && supplies.leads_to_supply(id, node)) leading_[node].push_back(id);
}

double LoopFinder::feeds(const FaultSupplies::Held& held) {
  return held.siemens * (solver_.fall(held.plus.value) - solver_.fall(held.minus.value));
}

std::optional<double> LoopFinder::current_at(const ShortPlace& place) {
  const FeedOfPart& feed = supplies_.feed_of(place.feed);
  if (feed.unknown || !feed.feeds()) return std::nullopt;
  const double volt = open_volt_[place.feed.value] - open_volt_[place.back.value];
  const double ohm = solver_.fall(place.feed.value) - solver_.fall(place.back.value) + place.way_back_ohm;
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
    for (const BranchId id : leading_[node]) {
      const Branch& branch = circuit_.branches[id];
      const NodeId next = branch.a == node ? branch.b : branch.a;
      const double share = sign * supplies_.siemens(id) * (reached_[i].fall - solver_.fall(next.value));
      if (share < least_share) continue;
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

Cut LoopFinder::through(const Step& step, FaultLoop& loop) const {
  Cut cut = cut_at_[step.to];
  const Branch& branch = circuit_.branches[step.branch];
  if (branch.kind != BranchKind::device) return cut;
  const Device& device = *plan_.items[*branch.item].as<Device>();
  if (!device.rating) return cut;
  const FuseFamily* family = stock_.find_family(device.family);
  const Opening opening = family ? opens_no_later(*family, *device.rating, amperes(step.ampere)) : Opening{};
  const double opens_s = opening.no_later ? opening.no_later->in(seconds) : Cut{}.after_s;
  if (!opening.is_published) loop.no_curve.push_back(step.branch);
  // Of two that may both stay closed, the one that is more overloaded is named.
  const bool sooner = !cut.by || opens_s < cut.after_s ||
                      (opens_s == cut.after_s && times_rating(step.branch, step.ampere) > cut.times);
  if (sooner) cut = {opens_s, true, step.branch, times_rating(step.branch, step.ampere), step.ampere};
  cut.guarded = true;
  return cut;
}

Cut LoopFinder::cut_at(const Reached& reached, Side side, FaultLoop& loop) {
  std::optional<Cut> longest;
  bool guarded = true;
  const auto take = [&](const Cut& cut) {
    guarded = guarded && cut.guarded;
    if (!longest || cut.after_s > longest->after_s) longest = cut;
  };
  for (const std::size_t h : side == Side::feed ? held_plus_[reached.node] : held_minus_[reached.node]) {
    const FaultSupplies::Held& held = supplies_.held()[h];
    if (feeds(held) < least_share) continue;
    take(side == Side::feed && supplies_.is_feed(held.minus) ? cut_at_[held.minus] : Cut{});
  }
  for (std::size_t i = reached.first_step; i < reached.last_step; ++i) {
    steps_[i].cut = through(steps_[i], loop);
    take(steps_[i].cut);
  }
  Cut cut = longest.value_or(Cut{});
  cut.guarded = cut.guarded && guarded;
  return cut;
}

// What lies nearer to the supplies is settled first. On the feed side the short lowers it less, on the way back it
// lifts it less.
Cut LoopFinder::settle(NodeId start, Side side, FaultLoop& loop) {
  std::stable_sort(reached_.begin(), reached_.end(), [side](const Reached& a, const Reached& b) {
    return side == Side::feed ? a.fall < b.fall : a.fall > b.fall;
  });
  for (const Reached& reached : reached_) cut_at_[reached.node] = cut_at(reached, side, loop);
  for (const Step& step : steps_) loop.pieces.push_back({step.branch, step.ampere, step.cut.after_s});
  reached_.clear();
  steps_.clear();
  return cut_at_[start];
}

std::optional<FaultLoop> LoopFinder::find(const ShortPlace& place) {
  solver_.draw(place.feed.value, place.back.value);
  const std::optional<double> ampere = current_at(place);
  if (!ampere) return std::nullopt;
  FaultLoop loop;
  loop.ampere = *ampere;
  ++walk_;
  walk(place.feed, Side::feed, *ampere);
  const Cut out = settle(place.feed, Side::feed, loop);
  walk(place.back, Side::back, *ampere);
  const Cut back = settle(place.back, Side::back, loop);
  const bool by_feed = out.by && (!back.by || out.after_s <= back.after_s);
  loop.cut = by_feed ? out : back;
  loop.cut.guarded = out.guarded || back.guarded;
  for (LoopPiece& piece : loop.pieces) piece.lasts_s = std::min(piece.lasts_s, loop.cut.after_s);
  // A device without a curve that is less overloaded than the one that opens would hardly open before it.
  std::erase_if(loop.no_curve, [&](BranchId id) {
    const auto piece = std::ranges::find(loop.pieces, id, &LoopPiece::branch);
    return id != loop.cut.by && loop.cut.times >= times_rating(id, piece->ampere);
  });
  return loop;
}

}  // namespace loomleaf
