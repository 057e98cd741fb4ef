// What a return must bear because of the feed that it pairs with, in one standing of the changeovers: see protection.h.
#pragma once

#include "fault_flow.h"
#include "fault_network.h"
#include "loomleaf/circuit/circuit.h"
#include "loomleaf/study/sides.h"
#include "loomleaf/study/ways.h"

namespace loomleaf {

// Nothing where no feed pairs with the conductor alone.
IndexedList<ConductorOf, FaultFlow> find_paired_returns(const Plan& plan, const Circuit& circuit, const Ways& ways,
                                                        const Sides& sides, const FaultNetwork& network);

}  // namespace loomleaf
