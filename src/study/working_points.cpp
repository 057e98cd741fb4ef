#include <algorithm>
#include <tuple>

#include "case_list.h"
#include "device_work.h"
#include "load_reach.h"
#include "loomleaf/study/branch_resistance.h"
#include "loomleaf/study/working_point.h"
#include "wired_network.h"
#include "worst_figures.h"

namespace loomleaf {
namespace {

std::pair<double, Provenance> drop_limit(const Load& load, const Plan& plan, const Rulebook& rulebook) {
  if (load.drop_limit) return {*load.drop_limit, {"the load's own limit", Known::seen}};
  if (plan.system.drop_limit) return {*plan.system.drop_limit, {"the plan's limit", Known::seen}};
  return {rulebook.drop_limit.value, rulebook.drop_limit.from};
}

void begin_loads(const Plan& plan, const Circuit& circuit, const Rulebook& rulebook,
                 const std::vector<LoadReach>& reaches, WorkingPoints& points) {
  for (std::size_t i = 0; i < circuit.loads.size(); ++i) {
    const ItemId item = circuit.loads[i].item;
    LoadResult result;
    result.rated_voltage = reaches[i].rated_voltage;
    std::tie(result.drop_limit, result.drop_limit_from) = drop_limit(*plan.items[item].as<Load>(), plan, rulebook);
    result.has_feed = reaches[i].has_feed;
    result.has_return = reaches[i].has_return;
    result.reversed = std::binary_search(points.reversed.begin(), points.reversed.end(), item);
    points.loads.push_back(std::move(result));
  }
}

// Islands that had collapsed in the load case already are not told again for a circuit in full.
void take_collapses(const Circuit& circuit, const Sides& sides, const CaseDemands& demands, const WiredNetwork& network,
                    const Solution& solution, const std::vector<Solution::Collapse>& known, WorkingPoints& points) {
  for (const Solution::Collapse& collapse : solution.collapses) {
    const auto is_same = [&](const Solution::Collapse& other) { return other.island == collapse.island; };
    if (std::any_of(known.begin(), known.end(), is_same)) continue;
    WorkingPoints::Collapse entry{points.cases.size() - 1, {}, collapse.gives_way_first};
    for (std::size_t i = 0; i < circuit.loads.size(); ++i)
      if (sides.island_of[circuit.loads[i].plus] == collapse.island && demands.load_share[i] > 0.0 &&
          network.supply_of_load(i))
        entry.loads.push_back(circuit.loads[i].item);
    points.collapses.push_back(std::move(entry));
  }
}

}  // namespace

WorkingPoints study_working_points(const Plan& plan, const Circuit& circuit, const Stock& stock,
                                   const Rulebook& rulebook,
                                   const IndexedList<ConductorOf, ConductorFigures>& conductors,
                                   const std::vector<Ways>& ways, const std::vector<Sides>& sides,
                                   const std::vector<FinalCircuit>& circuits) {
  WorkingPoints points;
  const BranchResistances resistances = branch_resistances(plan, circuit, stock, conductors);
  points.reversed = find_reversed(plan, circuit, sides);
  points.series_loads = find_series_loads(circuit, sides);
  const std::vector<LoadReach> reaches = reach_loads(plan, circuit, sides);
  begin_loads(plan, circuit, rulebook, reaches, points);
  std::vector<std::optional<Voltage>> rated;
  for (const LoadReach& reach : reaches) rated.push_back(reach.rated_voltage);

  WorstFigures worst(plan, circuit, circuits, points);
  DeviceWork devices(plan, circuit, stock, rulebook, circuits, points);
  const std::vector<double> at_use = shares_at_use(plan, circuit);
  for (std::size_t w = 0; w < ways.size(); ++w) {
    WiredNetwork network(plan, circuit, ways[w], sides[w], resistances, rated);
    NetworkSolution load_case;
    std::vector<Solution::Collapse> load_collapses;
    for (const CaseSetup& setup : list_cases(plan, circuit, network, circuits, w, ways[w].text)) {
      points.cases.push_back(setup.at);
      const CaseDemands demands = demands_in(setup, at_use);
      NetworkSolution solved = setup.circuit ? network.solve_from(load_case, demands) : network.solve(demands);
      Solution solution = network.to_solution(solved);
      worst.take(setup, solution, network);
      devices.take(setup, demands, solved, network);
      take_collapses(circuit, sides[w], demands, network, solution, load_collapses, points);
      if (setup.at.kind != Case::Kind::load) continue;
      load_case = std::move(solved);
      load_collapses = solution.collapses;
      if (w == 0) points.first_load_case = std::move(solution);
    }
  }
  points.resistance_unknown = resistances.unknown;
  points.branch_resistance = resistances.value;
  return points;
}

}  // namespace loomleaf
