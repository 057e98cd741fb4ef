// What batteries on one side of a contact may send through it to those on the other, in one standing of the
// changeovers.
#pragma once

#include "fault_flow.h"
#include "fault_network.h"
#include "loomleaf/circuit/circuit.h"
#include "loomleaf/study/ways.h"

namespace loomleaf {

// Of contacts that alone join two sides with a battery's + on each: the lesser of what either side can send, and what
// holds it there. Nought for all other branches.
IndexedList<BranchOf, FaultFlow> find_between_batteries(const Circuit& circuit, const Ways& ways,
                                                        const FaultNetwork& network);

}  // namespace loomleaf
