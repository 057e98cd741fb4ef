#include "loomleaf/study/conductor_figures.h"

#include <algorithm>

namespace loomleaf {

namespace {

constexpr double kAlphaPerKelvin = 0.00393;            // copper from 20 C, IEC 60028; AC 43.13-1B 11-22 uses the same
constexpr Temperature kUsualConductor = celsius(30);   // where the plan gives none
constexpr Temperature kUsualInsulation = celsius(70);  // where neither the plan nor the rulebook says
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

// All cores of a run share everything but their ends.
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
  if (route.warmest) {
    const Figure<double> ambient = rulebook.ambient_factor(figures.size, run.insulation, *route.warmest);
    figures.ambient_factor = ambient.value;
    figures.ambient_from = ambient.from;
  }

  figures.table_ampacity = rulebook.ampacity_of(figures.size, run.insulation);
  const double factor = figures.ambient_factor * figures.grouping_factor;
  if (const auto derated = rulebook.derated_ampacity(figures.size, run.insulation, factor)) {
    figures.ampacity = derated->value;
    figures.may_carry = derated->value * rulebook.device_allowance.value;
  }
  return figures;
}

}  // namespace

IndexedList<ConductorOf, ConductorFigures> conductor_figures(const Plan& plan, const Routes& routes, const Circuit&,
                                                             const Stock& stock, const Rulebook& rulebook) {
  const IndexedList<LegOf, std::size_t> sharing_leg = sharing(plan, routes);
  const Temperature insulation = lowest_insulation(rulebook);
  const Temperature conductor = plan.system.conductor_temperature.value_or(kUsualConductor);
  IndexedList<ConductorOf, ConductorFigures> all(plan.conductors.size());
  for (const RunId id : plan.runs.ids()) {
    const Run& run = plan.runs[id];
    ConductorFigures figures = figures_of(run, routes.runs[id], sharing_leg, conductor, stock, rulebook);
    figures.insulation = run.insulation.value_or(insulation);
    for (const ConductorId core : run.conductors) all[core] = figures;
  }
  return all;
}

}  // namespace loomleaf
