#include "loomleaf/study/study.h"

namespace loomleaf {

Study run_study(const Plan& plan, const Routes& routes, const Circuit& circuit, const Stock& stock,
                const Rulebook& rulebook) {
  Study study;
  study.ways = enumerate_ways(plan, circuit);
  for (const Ways& ways : study.ways.all) study.sides.push_back(find_sides(plan, circuit, ways));
  study.circuits = find_final_circuits(plan, circuit, study.ways.all, study.sides);
  study.conductors = conductor_figures(plan, routes, circuit, study.sides, stock, rulebook);
  study.protection = study_protection(plan, routes, circuit, study.conductors, rulebook, study.ways.all, study.sides);
  study.working = study_working_points(plan, circuit, stock, rulebook, study.conductors, study.ways.all, study.sides,
                                       study.circuits);
  study.shorts =
      study_short_circuits(plan, circuit, stock, study.conductors, study.protection, study.ways.all, study.sides);
  return study;
}

}  // namespace loomleaf
