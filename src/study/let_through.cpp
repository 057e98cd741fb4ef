#include "let_through.h"

#include <algorithm>
#include <array>
#include <map>
#include <tuple>

#include "counted_supplies.h"
#include "ways_home.h"

namespace loomleaf {
namespace {

// Which ports a fault flows into: those within (or without) a stretch of a lump's ports. Conductors in a row, with
// nothing joined between them, ask the same.
struct Target {
  std::size_t lump = 0;
  WalkSpan within;  // positions among the ports of all lumps that can bring something
  bool is_inside = true;
  std::array<std::size_t, 4> key() const { return {lump, within.first, within.last, is_inside ? 1U : 0U}; }
};

class LetThroughFinder {
 public:
  LetThroughFinder(const Plan& plan, const Circuit& circuit, const Ways& ways, const Sides& sides,
                   const FaultNetwork& network)
      : circuit_(circuit),
        sides_(sides),
        network_(network),
        by_names_(plan),
        search_(network),
        blocks_(circuit, ways, returns(circuit, sides)),
        home_(circuit, network, blocks_),
        counted_(network, network.parts().positions()),
        counted_home_(network, blocks_.places()) {
    count_bringing_ports();
    order_returns();
  }

  IndexedList<ConductorOf, LetThrough> find() {
    IndexedList<ConductorOf, LetThrough> found(circuit_.branch_of.size());
    for (const ConductorId id : found.ids()) {
      const BranchId branch = circuit_.branch_of[id];
      LetThrough& of = found[id];
      of.is_feed = sides_.is_feed(circuit_.branches[branch].a);
      of.is_return = sides_.is_return(circuit_.branches[branch].a);
      if (of.is_feed) {
        of.feed = greater_of_ends(branch, false);
        of.feed_at_ends = {into_end(branch, circuit_.branches[branch].a, false).most,
                           into_end(branch, circuit_.branches[branch].b, false).most};
      }
      if (of.is_return) of.back = greater_of_ends(branch, true);
    }
    return found;
  }

 private:
  static IndexedList<NodeOf, bool> returns(const Circuit& circuit, const Sides& sides) {
    IndexedList<NodeOf, bool> is_return(circuit.nodes.size(), false);
    for (const NodeId node : circuit.nodes.ids()) is_return[node] = sides.is_return(node);
    return is_return;
  }

  void count_bringing_ports() {
    const std::vector<Port>& ports = network_.ports();
    std::vector<bool> has_returns(network_.parts().group_count(), false);
    for (const Port& port : ports)
      if (port.kind == Port::Kind::load_in) has_returns[network_.parts().group_of(port.node)] = true;
    bringing_before_.assign(ports.size() + 1, 0);
    for (std::size_t p = 0; p < ports.size(); ++p) {
      // A lump that loads are fed from is parted in a question about returns only where the part is both.
      const bool is_fed_from = ports[p].kind == Port::Kind::load_out;
      const bool brings = !ports[p].useless && (!is_fed_from || has_returns[network_.parts().group_of(ports[p].node)]);
      bringing_before_[p + 1] = bringing_before_[p] + (brings ? 1 : 0);
    }
  }

  void order_returns() {
    const std::vector<Port>& ports = network_.ports();
    for (std::size_t p = 0; p < ports.size(); ++p)
      (ports[p].kind == Port::Kind::load_in ? returns_ : others_).push_back(p);
    std::stable_sort(returns_.begin(), returns_.end(), [&](std::size_t a, std::size_t b) {
      return blocks_.places()[ports[a].node] < blocks_.places()[ports[b].node];
    });
  }

  // The ports of a lump through which something may come in when only loads that return within a span count: of the
  // many that may return in a lump, few.
  PieceOfLump open_ports(std::size_t lump, const WalkSpan& returning) const {
    const WalkSpan ports = network_.ports_in(network_.lumps().group(lump));
    PieceOfLump open(std::lower_bound(others_.begin(), others_.end(), ports.first),
                     std::lower_bound(others_.begin(), others_.end(), ports.last));
    const auto place = [this](std::size_t port) { return blocks_.places()[network_.ports()[port].node]; };
    for (auto port = std::ranges::lower_bound(returns_, returning.first, {}, place);
         port != returns_.end() && place(*port) < returning.last; ++port)
      if (ports.contains(*port)) open.push_back(*port);
    return open;
  }

  FaultFlow greater_of_ends(BranchId branch, bool is_return) {
    FaultFlow from = into_end(branch, circuit_.branches[branch].a, is_return);
    FaultFlow to = into_end(branch, circuit_.branches[branch].b, is_return);
    return to.most > from.most ? to : from;
  }

  FaultFlow into_end(BranchId branch, NodeId end, bool is_return) {
    Target target;
    target.lump = network_.lumps().group_of(end);
    const WalkSpan whole = network_.ports_in(network_.lumps().group(target.lump));
    WalkSpan within = whole;
    const auto& side = is_return ? network_.lumps().side_of_bundle(branch) : network_.lumps().side_of_bridge(branch);
    if (side) {
      within = network_.ports_in(*side);
      target.is_inside = side->contains(network_.lumps().position(end));
    }
    target.within = {bringing_before_[within.first], bringing_before_[within.last]};
    const std::size_t inside = target.within.last - target.within.first;
    const std::size_t all = bringing_before_[whole.last] - bringing_before_[whole.first];
    if ((target.is_inside ? inside : all - inside) == 0) return {};
    if ((target.is_inside ? all - inside : inside) == 0) {  // all of it lies on this side
      target.within = {bringing_before_[whole.first], bringing_before_[whole.last]};
      target.is_inside = true;
      within = whole;
    }
    if (!is_return) return feed_into(target, within);
    return back_into(target, within, branch, end);
  }

  const FaultFlow& feed_into(const Target& target, const WalkSpan& within) {
    const auto [place, is_new] = feeds_.try_emplace(target.key());
    if (is_new) place->second = ask(target, within, {});
    return place->second;
  }

  // From those supplies whose - is reached from the other end without the branch and those beside it; in a ring no more
  // than what each sends over the branch. That is never too little, so that it stands alone where not every choice of
  // banks was tried.
  FaultFlow back_into(const Target& target, const WalkSpan& within, BranchId branch, NodeId end) {
    const BridgeForest& parts = network_.parts();
    WalkRange minuses{parts.group(parts.group_of(end))};
    const auto& side = parts.side_of_bundle(branch);
    if (side) (side->contains(parts.position(end)) ? minuses.out_of : minuses.within) = *side;
    const std::optional<std::size_t> supplies = counted_.find(minuses, !side || sides_.is_feed(end));
    if (!supplies) return {};
    const FaultFlow& whole = answer(target, within, counted_, *supplies, nullptr);
    const bool is_whole = counted_.at(*supplies).is_every_choice;
    const auto ways = is_whole && whole.most == 0 ? std::nullopt : home_.find(branch, end);
    if (!ways) return whole;
    FaultFlow sum = back_by_ways(target, within, *ways);
    return is_whole && whole.most <= sum.most ? whole : sum;
  }

  // What each supply sends over the branch, added up.
  FaultFlow back_by_ways(const Target& target, const WalkSpan& within, const std::vector<WayHome>& ways) {
    FaultFlow sum;
    for (const WayHome& way : ways) {
      const std::optional<std::size_t> supplies = counted_home_.find(way.supplies, false);
      if (!supplies || way.loads.within.empty()) continue;
      const FaultFlow& found = answer(target, within, counted_home_, *supplies, &way.loads);
      sum.most = std::min(sum.most + found.most, kUnlimited);
      sum.held_by.insert(sum.held_by.end(), found.held_by.begin(), found.held_by.end());
    }
    std::sort(sum.held_by.begin(), sum.held_by.end());
    sum.held_by.erase(std::unique(sum.held_by.begin(), sum.held_by.end()), sum.held_by.end());
    return sum;
  }

  // Through the loads, of all that return or of those in the range. The greatest over every choice of banks that are
  // fed.
  const FaultFlow& answer(const Target& target, const WalkSpan& within, const CountedSuppliesFinder& finder,
                          std::size_t supplies, const WalkRange* loads) {
    const WalkRange returning = loads ? *loads : WalkRange{};
    const auto [place, is_new] =
        backs_.try_emplace({target.key(), supplies, returning.within.first, returning.within.last,
                            returning.out_of.first, returning.out_of.last, loads != nullptr});
    if (!is_new) return place->second;
    FaultFlow& greatest = place->second;
    FaultQuestion question;
    const CountedSupplies& counted = finder.at(supplies);
    question.through_loads = true;
    question.supplies = &counted.set;
    if (loads) question.places = &blocks_.places();
    question.returning = returning;
    for (const std::vector<std::size_t>& fed : counted.fed) {
      question.fed = fed;
      FaultFlow found = ask(target, within, question);
      const bool is_alike = found.most == greatest.most;
      if (fed.empty() || found.most > greatest.most || (is_alike && by_names_(found, greatest)))
        greatest = std::move(found);
    }
    return greatest;
  }

  FaultFlow ask(const Target& target, const WalkSpan& within, const FaultQuestion& question) {
    const WalkSpan whole = network_.ports_in(network_.lumps().group(target.lump));
    if (within.first != whole.first || within.last != whole.last)
      return search_.into_side({target.lump, within, target.is_inside}, question);
    if (question.places && question.returning.out_of.empty())
      return search_.into_piece({open_ports(target.lump, question.returning.within)}, question);
    return search_.into_lump(target.lump, question);
  }

  const Circuit& circuit_;
  const Sides& sides_;
  const FaultNetwork& network_;
  const ByNames by_names_;
  FaultFlowSearch search_;
  BlockTree blocks_;  // of the returns
  WaysHomeFinder home_;
  CountedSuppliesFinder counted_, counted_home_;  // in the order of the parts' walk, and of the blocks'
  std::vector<std::size_t> bringing_before_;      // by port: how many before it can bring something
  std::vector<std::size_t> returns_, others_;     // ports where loads return, by their place in the blocks; all others
  using TargetKey = std::array<std::size_t, 4>;
  std::map<TargetKey, FaultFlow> feeds_;
  std::map<std::tuple<TargetKey, std::size_t, std::size_t, std::size_t, std::size_t, std::size_t, bool>, FaultFlow>
      backs_;  // by target, supplies and range of loads
};

}  // namespace

IndexedList<ConductorOf, LetThrough> find_let_through(const Plan& plan, const Circuit& circuit, const Ways& ways,
                                                      const Sides& sides, const FaultNetwork& network) {
  return LetThroughFinder(plan, circuit, ways, sides, network).find();
}

}  // namespace loomleaf
