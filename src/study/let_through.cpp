#include "let_through.h"

#include <algorithm>
#include <array>
#include <limits>
#include <map>
#include <tuple>

#include "counted_supplies.h"

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
      : plan_(plan),
        circuit_(circuit),
        sides_(sides),
        network_(network),
        search_(network),
        counted_(network),
        blocks_(circuit, ways, returns(circuit, sides), minuses(circuit, network)) {
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
  static IndexedList<NodeOf, bool> minuses(const Circuit& circuit, const FaultNetwork& network) {
    IndexedList<NodeOf, bool> is_minus(circuit.nodes.size(), false);
    for (std::size_t supply = 0; supply < network.supply_count(); ++supply)
      is_minus[network.supply_minus(supply)] = true;
    return is_minus;
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
      return blocks_.place_of(ports[a].node) < blocks_.place_of(ports[b].node);
    });
  }

  // The ports of a lump through which something may come in when only loads in the block or beyond it count: of the
  // many that may return in a lump, few.
  PieceOfLump open_ports(std::size_t lump, std::size_t block) const {
    const WalkSpan ports = network_.ports_in(network_.lumps().group(lump)), beyond = blocks_.places_beyond(block);
    PieceOfLump open(std::lower_bound(others_.begin(), others_.end(), ports.first),
                     std::lower_bound(others_.begin(), others_.end(), ports.last));
    const auto place = [this](std::size_t port) { return blocks_.place_of(network_.ports()[port].node); };
    for (auto port = std::ranges::lower_bound(returns_, beyond.first, {}, place);
         port != returns_.end() && place(*port) < beyond.last; ++port)
      if (ports.contains(*port)) open.push_back(*port);
    return open;
  }

  const FaultFlow& greater_of_ends(BranchId branch, bool is_return) {
    const FaultFlow& from = into_end(branch, circuit_.branches[branch].a, is_return);
    const FaultFlow& to = into_end(branch, circuit_.branches[branch].b, is_return);
    return to.most > from.most ? to : from;
  }

  const FaultFlow& into_end(BranchId branch, NodeId end, bool is_return) {
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
    if ((target.is_inside ? inside : all - inside) == 0) return nothing_;
    if ((target.is_inside ? all - inside : inside) == 0) {  // all of it lies on this side
      target.within = {bringing_before_[whole.first], bringing_before_[whole.last]};
      target.is_inside = true;
      within = whole;
    }
    if (!is_return) return answer(target, within, kEverySupply, kEveryBlock);
    const bool may_come_back = !network_.parts().side_of_bundle(branch) || sides_.is_feed(end);
    const std::optional<std::size_t> supplies = counted_.find(branch, end, may_come_back);
    return supplies ? answer(target, within, *supplies, ring_of(branch)) : nothing_;
  }

  // Where a ring of returns hangs on the rest at one point, what comes in there cannot go on through the ring: it would
  // have to leave by the same point. A bridge has no other way round to begin with.
  std::size_t ring_of(BranchId branch) const {
    if (network_.parts().side_of_bundle(branch)) return kEveryBlock;
    const auto block = blocks_.block_of(branch);
    return block && !blocks_.is_at_root(*block) ? *block : kEveryBlock;
  }

  const FaultFlow& answer(const Target& target, const WalkSpan& within, std::size_t supplies, std::size_t block) {
    const auto [place, is_new] = answers_.try_emplace({target.key(), supplies, block});
    if (!is_new) return place->second;
    FaultFlow& greatest = place->second;
    FaultQuestion question;
    if (supplies == kEverySupply) return greatest = ask(target, within, question);
    const CountedSupplies& counted = counted_.at(supplies);
    question.through_loads = true;
    question.supplies = &counted.set;
    if (block != kEveryBlock) {  // no bank returns there
      question.blocks = &blocks_;
      question.block = block;
      return greatest = ask(target, within, question);
    }
    for (const std::vector<std::size_t>& fed : counted.fed) {
      question.fed = fed;
      FaultFlow found = ask(target, within, question);
      const bool is_alike = found.most == greatest.most;
      if (fed.empty() || found.most > greatest.most || (is_alike && names(found.held_by) < names(greatest.held_by)))
        greatest = std::move(found);
    }
    return greatest;
  }

  FaultFlow ask(const Target& target, const WalkSpan& within, const FaultQuestion& question) {
    const WalkSpan whole = network_.ports_in(network_.lumps().group(target.lump));
    if (within.first != whole.first || within.last != whole.last)
      return search_.into_side({target.lump, within, target.is_inside}, question);
    return question.blocks ? search_.into_piece({open_ports(target.lump, question.block)}, question)
                           : search_.into_lump(target.lump, question);
  }

  std::vector<std::string> names(const std::vector<ItemId>& items) const {
    std::vector<std::string> names;
    for (const ItemId item : items) names.push_back(plan_.items[item].id);
    std::sort(names.begin(), names.end());
    return names;
  }

  static constexpr std::size_t kEverySupply = std::numeric_limits<std::size_t>::max(), kEveryBlock = kEverySupply;

  const Plan& plan_;
  const Circuit& circuit_;
  const Sides& sides_;
  const FaultNetwork& network_;
  FaultFlowSearch search_;
  CountedSuppliesFinder counted_;
  ReturnBlocks blocks_;
  const FaultFlow nothing_{};
  std::vector<std::size_t> bringing_before_;   // by port: how many before it can bring something
  std::vector<std::size_t> returns_, others_;  // ports where loads return, by their blocks' place; all others
  std::map<std::tuple<std::array<std::size_t, 4>, std::size_t, std::size_t>, FaultFlow> answers_;
};

}  // namespace

IndexedList<ConductorOf, LetThrough> find_let_through(const Plan& plan, const Circuit& circuit, const Ways& ways,
                                                      const Sides& sides, const FaultNetwork& network) {
  return LetThroughFinder(plan, circuit, ways, sides, network).find();
}

}  // namespace loomleaf
