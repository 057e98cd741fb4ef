// What can flow into each conductor in a fault, what stands before it, and whether the rulebook tolerates it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "loomleaf/circuit/circuit.h"
#include "loomleaf/study/conductor_figures.h"
#include "loomleaf/study/sides.h"
#include "loomleaf/study/ways.h"

namespace loomleaf {

enum class ConductorSide { none, feed, return_, bond, signal };

// Why an exposed conductor is no finding, or is one.
enum class Exposure {
  protected_,          // let-through within what it may carry
  tolerated,           // exposed, within the rulebook's length on a stretch that ends in devices
  too_far,             // its exposed length is over what the rulebook tolerates
  too_thin_for_device, // thinner than the device beyond it asks
  open_stretch,        // the stretch ends in something other than a device or a source terminal
  exposed_return,      // a return is never tolerated
};

struct ConductorProtection {
  ConductorSide side = ConductorSide::none;
  std::optional<Current> let_through;      // absent where unbounded
  bool unbounded = false;                  // a battery reaches it through no device
  std::vector<ItemId> protected_by;        // the cut nearest to the conductor: devices and limited sources, in the plan's order
  bool exposed = false;
  std::optional<Length> exposed_length;    // absent for a return and where not exposed
  std::optional<PositionRow> tolerance;    // the row of the rulebook it was held against
  Exposure exposure = Exposure::protected_;
  std::vector<ItemId> beyond;              // too_thin_for_device: the device whose rating counts; open_stretch: where it ends
  std::vector<ConductorId> further;        // open_stretch: the conductors that it goes on as without a device (of many ends the first dozen)
  std::optional<Current> beyond_rating;
  std::optional<TerminalId> fed_at;        // the feeding point that counts
  std::size_t ways = 0;                    // which of the ways the let-through belongs to
};

struct Protection {
  IndexedList<ConductorOf, ConductorProtection> conductors;
};

// Minimum cuts, feed and return, over every standing of the changeovers, then stretches against the rulebook.
// Of a return that lies in a ring which hangs on the rest by one node, no supply's - there or in it, only those loads count
// that return in the ring or beyond it: what comes in at that node from elsewhere has to leave by it again.
Protection study_protection(const Plan& plan, const Routes& routes, const Circuit& circuit,
                            const IndexedList<ConductorOf, ConductorFigures>& figures, const Rulebook& rulebook,
                            const std::vector<Ways>& ways, const std::vector<Sides>& sides);

}  // namespace loomleaf
