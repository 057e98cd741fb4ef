#include "paired_returns.h"

#include <algorithm>
#include <utility>

#include "bridge_tree.h"

namespace loomleaf {
namespace {

// The supplies that feeds and returns are traced to: all, or the batteries alone, which a charger on the panel's bars
// does not keep from sending their own over the mains.
struct Origins {
  std::vector<NodeId> plus, minus;
  std::size_t count = 0;
  Places of_supply, of_bank;  // one place for each that counts
};

Origins origins_of(const FaultNetwork& network, const Sides& sides, bool batteries_alone) {
  Origins origins;
  origins.of_supply.resize(network.supply_count());
  origins.of_bank.assign(network.bank_count(), {0});
  for (const Port& port : network.ports()) {
    if (port.kind != Port::Kind::supply || (batteries_alone && !port.bank)) continue;
    origins.of_supply[port.supply] = {0};
    ++origins.count;
    const NodeId minus = network.supply_minus(port.supply);
    if (sides.is_feed(port.node)) origins.plus.push_back(port.node);
    if (sides.is_return(minus)) origins.minus.push_back(minus);
  }
  return origins;
}

IndexedList<NodeOf, bool> bus_bars(const Plan& plan, const Circuit& circuit) {
  IndexedList<NodeOf, bool> bars(circuit.nodes.size(), false);
  for (const Item& item : plan.items)
    if (item.is<Bus>())
      for (const TerminalId terminal : item.terminals) bars[circuit.node_of[terminal]] = true;
  return bars;
}

class PairedReturnsFinder {
 public:
  PairedReturnsFinder(const Plan& plan, const Circuit& circuit, const Ways& ways, const FaultNetwork& network,
                      const IndexedList<NodeOf, bool>& bars, const ByNames& by_names, const Origins& origins)
      : plan_(plan),
        circuit_(circuit),
        network_(network),
        origins_(origins),
        by_names_(by_names),
        search_(network),
        feed_(circuit, ways, network.parts(), origins.plus, bars),
        back_(circuit, ways, network.parts(), origins.minus, bars),
        behind_(feed_.pieces().size()),
        into_lump_(network.lumps().group_count()),
        greatest_(back_.pieces().size()),
        up_to_device_(back_.pieces().size()) {}

  void find(IndexedList<ConductorOf, FaultFlow>& found) {
    gather_loads();
    for (std::size_t piece = 1; piece < behind_.size(); ++piece) pair(piece);
    hand_up();
    for (std::size_t piece = 1; piece < greatest_.size(); ++piece) {
      const std::optional<ConductorId> conductor = circuit_.branches[*back_.pieces()[piece].by].conductor;
      if (conductor) raise(found[*conductor], greatest_[piece]);
    }
  }

 private:
  // What is fed behind a branch, and where all of it returns.
  struct Behind {
    std::size_t loads = 0;
    std::size_t meeting = BridgeTree::kRoot;  // of the returns
    bool behind_one_device = false;           // all of it, further on

    void add(const BridgeTree& back, std::size_t count, std::size_t at) {
      meeting = loads == 0 ? at : back.meeting(meeting, at);
      loads += count;
    }
  };

  void gather_loads() {
    for (const Port& port : network_.ports()) {
      if (port.kind != Port::Kind::load_out || port.bank) continue;
      if (const auto piece = feed_.piece_of(port.node))
        behind_[*piece].add(back_, 1, back_.piece_of(network_.ports()[port.mate].node).value_or(BridgeTree::kRoot));
    }
    for (std::size_t piece = behind_.size(); piece-- > 1;)
      if (behind_[piece].loads > 0)
        behind_[feed_.pieces()[piece].parent].add(back_, behind_[piece].loads, behind_[piece].meeting);
    for (std::size_t piece = behind_.size(); piece-- > 1;) {
      Behind& parent = behind_[feed_.pieces()[piece].parent];
      if (behind_[piece].loads == 0 || behind_[piece].loads < parent.loads) continue;
      parent.behind_one_device = behind_[piece].behind_one_device || rating_of(*feed_.pieces()[piece].by) < kUnlimited;
    }
  }

  Microamperes rating_of(BranchId id) const {
    if (network_.conducts_freely(id)) return kUnlimited;
    return to_microamperes(std::get<Device>(plan_.items[*circuit_.branches[id].item].data).rating);
  }

  void pair(std::size_t piece) {
    const Behind& behind = behind_[piece];
    if (behind.loads == 0 || behind.meeting == BridgeTree::kRoot) return;
    const BridgeTree::Piece& feed = feed_.pieces()[piece];
    const FaultFlow flow = through(feed);
    if (flow.most >= kUnlimited) return;
    if (!behind.behind_one_device) raise(up_to_device_[behind.meeting], flow);
    const std::size_t bars = back_.pieces()[behind.meeting].bars;
    if (bars == 0) return;
    const std::size_t bars_before = std::min(feed_.pieces()[feed.parent].bars, bars - 1);
    std::size_t at = back_.behind_bars(behind.meeting, bars_before);
    // A conductor is met by a return no further from the supplies than its own far end: short of the device behind it
    // lies no bar that lies behind that device.
    const bool is_short_of_bar = rating_of(*feed.by) == kUnlimited && back_.pieces()[at].bars > feed.bars;
    if (is_short_of_bar) at = back_.pieces()[at].parent;
    raise(greatest_[at], flow);
  }

  // Nothing behind the branch brings anything, so that its lump may be taken whole.
  FaultFlow through(const BridgeTree::Piece& feed) {
    const std::size_t lump = network_.lumps().group_of(feed.from);
    std::optional<FaultFlow>& into = into_lump_[lump];
    if (!into) {
      SupplySet counted;
      counted.of_supply = &origins_.of_supply;
      counted.of_bank = &origins_.of_bank;
      counted.range = {{0, 1}};
      FaultQuestion question;
      if (origins_.count < network_.supply_count()) question.supplies = &counted;
      into = search_.into_lump(lump, question);
    }
    const Microamperes rating = rating_of(*feed.by);
    if (rating > into->most || rating == kUnlimited) return *into;
    return {rating, {*circuit_.branches[*feed.by].item}};
  }

  void hand_up() {
    for (std::size_t piece = greatest_.size(); piece-- > 1;) {
      const BridgeTree::Piece& back = back_.pieces()[piece];
      raise(greatest_[back.parent], greatest_[piece]);
      if (rating_of(*back.by) == kUnlimited) raise(up_to_device_[back.parent], up_to_device_[piece]);
      raise(greatest_[piece], up_to_device_[piece]);
    }
  }

  void raise(FaultFlow& at, const FaultFlow& by) const {
    if (by.most > at.most || (by.most == at.most && by.most > 0 && by_names_(by, at))) at = by;
  }

  const Plan& plan_;
  const Circuit& circuit_;
  const FaultNetwork& network_;
  const Origins& origins_;
  const ByNames& by_names_;
  FaultFlowSearch search_;
  BridgeTree feed_, back_;
  std::vector<Behind> behind_;                       // by piece of the feed
  std::vector<std::optional<FaultFlow>> into_lump_;  // by lump
  std::vector<FaultFlow> greatest_;                  // by piece of the return: over the branch it hangs on
  std::vector<FaultFlow> up_to_device_;              // of that, what a device on the way home keeps from going on
};

}  // namespace

IndexedList<ConductorOf, FaultFlow> find_paired_returns(const Plan& plan, const Circuit& circuit, const Ways& ways,
                                                        const Sides& sides, const FaultNetwork& network) {
  IndexedList<ConductorOf, FaultFlow> found(circuit.branch_of.size());
  const IndexedList<NodeOf, bool> bars = bus_bars(plan, circuit);
  const ByNames by_names(plan);
  const Origins all = origins_of(network, sides, false), batteries = origins_of(network, sides, true);
  PairedReturnsFinder(plan, circuit, ways, network, bars, by_names, all).find(found);
  if (batteries.count > 0 && batteries.count < all.count)
    PairedReturnsFinder(plan, circuit, ways, network, bars, by_names, batteries).find(found);
  return found;
}

}  // namespace loomleaf
