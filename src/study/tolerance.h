// Whether the rulebook tolerates a stretch of exposed conductors, seen from one point where it is fed.
#pragma once

#include <compare>
#include <limits>
#include <optional>
#include <vector>

#include "beyond_sources.h"
#include "let_through.h"
#include "loomleaf/study/protection.h"
#include "stretch.h"

namespace loomleaf {

// What one conductor of the stretch comes to.
struct Verdict {
  ConductorId conductor;
  Length reach{};                  // along the stretch to its far end, from
  NodeId counted_from;             // the feeding point, or as far on as the way bears all that comes from there
  std::optional<PositionRow> row;  // the most generous that holds for the way to it
  Exposure exposure = Exposure::tolerated;
  LargestDevice device;   // beyond it, also behind a source of a series bank
  bool is_borne = false;  // it bears all that comes from the feeding point
};

struct StretchVerdict {
  std::vector<Verdict> conductors;  // in the stretch's order
  std::vector<ItemId> open_items;   // where it ends in something other than a device or a source's terminal
  std::vector<ConductorId> further;
};

class StretchJudge {
 public:
  StretchJudge(const Plan& plan, const Routes& routes, const Circuit& circuit,
               const IndexedList<ConductorOf, ConductorFigures>& figures, const Rulebook& rulebook,
               const ExposedNetwork& exposed, const IndexedList<ConductorOf, InflowAtEnds>& inflow);

  StretchVerdict judge(NodeId fed_at, const ExposedNetwork::Stretch& stretch);

 private:
  // How far along the stretch. From the feeding point on, what bears all that can come into it there is protected from
  // that point: up to the first that does not nothing is counted. Of two ways that count alike the shorter one is
  // taken.
  struct Reach {
    double counted_m = std::numeric_limits<double>::infinity(), all_m = counted_m;
    auto operator<=>(const Reach&) const = default;
  };
  // The same as the rulebook measures it. Fed at a battery's + it is measured from the bank: at the + of a further
  // battery that no contact parts from the first the count begins anew, and a conductor that ends at one is measured
  // from there.
  struct Count {
    double metres = std::numeric_limits<double>::infinity();
    NodeId start;          // where it begins
    bool sheathed = true;  // all along from there
  };
  // How one node of the stretch is reached by the shortest way.
  struct Way {
    Reach reach;
    Count count;
    bool by_contact = false, by_relay = false;
    std::size_t settled = 0;  // its number in the order of reach
    std::optional<BranchId> by;
    NodeId from;
    bool to_starter = false;  // the way on leads to a starter that needs no device
    LargestDevice device;     // that is reached through here
  };

  double length_m(BranchId id) const;
  bool bears_from(BranchId id, NodeId end) const;
  Way step(const Way& way, NodeId node, BranchId id) const;
  Count count_on(const Way& way, NodeId node, BranchId id, NodeId next) const;
  bool is_sheathed(BranchId id) const;
  void find_ways(NodeId fed_at);
  bool is_shortest(NodeId from, BranchId id) const;
  void look_at_end(NodeId node);
  void hand_back();
  std::optional<PositionRow> best_row(const Count& count, bool starter) const;
  static bool is_within(double way_m, const PositionRow& row);
  Verdict judge_conductor(BranchId id, bool is_open) const;
  double own_length_m(BranchId id) const;
  bool is_post_of_bank(NodeId node, bool by_contact) const;
  const Way* way_beyond(BranchId id) const;
  void forget(NodeId fed_at, const ExposedNetwork::Stretch& stretch);

  const Plan& plan_;
  const Routes& routes_;
  const Circuit& circuit_;
  const IndexedList<ConductorOf, ConductorFigures>& figures_;
  const Rulebook& rulebook_;
  const ExposedNetwork& exposed_;
  const IndexedList<ConductorOf, InflowAtEnds>& inflow_;
  IndexedList<NodeOf, LargestDevice> beyond_sources_;
  // Of the stretch at hand, as if new between calls.
  IndexedList<BranchOf, bool> in_stretch_;
  IndexedList<NodeOf, Way> ways_;
  IndexedList<BranchOf, std::optional<NodeId>> beyond_;  // the far node of each branch that a shortest way takes, of
                                                         // several alike of each
  std::vector<NodeId> settled_;                          // in the order of their distance
  bool is_fed_at_post_ = false;
  StretchVerdict verdict_;
};

}  // namespace loomleaf
