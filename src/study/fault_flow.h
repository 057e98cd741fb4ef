// The greatest fault current into a piece of the network, and what holds it there.
#pragma once

#include <algorithm>
#include <cstddef>
#include <optional>
#include <vector>

#include "fault_network.h"

namespace loomleaf {

struct FaultFlow {
  Microamperes most = 0;        // kUnlimited: a battery reaches it through no device
  std::vector<ItemId> held_by;  // the cut nearest to the target, in the plan's order
};

// Which of two flows that are alike is told: the one whose devices are named first, whatever order the plan lists them
// in.
class ByNames {
 public:
  explicit ByNames(const Plan& plan);
  bool operator()(const FaultFlow& a, const FaultFlow& b) const { return names(a) < names(b); }

 private:
  std::vector<std::size_t> names(const FaultFlow& flow) const;  // as places in the order of all names, rising
  IndexedList<ItemOf, std::size_t> place_;
};

// Where supplies have places in some order; each list in that order.
using Places = std::vector<std::vector<std::size_t>>;

// Some of the supplies: those that have a place in a range.
struct SupplySet {
  const Places* of_supply = nullptr;
  const Places* of_bank = nullptr;
  WalkRange range;
  std::vector<std::size_t> numbers;  // of those that count; empty: too many to list

  bool counts(std::size_t supply) const { return counts_any((*of_supply)[supply]); }
  bool counts_bank(std::size_t bank) const { return counts_any((*of_bank)[bank]); }

 private:
  bool counts_any(const std::vector<std::size_t>& places) const {
    const auto has_place = [&places](std::size_t first, std::size_t last) {
      const auto place = std::ranges::lower_bound(places, first);
      return place != places.end() && *place < last;
    };
    const auto& [within, out_of] = range;
    if (out_of.empty()) return has_place(within.first, within.last);
    return has_place(within.first, out_of.first) || has_place(out_of.last, within.last);
  }
};

// What a fault asks of the network.
struct FaultQuestion {
  bool through_loads = false;
  const SupplySet* supplies = nullptr;  // which count; absent: all
  // Through loads: banks that the others feed, besides all those of which nothing counts.
  std::vector<std::size_t> fed;
  // Of the loads those that return at a node with a place in this range; without places all.
  const IndexedList<NodeOf, std::size_t>* places = nullptr;
  WalkRange returning;
};

// A lump, or what is left of one when conductors are taken out, as the ports it holds.
using PieceOfLump = std::vector<std::size_t>;

// Part of a lump: the ports within a span, or all its others.
struct SideOfLump {
  std::size_t lump = 0;
  WalkSpan ports;
  bool is_within = true;
};

// Maximum flow from the supplies (Dinic 1970), searched backwards from the target, so that only what feeds it is
// visited; or forwards from a few supplies into a target that much more than these feeds, so that only what they feed
// is.
class FaultFlowSearch {
 public:
  explicit FaultFlowSearch(const FaultNetwork& network);

  FaultFlow into_lump(std::size_t lump, const FaultQuestion& question);
  FaultFlow into_side(const SideOfLump& target, const FaultQuestion& question);
  // Into the first of these pieces. The pieces together hold every port of the lumps they were cut from that is open
  // to the question.
  FaultFlow into_piece(const std::vector<PieceOfLump>& pieces, const FaultQuestion& question);

 private:
  static constexpr int kUnreached = -1;

  // From whichever side less is to be searched: the target has so many ports.
  FaultFlow run(std::size_t target, std::size_t ports);
  FaultFlow run_backward(std::size_t target);
  bool reach(std::size_t target);      // levels; whether a supply with something left was met
  void push(std::size_t target);       // a blocking flow along the levels
  void take(std::size_t supply_port);  // along `path_`
  std::vector<ItemId> cut() const;
  void reset();

  FaultFlow run_forward(std::size_t target);
  bool reach_forward(std::size_t target);
  void push_forward(std::size_t target);
  std::vector<ItemId> cut_forward(std::size_t target);
  std::vector<std::size_t> list_entries(std::size_t target);
  std::size_t port_count(std::size_t piece) const;
  // The port that a piece's port leads into; nothing where it leads nowhere.
  std::optional<std::size_t> way_on(std::size_t piece, std::size_t position) const;

  Microamperes left(std::size_t port) const { return capacity_[port] - flow_[port]; }
  bool is_open(std::size_t port) const;
  bool is_fed(const Port& battery) const;
  const std::vector<std::size_t>& ports_of(std::size_t piece) const;

  const FaultNetwork& network_;
  std::vector<Microamperes> capacity_, flow_;  // by port, into the piece it belongs to
  std::vector<std::vector<std::size_t>> lump_ports_;
  std::vector<std::size_t> piece_of_;     // by port
  std::vector<std::size_t> supply_port_;  // by supply
  const std::vector<PieceOfLump>* pieces_ = nullptr;
  FaultQuestion question_;
  std::vector<int> level_;         // by piece
  std::vector<std::size_t> next_;  // by piece
  std::vector<std::size_t> reached_, path_, touched_;
  // Where something may come in, listed by piece from the last to the first.
  struct Entry {
    std::size_t port = 0;
    std::optional<std::size_t> before;
  };
  std::vector<Entry> entries_;
  std::vector<std::optional<std::size_t>> last_entry_;  // by piece
  std::vector<bool> is_near_;                           // by piece
  int supply_level_ = kUnreached;
  Microamperes total_ = 0;
};

}  // namespace loomleaf
