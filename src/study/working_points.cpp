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

// The case that an island belongs to: of several circuits in full the one that lies in it.
const CaseSetup& case_at(const CaseBatch& batch, std::size_t island, const Circuit& circuit,
                         const WiredNetwork& network) {
  for (const CaseSetup* setup : batch)
    if (setup->circuit && std::ranges::count(islands_of(*setup->circuit, circuit, network), island) > 0) return *setup;
  return *batch.front();
}

// Islands that had collapsed in the load case already are not told again for a circuit in full.
void take_collapses(const CaseBatch& batch, const Circuit& circuit, const CaseDemands& demands,
                    const WiredNetwork& network, const Solution& solution, const std::vector<Solution::Collapse>& known,
                    WorkingPoints& points) {
  for (const Solution::Collapse& collapse : solution.collapses) {
    const auto is_same = [&](const Solution::Collapse& other) { return other.island == collapse.island; };
    if (std::any_of(known.begin(), known.end(), is_same)) continue;
    const auto island = static_cast<std::size_t>(collapse.island);  // of the network
    WorkingPoints::Collapse entry{case_at(batch, island, circuit, network).number, {}, collapse.gives_way_first};
    for (std::size_t i = 0; i < circuit.loads.size(); ++i)
      if (network.island_of(circuit.loads[i].plus) == island && demands.load_share[i] > 0.0 &&
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
    std::vector<CaseSetup> cases = list_cases(plan, circuit, network, circuits, w, ways[w].text);
    for (CaseSetup& setup : cases) {
      setup.number = points.cases.size();
      points.cases.push_back(setup.at);
    }
    for (const CaseBatch& batch : in_batches(cases, circuit, network)) {
      const CaseSetup& first = *batch.front();
      const CaseDemands demands = demands_in(batch, at_use);
      NetworkSolution solved = first.circuit ? network.solve_from(load_case, demands) : network.solve(demands);
      Solution solution = network.to_solution(solved);
      for (const CaseSetup* setup : batch) worst.take(*setup, solution, network);
      devices.take(batch, demands, solved, network);
      if (!solution.collapses.empty()) {
        const Solution asked = network.to_solution(network.solve_asked(demands));
        for (const CaseSetup* setup : batch) worst.take_asked(*setup, solution.collapses, asked, network);
      }
      take_collapses(batch, circuit, demands, network, solution, load_collapses, points);
      if (first.at.kind != Case::Kind::load) continue;
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
