// Where a short is assumed for each conductor: its far end, and the point of the way back that it meets.
#pragma once

#include <limits>
#include <map>
#include <optional>
#include <vector>

#include "fault_supplies.h"
#include "loomleaf/study/conductor_figures.h"

namespace loomleaf {

// The shortest ways from supplies' terminals through what conducts. Where several are equally short all of them count,
// so that the order of the plan has no say.
struct ShortestWays {
  static constexpr double unreached = std::numeric_limits<double>::infinity();
  IndexedList<NodeOf, double> metres, ohm;  // of equally short ways the greatest resistance
  IndexedList<NodeOf, std::optional<NodeId>>
      towards;  // the last point that all its ways have in common; absent at a start
  IndexedList<NodeOf, std::optional<BranchId>> by;  // the branch to there, where there is but one way
  IndexedList<NodeOf, std::size_t> steps;
  IndexedList<NodeOf, std::optional<NodeId>>
      next;  // the node next to it on the way of greatest resistance; of several such the one first by name
  IndexedList<NodeOf, std::optional<NodeId>> start;  // the supply's terminal, where all its ways start at one
  std::multimap<NodeId, NodeId> before;              // the nodes next to it on its ways, where it has several
  std::vector<NodeId> order;                         // nearest first
  bool reaches(NodeId node) const { return metres[node] < unreached; }
  // The last point that the ways to both have in common; nothing where they have none.
  std::optional<NodeId> common(NodeId a, NodeId b) const;

  struct Step {
    NodeId from;
    BranchId by;
    double metres = 0.0;  // of all the way
    double ohm = 0.0;     // of this branch
  };
  // `by_name`: the nodes' places in the order of their names.
  bool take(const Step& step, NodeId to, const IndexedList<NodeOf, std::size_t>& by_name);
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

  // None where nothing feeds it; two where both ends are equally far.
  std::vector<ShortPlace> of(ConductorId conductor) const;
  const ShortestWays& feed_ways() const { return feed_; }
  const ShortestWays& back_ways() const { return back_; }

 private:
  ShortestWays find_ways(const std::vector<NodeId>& from,
                         const IndexedList<ConductorOf, ConductorFigures>& figures) const;
  void list_users();
  void add_user(NodeId plus, NodeId minus);
  // Where the ways to all that lies on the other side of what uses current meet.
  struct Meeting {
    std::optional<NodeId> node;
    bool apart = false;                             // nowhere: they start at several supplies
    double own_metres = ShortestWays::unreached;    // on this side to the nearest of what uses current
    double other_metres = ShortestWays::unreached;  // on the other side to the nearest of it
    bool any() const { return node || apart; }
    void join(const Meeting& more, const ShortestWays& ways);
  };
  struct Across {
    IndexedList<NodeOf, Meeting> at, beyond;  // of a node itself, and of that and all beyond it
  };
  static void gather_beyond(Across& across, const ShortestWays& own, const ShortestWays& other);
  std::optional<NodeId> beside(ConductorId conductor, NodeId end, const ShortestWays& other) const;
  bool comes_by_device(NodeId node, const ShortestWays& ways) const;
  std::optional<NodeId> opposite(NodeId end, const Across& across, const ShortestWays& own,
                                 const ShortestWays& other) const;
  std::optional<NodeId> other_pole(NodeId end, const ShortestWays& own, const ShortestWays& other) const;
  std::optional<ShortPlace> in_feed(ConductorId conductor, NodeId end) const;
  std::optional<ShortPlace> in_return(ConductorId conductor, NodeId end) const;

  const Plan& plan_;
  const Circuit& circuit_;
  const FaultSupplies& supplies_;
  IndexedList<NodeOf, std::size_t> by_name_;
  ShortestWays feed_, back_;
  Across back_of_feed_, feed_of_back_;
};

}  // namespace loomleaf
