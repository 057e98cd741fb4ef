#include "loomleaf/study/protection.h"

#include "between_batteries.h"
#include "exposure.h"
#include "fault_network.h"
#include "let_through.h"
#include "paired_returns.h"

namespace loomleaf {
namespace {

// Whichever flows more over the ways, as feed or as return.
struct WorstLetThrough {
  FaultFlow feed, back;
  InflowAtEnds feed_at_ends;
  std::size_t feed_ways = 0, back_ways = 0;
  bool is_feed = false, is_return = false;
  bool is_paired = false;  // `back` is what a feed takes that the return pairs with

  void take(const LetThrough& found, std::size_t ways) {
    if (found.is_feed && (!is_feed || found.feed.most > feed.most)) {
      feed = found.feed;
      feed_ways = ways;
    }
    if (found.is_return && (!is_return || found.back.most > back.most)) {
      back = found.back;
      back_ways = ways;
      is_paired = false;
    }
    feed_at_ends.a = std::max(feed_at_ends.a, found.feed_at_ends.a);
    feed_at_ends.b = std::max(feed_at_ends.b, found.feed_at_ends.b);
    is_feed = is_feed || found.is_feed;
    is_return = is_return || found.is_return;
  }
  void take_paired(const FaultFlow& found, std::size_t ways) {
    if (!is_return || found.most <= back.most) return;
    back = found;
    back_ways = ways;
    is_paired = true;
  }
};

ConductorSide side_of(const Run& run, const WorstLetThrough& worst) {
  if (run.signal) return ConductorSide::signal;
  if (run.bond) return ConductorSide::bond;
  if (worst.is_feed) return ConductorSide::feed;
  return worst.is_return ? ConductorSide::return_ : ConductorSide::none;
}

void fill(ConductorProtection& of, const WorstLetThrough& worst) {
  const bool by_return = worst.is_return && (!worst.is_feed || worst.back.most > worst.feed.most);
  const FaultFlow& flow = by_return ? worst.back : worst.feed;
  of.unbounded = flow.most >= kUnlimited;
  if (!of.unbounded) of.let_through = to_current(flow.most);
  of.protected_by = flow.held_by;
  of.by_paired_feed = by_return && worst.is_paired;
  of.ways = by_return ? worst.back_ways : worst.feed_ways;
}

void take_contacts(const IndexedList<BranchOf, FaultFlow>& found, std::size_t ways,
                   IndexedList<BranchOf, std::optional<BetweenBatteries>>& worst) {
  for (const BranchId id : found.ids()) {
    const FaultFlow& flow = found[id];
    if (flow.most == 0 || flow.most >= kUnlimited) continue;
    const Current most = to_current(flow.most);
    if (!worst[id] || most > worst[id]->most) worst[id] = BetweenBatteries{most, flow.held_by, ways};
  }
}

}  // namespace

Protection study_protection(const Plan& plan, const Routes& routes, const Circuit& circuit,
                            const IndexedList<ConductorOf, ConductorFigures>& figures, const Rulebook& rulebook,
                            const std::vector<Ways>& ways, const std::vector<Sides>& sides) {
  Protection protection{IndexedList<ConductorOf, ConductorProtection>(plan.conductors.size()),
                        IndexedList<BranchOf, std::optional<BetweenBatteries>>(circuit.branches.size())};
  std::vector<FaultNetwork> networks;
  networks.reserve(ways.size());
  IndexedList<ConductorOf, WorstLetThrough> worst(plan.conductors.size());
  for (std::size_t w = 0; w < ways.size(); ++w) {
    networks.emplace_back(plan, circuit, ways[w], sides[w]);
    const IndexedList<ConductorOf, LetThrough> found =
        find_let_through(plan, circuit, ways[w], sides[w], networks.back());
    const IndexedList<ConductorOf, FaultFlow> paired =
        find_paired_returns(plan, circuit, ways[w], sides[w], networks.back());
    for (const ConductorId id : found.ids()) {
      worst[id].take(found[id], w);
      worst[id].take_paired(paired[id], w);
    }
    take_contacts(find_between_batteries(circuit, ways[w], networks.back()), w, protection.contacts);
  }

  IndexedList<ConductorOf, bool> exposed_feed(plan.conductors.size(), false);
  IndexedList<ConductorOf, InflowAtEnds> inflow(plan.conductors.size());
  for (const ConductorId id : plan.conductors.ids()) {
    ConductorProtection& of = protection.conductors[id];
    of.side = side_of(plan.runs[plan.conductors[id].run], worst[id]);
    fill(of, worst[id]);
    inflow[id] = worst[id].feed_at_ends;
    exposed_feed[id] = worst[id].is_feed && exceeds(worst[id].feed.most, figures[id].may_carry);
  }
  judge_exposure(plan, routes, circuit, figures, rulebook, ways, sides, networks, exposed_feed, inflow,
                 protection.conductors);
  for (const ConductorId id : plan.conductors.ids()) {
    ConductorProtection& of = protection.conductors[id];
    const bool exposed_return = worst[id].is_return && exceeds(worst[id].back.most, figures[id].may_carry);
    of.exposed = exposed_feed[id] || exposed_return;
    if (exposed_return && (of.exposure == Exposure::protected_ || of.exposure == Exposure::tolerated))
      of.exposure = Exposure::exposed_return;
  }
  return protection;
}

}  // namespace loomleaf
