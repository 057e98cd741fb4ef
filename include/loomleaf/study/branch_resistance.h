// What stands between the ends of each branch.
#pragma once

#include "loomleaf/circuit/circuit.h"
#include "loomleaf/stock/stock.h"
#include "loomleaf/study/conductor_figures.h"

namespace loomleaf {

struct BranchResistances {
  IndexedList<BranchOf, Resistance> value;
  IndexedList<BranchOf, bool> unknown;    // taken as 0 for lack of data; a contact without its own has the stock's for any
};

BranchResistances branch_resistances(const Plan& plan, const Circuit& circuit, const Stock& stock,
                                     const IndexedList<ConductorOf, ConductorFigures>& conductors);

}  // namespace loomleaf
