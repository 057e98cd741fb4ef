// Final circuits: what hangs on one final device, with no further device beyond it.
#pragma once

#include <vector>

#include "loomleaf/circuit/circuit.h"
#include "loomleaf/study/sides.h"
#include "loomleaf/study/ways.h"

namespace loomleaf {

struct FinalCircuit {
  ItemId device;
  std::vector<ItemId> loads;       // in the plan's order
  std::vector<ItemId> others;      // converters, relays (by their coil) and limited sources on it, in the plan's order
  std::vector<BranchId> branches;  // feed and return that serve this circuit alone, its device's own too; in order
};

// In the plan's order of their devices. A device with nothing at its far end is a spare way: no circuit, and none to
// the device before it. What hangs behind a converter that charges nothing hangs on the converter's device, unless
// there are devices of its own. Where several devices feed the same, or each in another standing of the changeovers, it
// belongs to each of them.
std::vector<FinalCircuit> find_final_circuits(const Plan& plan, const Circuit& circuit, const std::vector<Ways>& ways,
                                              const std::vector<Sides>& sides);

}  // namespace loomleaf
