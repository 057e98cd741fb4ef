// The let-through of every conductor in one standing of the changeovers.
#pragma once

#include "fault_flow.h"
#include "fault_network.h"
#include "loomleaf/circuit/circuit.h"
#include "loomleaf/study/sides.h"
#include "loomleaf/study/ways.h"

namespace loomleaf {

// The most that can flow as feed into either end of a conductor without passing the conductor itself.
struct InflowAtEnds {
  Microamperes a = 0, b = 0;
};

struct LetThrough {
  bool is_feed = false, is_return = false;
  FaultFlow feed, back;  // the greater of the two ends; the `from` end where they are equal
  InflowAtEnds feed_at_ends;
};

IndexedList<ConductorOf, LetThrough> find_let_through(const Plan& plan, const Circuit& circuit, const Ways& ways,
                                                      const Sides& sides, const FaultNetwork& network);

}  // namespace loomleaf
