// What passes over a return in a ring on its way home, by where the supplies are joined to the ring: see protection.h.
#pragma once

#include <map>
#include <optional>
#include <vector>

#include "block_tree.h"
#include "fault_network.h"

namespace loomleaf {

// Supplies by the places of their own -, and the loads, by the places of where they return, whose current on its way
// there may pass over the conductor in question.
struct WayHome {
  WalkRange supplies, loads;
};

class WaysHomeFinder {
 public:
  // `blocks`: of the returns.
  WaysHomeFinder(const Circuit& circuit, const FaultNetwork& network, const BlockTree& blocks);

  // Of what comes in at this end; one for each corner of the ring at which supplies hang. Nothing where the branch lies
  // in no ring, or in one with so many supplies that each has to be taken to bring all.
  std::optional<std::vector<WayHome>> find(BranchId branch, NodeId end);

 private:
  const std::vector<std::size_t>& supply_corners(std::size_t block);
  bool has_supply(const WalkRange& range) const;
  WayHome way(std::size_t block, std::size_t from, std::size_t to, std::size_t supply) const;

  const Circuit& circuit_;
  const FaultNetwork& network_;
  const BlockTree& blocks_;
  std::vector<std::size_t> supply_places_;                          // rising
  std::map<std::size_t, std::vector<std::size_t>> supply_corners_;  // by block
};

}  // namespace loomleaf
