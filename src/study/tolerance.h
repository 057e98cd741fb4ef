// Whether the rulebook tolerates a stretch of exposed conductors, seen from one point where it is fed.
#pragma once

#include <limits>
#include <optional>
#include <vector>

#include "beyond_sources.h"
#include "loomleaf/study/protection.h"
#include "stretch.h"

namespace loomleaf {

// What one conductor of the stretch comes to.
struct Verdict {
  ConductorId conductor;
  Length reach{};                  // from the feeding point along the stretch to its far end
  std::optional<PositionRow> row;  // the most generous that holds for the way to it
  Exposure exposure = Exposure::tolerated;
  LargestDevice device;  // beyond it, also behind a source of a series bank
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
               const ExposedNetwork& exposed);

  StretchVerdict judge(NodeId fed_at, const ExposedNetwork::Stretch& stretch);

 private:
  // How one node of the stretch is reached by the shortest way.
  struct Way {
    double length_m = std::numeric_limits<double>::infinity();
    bool sheathed = true;  // all along
    std::optional<BranchId> by;
    NodeId from;
    bool to_starter = false;  // the way on leads to a starter that needs no device
    LargestDevice device;     // that is reached through here
  };

  double length_m(BranchId id) const;
  bool is_sheathed(BranchId id) const;
  void find_ways(NodeId fed_at);
  void look_at_end(NodeId node);
  void hand_back();
  std::optional<PositionRow> best_row(double way_m, bool sheathed, bool starter) const;
  static bool is_within(double way_m, const PositionRow& row);
  Verdict judge_conductor(BranchId id, bool is_open) const;
  void forget(NodeId fed_at, const ExposedNetwork::Stretch& stretch);

  const Plan& plan_;
  const Routes& routes_;
  const Circuit& circuit_;
  const IndexedList<ConductorOf, ConductorFigures>& figures_;
  const Rulebook& rulebook_;
  const ExposedNetwork& exposed_;
  IndexedList<NodeOf, LargestDevice> beyond_sources_;
  // Of the stretch at hand, as if new between calls.
  bool from_battery_ = false, from_charger_ = false;
  IndexedList<BranchOf, bool> in_stretch_;
  IndexedList<NodeOf, Way> ways_;
  IndexedList<BranchOf, std::optional<NodeId>> beyond_;  // the far node of each branch that a shortest way takes
  std::vector<NodeId> settled_;                          // in the order of their distance
  StretchVerdict verdict_;
};

}  // namespace loomleaf
