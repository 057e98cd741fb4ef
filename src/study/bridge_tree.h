// One side of an installation as a tree: pieces that no single branch parts, and the branches between them.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "bridge_forest.h"
#include "loomleaf/circuit/circuit.h"
#include "loomleaf/study/ways.h"

namespace loomleaf {

// Rooted at the poles of the supplies, which are taken as one. What lies behind a branch of the tree is cut off from
// all of them when that branch is taken away.
class BridgeTree {
 public:
  struct Piece {
    std::size_t parent = 0, depth = 0;
    std::size_t jump = 0;        // an ancestor further up, for long ways in few steps (Myers 1983)
    std::optional<BranchId> by;  // what it hangs on its parent by; the root on nothing
    NodeId from;                 // the end of that branch in the parent
    bool has_bar = false;
    std::size_t bars = 0;  // pieces with a bus bar on the way from the root to it, both counted
  };

  BridgeTree(const Circuit& circuit, const Ways& ways, const BridgeForest& parts, const std::vector<NodeId>& roots,
             const IndexedList<NodeOf, bool>& bars);

  static constexpr std::size_t kRoot = 0;
  const std::vector<Piece>& pieces() const { return pieces_; }                        // each stands behind its parent
  std::optional<std::size_t> piece_of(NodeId node) const { return piece_of_[node]; }  // nothing elsewhere

  // The furthest piece that both hang on, themselves counted.
  std::size_t meeting(std::size_t a, std::size_t b) const;
  // The furthest piece, this one or before it, to which no more than so many bars lead, its own not counted.
  std::size_t behind_bars(std::size_t piece, std::size_t bars) const;

 private:
  std::size_t bars_before(std::size_t piece) const { return piece == kRoot ? 0 : pieces_[pieces_[piece].parent].bars; }

  std::vector<Piece> pieces_;
  IndexedList<NodeOf, std::optional<std::size_t>> piece_of_;
};

}  // namespace loomleaf
