// The let-through of every conductor in one standing of the changeovers.
#pragma once

#include "fault_flow.h"
#include "fault_network.h"
#include "loomleaf/circuit/circuit.h"
#include "loomleaf/study/sides.h"
#include "loomleaf/study/ways.h"

namespace loomleaf {

struct LetThrough {
  bool is_feed = false, is_return = false;
  FaultFlow feed, back;  // the greater of the two ends; the `from` end where they are equal
};

IndexedList<ConductorOf, LetThrough> find_let_through(const Plan& plan, const Circuit& circuit, const Ways& ways,
                                                      const Sides& sides, const FaultNetwork& network);

}  // namespace loomleaf
