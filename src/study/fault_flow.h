// The greatest fault current into a piece of the network, and what holds it there.
#pragma once

#include <cstddef>
#include <vector>

#include "fault_network.h"
#include "return_blocks.h"

namespace loomleaf {

struct FaultFlow {
  Microamperes most = 0;        // kUnlimited: a battery reaches it through no device
  std::vector<ItemId> held_by;  // the cut nearest to the target, in the plan's order
};

// What a fault asks of the network.
struct FaultQuestion {
  bool through_loads = false;
  const std::vector<bool>* supplies = nullptr;  // which count, by number; absent: all
  // Of the loads those that return in this block or beyond it; absent: all.
  const ReturnBlocks* blocks = nullptr;
  std::size_t block = 0;
};

// A lump, or what is left of one when conductors are taken out, as the ports it holds.
using PieceOfLump = std::vector<std::size_t>;

// Maximum flow from the supplies, searched backwards from the target, so that only what feeds it is visited
// (Dinic 1970, from the sink).
class FaultFlowSearch {
 public:
  explicit FaultFlowSearch(const FaultNetwork& network);

  FaultFlow into_lump(std::size_t lump, const FaultQuestion& question);
  // Into the first of these pieces. The pieces together hold every port of the lumps they were cut from.
  FaultFlow into_piece(const std::vector<PieceOfLump>& pieces, const FaultQuestion& question);

 private:
  static constexpr int kUnreached = -1;

  FaultFlow run(std::size_t target);
  bool reach(std::size_t target);      // levels; whether a supply with something left was met
  void push(std::size_t target);       // a blocking flow along the levels
  void take(std::size_t supply_port);  // along `path_`
  std::vector<ItemId> cut() const;
  void reset();

  Microamperes left(std::size_t port) const { return capacity_[port] - flow_[port]; }
  bool is_open(std::size_t port) const;
  const std::vector<std::size_t>& ports_of(std::size_t piece) const;

  const FaultNetwork& network_;
  std::vector<Microamperes> capacity_, flow_;  // by port, into the piece it belongs to
  std::vector<std::vector<std::size_t>> lump_ports_;
  std::vector<std::size_t> piece_of_;  // by port
  const std::vector<PieceOfLump>* pieces_ = nullptr;
  FaultQuestion question_;
  std::vector<int> level_;         // by piece
  std::vector<std::size_t> next_;  // by piece
  std::vector<std::size_t> reached_, path_, touched_;
  int supply_level_ = kUnreached;
  Microamperes total_ = 0;
};

}  // namespace loomleaf
