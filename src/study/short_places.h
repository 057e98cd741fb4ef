// Where a short is assumed for each conductor: its far end, and the point of the way back that it meets.
#pragma once

#include <limits>
#include <optional>
#include <vector>

#include "fault_supplies.h"
#include "loomleaf/study/conductor_figures.h"

namespace loomleaf {

// The shortest ways from supplies' terminals through what conducts.
struct ShortestWays {
  static constexpr double unreached = std::numeric_limits<double>::infinity();
  IndexedList<NodeOf, double> metres, ohm;
  IndexedList<NodeOf, std::optional<NodeId>> towards;  // the supply: absent there
  IndexedList<NodeOf, std::optional<BranchId>> by;
  IndexedList<NodeOf, std::size_t> steps;
  std::vector<NodeId> order;  // nearest first
  bool reaches(NodeId node) const { return metres[node] < unreached; }
  // The last point that the ways to both have in common; nothing where they have none.
  std::optional<NodeId> common(NodeId a, NodeId b) const;
};

struct ShortPlace {
  NodeId feed, back;
  bool at_feed_end = true;    // the conductor's far end is `feed`; else `back`
  double way_back_ohm = 0.0;  // on top of what lies between: nothing is known of the way back
};

class ShortPlaces {
 public:
  ShortPlaces(const Plan& plan, const Circuit& circuit, const FaultSupplies& supplies,
              const IndexedList<ConductorOf, ConductorFigures>& figures);

  std::optional<ShortPlace> of(ConductorId conductor) const;
  const ShortestWays& feed_ways() const { return feed_; }
  const ShortestWays& back_ways() const { return back_; }

 private:
  ShortestWays find_ways(const std::vector<NodeId>& from, const FaultSupplies& supplies,
                         const IndexedList<ConductorOf, ConductorFigures>& figures) const;
  void list_users(const FaultSupplies& supplies);
  void add_user(NodeId plus, NodeId minus, const FaultSupplies& supplies);
  // What lies on the other side of what uses current, at a node itself and beyond it.
  struct Across {
    IndexedList<NodeOf, std::optional<NodeId>> at, beyond;
  };
  static void join(std::optional<NodeId>& so_far, NodeId more, const ShortestWays& ways);
  static void gather_beyond(Across& across, const ShortestWays& own, const ShortestWays& other);
  std::optional<NodeId> beside(ConductorId conductor, NodeId end, const ShortestWays& other) const;
  static std::optional<NodeId> opposite(NodeId end, const Across& across, const ShortestWays& own,
                                        const ShortestWays& other);
  static NodeId far_end(const Branch& branch, const ShortestWays& ways);

  const Plan& plan_;
  const Circuit& circuit_;
  const FaultSupplies& supplies_;
  ShortestWays feed_, back_;
  Across back_of_feed_, feed_of_back_;
};

}  // namespace loomleaf
