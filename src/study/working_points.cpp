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

// Solves the cases of one standing and keeps their worst.
class StandingCases {
 public:
  StandingCases(const Plan& plan, const Circuit& circuit, WorstFigures& worst, DeviceWork& devices,
                WorkingPoints& points)
      : circuit_(circuit), worst_(worst), devices_(devices), points_(points), at_use_(shares_at_use(plan, circuit)) {}

  // The load case is the first; its solution.
  Solution take(std::vector<CaseSetup>& cases, WiredNetwork& network) {
    for (CaseSetup& setup : cases) {
      setup.number = points_.cases.size();
      points_.cases.push_back(setup.at);
    }
    NetworkSolution load_case, load_charge;
    Solution first_solution;
    for (const CaseBatch& batch : in_batches(cases, circuit_, network)) {
      const CaseSetup& first = *batch.front();
      const CaseDemands demands = demands_in(batch, at_use_);
      const bool is_charging = first.at.kind == Case::Kind::load_charge;
      NetworkSolution solved = first.circuit ? network.solve_from(is_charging ? load_charge : load_case, demands)
                                             : network.solve(demands);
      Solution solution = network.to_solution(solved);
      for (const CaseSetup* setup : batch) worst_.take(*setup, solution, network);
      devices_.take(batch, demands, solved, network);
      if (!solution.collapses.empty()) {
        const Solution asked = network.to_solution(network.solve_asked(demands));
        for (const CaseSetup* setup : batch) worst_.take_asked(*setup, solution.collapses, asked, network);
      }
      // Of a case that voltages are not judged by (see WorstFigures) what is asked for counts, that it breaks down not.
      if (!is_charging && !first.at.at_highest)
        take_collapses(batch, circuit_, demands, network, solution, first_solution.collapses, points_);
      if (is_charging && !first.circuit && first.rests.empty()) load_charge = std::move(solved);
      if (&first != &cases.front()) continue;
      load_case = std::move(solved);
      first_solution = std::move(solution);
    }
    return first_solution;
  }

 private:
  const Circuit& circuit_;
  WorstFigures& worst_;
  DeviceWork& devices_;
  WorkingPoints& points_;
  const std::vector<double> at_use_;
};

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
  StandingCases standing(plan, circuit, worst, devices, points);
  for (std::size_t w = 0; w < ways.size(); ++w) {
    WiredNetwork network(plan, circuit, ways[w], sides[w], resistances, rated);
    std::vector<CaseSetup> cases = list_cases(plan, circuit, network, circuits, w, ways[w].text);
    Solution load_case = standing.take(cases, network);
    const SupplyState highest(plan, circuit, sides[w], SupplyLevel::highest);
    cases = list_highest_cases(cases, circuit, network, highest, ways[w].text);
    if (!cases.empty()) {
      WiredNetwork at_highest(plan, circuit, ways[w], sides[w], resistances, rated, SupplyLevel::highest);
      standing.take(cases, at_highest);
    }
    if (w == 0) points.first_load_case = std::move(load_case);
  }
  points.resistance_unknown = resistances.unknown;
  points.branch_resistance = resistances.value;
  return points;
}

}  // namespace loomleaf
