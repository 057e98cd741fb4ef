// The way of one short circuit: out from the supplies, through the short, and back; what opens, and when.
#pragma once

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <optional>
#include <utility>
#include <vector>

#include "fault_solver.h"
#include "fault_supplies.h"
#include "feeder_trees.h"
#include "loomleaf/circuit/joined_sets.h"
#include "loomleaf/stock/stock.h"
#include "short_places.h"

namespace loomleaf {

// When current stops. Where it has several ways, all of them must be cut, and each is taken to carry its first share
// until the last is. As one opens those beside it carry more and open sooner; what lies before them all carries less.
struct Cut {
  double after_s = std::numeric_limits<double>::infinity();
  bool guarded = false;              // a device lies on every way
  std::vector<BranchId> by;          // the device that sets the time; several where they are alike
  double times = 0.0, ampere = 0.0;  // what that one carries, over its rating and as it is
};

// Whether two figures differ by no more than rounding.
inline bool is_alike(double a, double b) {
  return a == b || std::fabs(a - b) < 1e-6 * std::max(std::fabs(a), std::fabs(b));
}

struct LoopPiece {
  BranchId branch;
  double ampere = 0.0;
  double lasts_s = 0.0;    // how long it carries that
  bool is_way_out = true;  // else it is on the way back
};

// A conductor and which of the two points of the short its far end is.
struct ShortedEnd {
  ConductorId conductor;
  bool is_feed = true;
};

struct Opens {
  double after_s = std::numeric_limits<double>::infinity();
  std::vector<BranchId> devices;
  double times = 0.0, ampere = 0.0;  // what the first of them carries, over its rating and as it is
};

struct FaultLoop {
  double ampere = 0.0;   // in the short
  bool limited = false;  // no battery feeds it
  Cut cut;
  Opens first;                     // what opens before all others
  bool in_stages = false;          // the figures are those of several stages, see StageFinder
  std::vector<LoopPiece> pieces;   // conductors and devices
  std::vector<BranchId> no_curve;  // devices that may well open before that, but no curve says when
};

class LoopFinder {
 public:
  // `opened`: devices that conduct no longer.
  LoopFinder(const Plan& plan, const Circuit& circuit, const Stock& stock, const FaultSupplies& supplies,
             const IndexedList<ConductorOf, ConductorFigures>& figures, const std::vector<BranchId>& opened = {});

  // With these conductors' far ends shorted there. Nothing where no current flows, or it is not known how much.
  std::optional<FaultLoop> find(const ShortPlace& place, const std::vector<ShortedEnd>& shorted);

 private:
  enum class Side { feed, back };
  struct Step {  // through one branch, from the short towards the supply
    BranchId branch;
    NodeId to;
    double ampere = 0.0;
    Cut cut;
  };
  struct Reached {
    NodeId node;
    std::size_t first_step = 0, last_step = 0;
    double fall = 0.0;
  };
  double feeds(const FaultSupplies::Held& held);  // its share of the current
  const FeedOfPart& feed_of(const ShortPlace& place);
  std::optional<double> current_at(const ShortPlace& place);
  void walk(NodeId start, Side side, double ampere);
  Cut settle(NodeId start, Side side, FaultLoop& loop);
  Cut cut_at(const Reached& reached, Side side);
  Cut out_to(NodeId end, Side side, FaultLoop& loop);
  Cut through(BranchId branch, double ampere, const Cut& before);
  void note_opening(BranchId device, double after_s, double ampere);
  double times_rating(BranchId device, double ampere) const;

  const Plan& plan_;
  const Circuit& circuit_;
  const Stock& stock_;
  const FaultSupplies& supplies_;
  const std::vector<BranchId> opened_;
  const FeederTrees trees_;
  JoinedSets joined_;              // what hangs together in the core, where devices have opened
  FaultSolver solver_;             // of the core alone
  std::vector<double> open_volt_;  // by node, at the low voltage, nothing shorted
  IndexedList<NodeOf, std::vector<std::size_t>> held_plus_, held_minus_;
  std::map<std::pair<PartId, PartId>, FeedOfPart> feeds_;  // as asked for
  // Of the walk at hand.
  std::vector<Reached> reached_;
  std::vector<Step> steps_;
  IndexedList<NodeOf, std::size_t> seen_;
  std::size_t walk_ = 0;
  IndexedList<NodeOf, Cut> cut_at_;
  struct Uncertain {
    BranchId device;
    double times = 0.0;  // its rating
  };
  std::vector<Uncertain> no_curve_;
  Opens first_;
};

}  // namespace loomleaf
