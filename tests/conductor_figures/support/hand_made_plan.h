// Plans and routes made by hand, for what needs no circuit.
#pragma once

#include <string>

#include "loomleaf/circuit/circuit.h"
#include "loomleaf/plan/plan.h"
#include "loomleaf/route/route.h"
#include "loomleaf/study/conductor_figures.h"

namespace loomleaf {

struct HandMadePlan {
  Plan plan;
  Routes routes;

  LegId leg(bool conduit, bool bundle = false) {
    Leg made;
    if (conduit) made.conduit_bore = millimetres(16);
    made.bundle = bundle;
    routes.on_leg.add({});
    return plan.legs.add(made);
  }

  RunId cable(std::optional<WireSize> size, std::size_t cores, Length length, const std::vector<LegId>& legs = {}) {
    Run run;
    run.size = size;
    run.is_cable = cores > 1;
    const RunId id = plan.runs.end_id();
    for (std::size_t i = 0; i < cores; ++i) {
      Conductor conductor;
      conductor.run = id;
      run.conductors.push_back(plan.conductors.add(conductor));
    }
    Route route;
    route.length = length;
    route.legs = legs;
    routes.runs.add(route);
    for (const LegId each : legs) routes.on_leg[each].push_back(id);
    return plan.runs.add(run);
  }
  RunId wire(std::optional<WireSize> size, Length length, const std::vector<LegId>& legs = {}) {
    return cable(size, 1, length, legs);
  }

  ConductorFigures figures(RunId run, const Stock& stock, const Rulebook& rulebook) const {
    const auto all = conductor_figures(plan, routes, Circuit{}, {}, stock, rulebook);
    return all[plan.runs[run].conductors.front()];
  }
};

}  // namespace loomleaf
