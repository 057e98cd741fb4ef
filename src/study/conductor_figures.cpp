#include "loomleaf/study/conductor_figures.h"

#include <algorithm>
#include <map>
#include <tuple>

namespace loomleaf {

namespace {

constexpr double kAlphaPerKelvin = 0.00393;            // copper from 20 C, IEC 60028; AC 43.13-1B 11-22 uses the same
constexpr Temperature kUsualConductor = celsius(30);   // where the plan gives none
constexpr Temperature kUsualInsulation = celsius(70);  // where neither the plan nor the rulebook says
constexpr double kOnCharge = 1.2;                      // a battery's voltage over its nominal one, where not stated
constexpr double kCopperOhmMm2PerMetre = 0.0176;       // stranded, at 20 C: for a size that the stock lacks

// How many are counted together, by the rulebook's way of counting.
int counted(std::size_t conductors, const Rulebook& rulebook) {
  const std::size_t count = rulebook.grouping_counts_circuits ? (conductors + 1) / 2 : conductors;
  return static_cast<int>(count);
}

std::size_t carrying(const Run& run) { return run.bond || run.signal ? 0 : run.conductors.size(); }

// The conductors that carry current and share each leg; none where the leg does not hold them together.
IndexedList<LegOf, std::size_t> sharing(const Plan& plan, const Routes& routes) {
  IndexedList<LegOf, std::size_t> count(plan.legs.size());
  for (const LegId leg : plan.legs.ids()) {
    if (!plan.legs[leg].conduit_bore && !plan.legs[leg].bundle) continue;
    for (const RunId run : routes.on_leg[leg]) count[leg] += carrying(plan.runs[run]);
  }
  return count;
}

Temperature lowest_insulation(const Rulebook& rulebook) {
  std::optional<Temperature> lowest;
  for (const AmpacityRow& row : rulebook.ampacity)
    if (row.insulation && (!lowest || *row.insulation < *lowest)) lowest = row.insulation;
  return lowest.value_or(kUsualInsulation);
}

Voltage highest_of(const Plan& plan, const Supply& supply) {
  Voltage more{};
  for (const ItemId id : supply.sources) {
    const Source& source = *plan.items[id].as<Source>();
    if (!source.high && !source.is_limited()) more += source.nominal * (kOnCharge - 1);
  }
  return supply.high + more;
}

// By part: the highest voltage that can stand there; between the sources of a chain the whole chain's counts.
IndexedList<PartOf, Voltage> highest_by_part(const Plan& plan, const Sides& sides) {
  IndexedList<PartOf, Voltage> highest(sides.plus_in.size());
  for (const Supply& supply : sides.supplies) {
    const Voltage voltage = highest_of(plan, supply.piece_of ? sides.supplies[*supply.piece_of] : supply);
    for (const NodeId node : {supply.plus, supply.minus}) {
      Voltage& at = highest[sides.part_of[node]];
      at = std::max(at, voltage);
    }
  }
  return highest;
}

// Over every standing of the changeovers.
IndexedList<ConductorOf, Voltage> highest_at_conductors(const Plan& plan, const Circuit& circuit,
                                                        const std::vector<Sides>& all_sides) {
  IndexedList<ConductorOf, Voltage> highest(plan.conductors.size());
  for (const Sides& sides : all_sides) {
    const IndexedList<PartOf, Voltage> by_part = highest_by_part(plan, sides);
    for (const ConductorId id : plan.conductors.ids()) {
      const PartId part = sides.part_of[circuit.branches[circuit.branch_of[id]].a];
      highest[id] = std::max(highest[id], by_part[part]);
    }
  }
  return highest;
}

// All cores of a run share everything but their ends and what stands on them.
ConductorFigures figures_of(const Run& run, const Route& route, const IndexedList<LegOf, std::size_t>& sharing_leg,
                            Temperature conductor, const Stock& stock, const Rulebook& rulebook) {
  ConductorFigures figures;
  if (run.size) {
    figures.size = *run.size;
  } else if (const auto least = rulebook.least_size(run.is_cable)) {
    figures.size = least->value;
    figures.size_assumed = true;
  }
  figures.length = route.length;

  const WireStock* const wire = stock.find(figures.size);
  figures.area = wire ? wire->area : nominal_area(figures.size);
  const Resistance per_metre =
      wire ? wire->per_metre_20C : ohms(kCopperOhmMm2PerMetre / figures.area.in(square_millimetres));
  const double warming = 1 + kAlphaPerKelvin * (conductor - celsius(20)).in(celsius);
  figures.resistance = per_metre * (route.length.in(metres)*warming);

  std::size_t together = std::max<std::size_t>(carrying(run), 1);
  for (const LegId leg : route.legs) together = std::max(together, sharing_leg[leg]);
  figures.grouped_with = counted(together, rulebook);
  const Figure<double> grouping = rulebook.grouping_factor(figures.grouped_with);
  figures.grouping_factor = grouping.value;
  figures.grouping_from = grouping.from;
  figures.table_ampacity = rulebook.ampacity_of(figures.size, run.insulation);
  LookedUpAs as{figures.size, run.insulation};
  if (!figures.table_ampacity) as = rulebook.nearest_above(figures.size, run.insulation).value_or(as);
  if (route.warmest) {
    const Figure<double> ambient = rulebook.ambient_factor(as.size, as.insulation, *route.warmest);
    figures.ambient_factor = ambient.value;
    figures.ambient_from = ambient.from;
  }
  const double factor = figures.ambient_factor * figures.grouping_factor;
  if (const auto derated = rulebook.derated_ampacity(as.size, as.insulation, factor)) {
    if (figures.table_ampacity)
      figures.ampacity = derated->value;
    else
      figures.no_more_than = AmpacityBound{as, *rulebook.ampacity_of(as.size, as.insulation), derated->value};
  }
  return figures;
}

// Conductors between the same two nodes, of one size, insulation and length: current divides evenly among them.
void let_share(const Circuit& circuit, const Rulebook& rulebook, IndexedList<ConductorOf, ConductorFigures>& all) {
  if (!rulebook.parallel_from || circuit.branches.empty()) return;
  const Area least = nominal_area(rulebook.parallel_from->value);
  using Alike = std::tuple<NodeId, NodeId, Area, Temperature, Length, std::optional<Current>>;
  std::map<Alike, std::vector<ConductorId>> alike;
  for (const ConductorId id : all.ids()) {
    const ConductorFigures& figures = all[id];
    const Branch& branch = circuit.branches[circuit.branch_of[id]];
    const auto [a, b] = std::minmax(branch.a, branch.b);
    if (nominal_area(figures.size) < least || a == b) continue;
    alike[{a, b, nominal_area(figures.size), figures.insulation, figures.length, figures.ampacity}].push_back(id);
  }
  for (const auto& [key, beside] : alike)
    for (const ConductorId id : beside) {
      all[id].side_by_side = static_cast<int>(beside.size());
      if (all[id].may_carry) all[id].may_carry = *all[id].may_carry * static_cast<double>(beside.size());
    }
}

}  // namespace

IndexedList<ConductorOf, ConductorFigures> conductor_figures(const Plan& plan, const Routes& routes,
                                                             const Circuit& circuit, const std::vector<Sides>& sides,
                                                             const Stock& stock, const Rulebook& rulebook) {
  const IndexedList<ConductorOf, Voltage> highest = highest_at_conductors(plan, circuit, sides);
  const IndexedList<LegOf, std::size_t> sharing_leg = sharing(plan, routes);
  const Temperature insulation = lowest_insulation(rulebook);
  const Temperature conductor = plan.system.conductor_temperature.value_or(kUsualConductor);
  IndexedList<ConductorOf, ConductorFigures> all(plan.conductors.size());
  for (const RunId id : plan.runs.ids()) {
    const Run& run = plan.runs[id];
    ConductorFigures figures = figures_of(run, routes.runs[id], sharing_leg, conductor, stock, rulebook);
    figures.insulation = run.insulation.value_or(insulation);
    for (const ConductorId core : run.conductors) {
      figures.allowance = rulebook.device_allowance(highest[core]);
      if (const auto most = figures.carries_at_most()) figures.may_carry = *most * figures.allowance.value;
      all[core] = figures;
    }
  }
  let_share(circuit, rulebook, all);
  return all;
}

}  // namespace loomleaf
