// Exposed feed conductors against the rulebook, over every point where they are fed.
#pragma once

#include <vector>

#include "fault_network.h"
#include "let_through.h"
#include "loomleaf/study/protection.h"

namespace loomleaf {

// Whether more flows than a conductor may carry. What nobody knows the ampacity of carries anything but a battery.
bool exceeds(Microamperes flow, const std::optional<Current>& may_carry);

// Fills in what concerns exposure for the conductors that are `exposed` as feed.
void judge_exposure(const Plan& plan, const Routes& routes, const Circuit& circuit,
                    const IndexedList<ConductorOf, ConductorFigures>& figures, const Rulebook& rulebook,
                    const std::vector<Ways>& ways, const std::vector<Sides>& sides,
                    const std::vector<FaultNetwork>& networks, const IndexedList<ConductorOf, bool>& exposed,
                    const IndexedList<ConductorOf, InflowAtEnds>& inflow,
                    IndexedList<ConductorOf, ConductorProtection>& conductors);

}  // namespace loomleaf
