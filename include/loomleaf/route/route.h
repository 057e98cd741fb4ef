// Where each conductor runs: its length, the legs it passes, what shares each leg.
#pragma once

#include <optional>
#include <vector>

#include "loomleaf/language/complaint.h"
#include "loomleaf/plan/plan.h"

namespace loomleaf {

// The way of one run (a wire, or a cable as one piece).
struct Route {
  Length length{};                       // the whole cut length; a cable is as long as its longest core
  bool given = false;                    // the plan gave the length; the legs are still found where there is a way
  std::vector<LegId> legs;               // in order from the `from` end, one entry a pass
  std::vector<PlaceId> places;           // all places touched, ends first and last, in order
  std::optional<Temperature> warmest;    // the highest declared ambient of those places; absent: none is declared
  bool sheathed_throughout = false;      // by itself, by each leg (conduit counts) and by each place it touches
};

struct Routes {
  IndexedList<RunOf, Route> runs;
  IndexedList<LegOf, std::vector<RunId>> on_leg;  // which runs pass each leg, in order of run, one entry a pass
};

struct RouteReading {
  Routes routes;
  std::vector<Complaint> complaints;     // no way between two places, ends in one place without positions or length
};

// Shortest ways between the ends' places through each `via` in turn (ties: fewest legs, then place ID).
RouteReading find_routes(const Plan& plan);

}  // namespace loomleaf
