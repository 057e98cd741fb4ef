// What hangs on the meshed core of a network like branches on a trunk: there one way alone leads to the supplies, so
// that the whole current of a short goes along it, and what lies on it is gathered once for all shorts beyond.
#pragma once

#include <optional>
#include <vector>

#include "fault_supplies.h"
#include "loomleaf/study/conductor_figures.h"

namespace loomleaf {

class FeederTrees {
 public:
  FeederTrees(const Plan& plan, const Circuit& circuit, const FaultSupplies& supplies,
              const IndexedList<ConductorOf, ConductorFigures>& figures);

  // Branches through which a supply may be reached from a node. Those of the core lead to the core.
  const std::vector<BranchId>& leading(NodeId node) const { return leading_[node]; }
  bool in_core(NodeId node) const { return in_core_[node]; }

  // The way from a node to the core; of a node of the core an empty one.
  struct Way {
    NodeId core;
    double ohm = 0.0;
    std::optional<std::size_t> devices, conductors;  // where the lists below start
  };
  const Way& way(NodeId node) const { return ways_[node]; }

  // On the way, but for those that another there outdoes at any current: a device of the same family that is rated no
  // more, a conductor that bears no more and may carry no more.
  std::vector<BranchId> devices_on(NodeId node) const { return listed(ways_[node].devices); }
  std::vector<BranchId> conductors_on(NodeId node) const { return listed(ways_[node].conductors); }

 private:
  struct Entry {
    BranchId branch;
    std::optional<std::size_t> next;
  };
  void find_core();
  void find_ways();
  Way step_on(const Way& from, BranchId branch);
  bool outdoes(BranchId one, BranchId other) const;
  std::optional<std::size_t> with(std::optional<std::size_t> list, BranchId branch);
  std::vector<BranchId> listed(std::optional<std::size_t> list) const;

  const Plan& plan_;
  const Circuit& circuit_;
  const FaultSupplies& supplies_;
  const IndexedList<ConductorOf, ConductorFigures>& figures_;
  IndexedList<NodeOf, std::vector<BranchId>> leading_;
  IndexedList<NodeOf, bool> in_core_;
  IndexedList<NodeOf, Way> ways_;
  std::vector<Entry> entries_;
};

}  // namespace loomleaf
