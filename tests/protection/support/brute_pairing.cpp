#include "protection/support/brute_pairing.h"

#include <algorithm>
#include <cmath>

namespace loomleaf::test {

namespace {

bool holds(const std::set<std::size_t>& set, NodeId node) { return set.count(node.value) > 0; }

void raise(BruteFlow& at, const BruteFlow& by) {
  if (by > at || (by.most_uA == at.most_uA && by.held_by < at.held_by)) at = by;
}

}  // namespace

BrutePairing::BrutePairing(const Plan& plan, const Circuit& circuit, const BruteForce& brute)
    : plan_(plan), circuit_(circuit), brute_(brute), loads_(brute.shorted_loads()) {
  for (const bool batteries_alone : {false, true})
    origins_.push_back({batteries_alone, side_of(brute.plus_poles(batteries_alone), true),
                        side_of(brute.minus_poles(batteries_alone), false)});
}

BrutePairing::Side BrutePairing::side_of(const Nodes& poles, bool is_feed) const {
  Side side{poles, {}};
  const Nodes all = brute_.reached(poles, {});
  for (const BranchId id : brute_.conducting()) {
    const Branch& branch = circuit_.branches[id];
    const Nodes left = brute_.reached(poles, {id.value});
    Cut cut{id, {}, branch.a, branch.b, {}};
    std::set_difference(all.begin(), all.end(), left.begin(), left.end(), std::inserter(cut.off, cut.off.end()));
    if (cut.off.empty()) continue;
    if (holds(cut.off, cut.near)) std::swap(cut.near, cut.far);
    for (std::size_t i = 0; i < loads_.size(); ++i)
      if (cut.off.count(is_feed ? loads_[i].first : loads_[i].second)) cut.loads.insert(i);
    side.cuts.push_back(std::move(cut));
  }
  return side;
}

// "Pieces": nodes that no branch parts.
bool BrutePairing::has_bar(const Side& side, NodeId in_piece) const {
  const Nodes all = brute_.reached(side.poles, {});
  for (const Item& item : plan_.items) {
    if (!item.is<Bus>()) continue;
    const NodeId bar = circuit_.node_of[item.terminals.front()];
    const bool is_parted = std::any_of(side.cuts.begin(), side.cuts.end(),
                                       [&](const Cut& cut) { return holds(cut.off, bar) != holds(cut.off, in_piece); });
    if (holds(all, bar) && !is_parted) return true;
  }
  return false;
}

std::size_t BrutePairing::bars_before(const Side& side, const Cut& cut) const {
  std::size_t bars = has_bar(side, NodeId(*side.poles.begin())) ? 1 : 0;
  for (const Cut& before : side.cuts)
    if (holds(before.off, cut.near) && has_bar(side, before.far)) ++bars;
  return bars;
}

bool BrutePairing::has_bar_between(const Side& back, const Cut& at, const std::set<std::size_t>& loads) const {
  return std::any_of(back.cuts.begin(), back.cuts.end(), [&](const Cut& cut) {
    const bool is_behind = cut.branch == at.branch || holds(at.off, cut.near);
    return is_behind && std::includes(cut.loads.begin(), cut.loads.end(), loads.begin(), loads.end()) &&
           has_bar(back, cut.far);
  });
}

long long BrutePairing::rating_of(BranchId branch) const {
  if (circuit_.branches[branch].kind != BranchKind::device) return kNoLimit_uA;
  const auto& rating = std::get<Device>(plan_.items[*circuit_.branches[branch].item].data).rating;
  return rating ? std::llround(rating->in(amperes)*1e6) : kNoLimit_uA;
}

bool BrutePairing::is_behind_one_device(const Side& feed, const Cut& cut) const {
  return std::any_of(feed.cuts.begin(), feed.cuts.end(), [&](const Cut& other) {
    return holds(cut.off, other.near) && other.loads == cut.loads && rating_of(other.branch) != kNoLimit_uA;
  });
}

bool BrutePairing::is_before_one_device(const Side& back, const Cut& at, const std::set<std::size_t>& loads) const {
  return std::any_of(back.cuts.begin(), back.cuts.end(), [&](const Cut& cut) {
    return holds(at.off, cut.near) && std::includes(cut.loads.begin(), cut.loads.end(), loads.begin(), loads.end()) &&
           rating_of(cut.branch) != kNoLimit_uA;
  });
}

BruteFlow BrutePairing::of(BranchId branch, const Origin& origin) const {
  BruteFlow greatest{0, {}};
  for (const Cut& at : origin.back.cuts) {
    if (at.branch != branch) continue;
    for (const Cut& feed : origin.feed.cuts) {
      if (feed.loads.empty() || !std::includes(at.loads.begin(), at.loads.end(), feed.loads.begin(), feed.loads.end()))
        continue;
      if (is_behind_one_device(origin.feed, feed)) {
        const std::size_t back = bars_before(origin.back, at), fed = bars_before(origin.feed, feed);
        if (back > fed || !has_bar_between(origin.back, at, feed.loads)) continue;
        const std::size_t back_end = back + (has_bar(origin.back, at.far) ? 1 : 0);
        const std::size_t fed_end = fed + (has_bar(origin.feed, feed.far) ? 1 : 0);
        if (rating_of(feed.branch) == kNoLimit_uA && back_end > fed_end) continue;
      }
      BruteFlow flow = brute_.feed_into(feed.near, {feed.branch.value}, origin.batteries_alone);
      const long long rating = rating_of(feed.branch);
      if (rating <= flow.most_uA && rating != kNoLimit_uA)
        flow = {rating, {plan_.items[*circuit_.branches[feed.branch].item].id}};
      if (flow.is_bounded()) raise(greatest, flow);
    }
  }
  return greatest;
}

BruteFlow BrutePairing::of(ConductorId conductor) const {
  BruteFlow greatest{0, {}};
  for (const Origin& origin : origins_) raise(greatest, of(circuit_.branch_of[conductor], origin));
  return greatest;
}

}  // namespace loomleaf::test
