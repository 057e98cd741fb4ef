// What the currents, voltages and faults of an installation really are. Every list is by the plan's own indices.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "loomleaf/circuit/circuit.h"
#include "loomleaf/plan/plan.h"
#include "loomleaf/route/route.h"
#include "loomleaf/stock/rulebook.h"
#include "loomleaf/stock/stock.h"
#include "loomleaf/study/final_circuits.h"
#include "loomleaf/study/protection.h"
#include "loomleaf/study/short_circuit.h"
#include "loomleaf/study/sides.h"
#include "loomleaf/study/ways.h"
#include "loomleaf/study/working_point.h"

namespace loomleaf {

struct Study {
  WaysReading ways;
  std::vector<Sides> sides;            // one for each of ways.all
  std::vector<FinalCircuit> circuits;  // in the plan's order of their devices
  IndexedList<ConductorOf, ConductorFigures> conductors;
  Protection protection;
  WorkingPoints working;
  ShortCircuits shorts;
};

Study run_study(const Plan& plan, const Routes& routes, const Circuit& circuit, const Stock& stock,
                const Rulebook& rulebook);

}  // namespace loomleaf
