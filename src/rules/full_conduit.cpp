#include <fmt/format.h>

#include <cmath>
#include <numbers>

#include "catalogue.h"
#include "found.h"
#include "loomleaf/stock/outside_diameter.h"
#include "loomleaf/units/format.h"
#include "steps.h"

namespace loomleaf {

namespace {

// Absent where the stock knows no outside diameter.
std::optional<double> section_mm2(const Checked& checked, const Run& run) {
  const ConductorFigures& figures = checked.study.conductors[run.conductors.front()];
  const WireStock* wire = checked.stock.find(figures.size);
  if (!wire) return std::nullopt;
  const auto outside =
      run.is_cable ? outside_of_cable(*wire, run.conductors.size()) : std::optional(outside_of_wire(*wire));
  if (!outside || outside->widest <= Length{}) return std::nullopt;
  const double diameter = outside->widest.in(millimetres);
  return std::numbers::pi / 4 * diameter * diameter;
}

double limit_for(const Rulebook& book, int count) {
  double limit = 1.0;
  for (const auto& [from, share] : book.conduit_fill) {
    if (count >= from) limit = share;
  }
  return limit;
}

std::string next_conduit_text(const Checked& checked, double section, double limit) {
  const Conduit* best = nullptr;
  for (const Conduit& conduit : checked.stock.conduits) {
    const double bore = conduit.bore.in(millimetres);
    if (section > limit * std::numbers::pi / 4 * bore * bore) continue;
    if (!best || conduit.bore < best->bore) best = &conduit;
  }
  if (best) return fmt::format("take conduit of {} bore", to_text(best->bore));
  const double bore = std::sqrt(section / limit * 4 / std::numbers::pi);
  return fmt::format("take conduit of {} mm bore or more, or lead some of them another way",
                     to_text(std::ceil(bore), 0));
}

// What passes a leg in conduit, as far as its outside diameters are known.
struct Filling {
  std::vector<std::string> runs;
  std::vector<double> sections_mm2;  // of each
  double section = 0.0, bore_mm2 = 0.0;
  double limit = 1.0;
  double fill() const { return section / bore_mm2; }
};

std::optional<Filling> filling_of(const Checked& checked, LegId id) {
  const Leg& leg = checked.plan.legs[id];
  if (!leg.conduit_bore || checked.rulebook.conduit_fill.empty()) return std::nullopt;
  Filling filling;
  for (const RunId run : checked.routes.on_leg[id]) {
    const auto one = section_mm2(checked, checked.plan.runs[run]);
    if (!one) continue;
    filling.section += *one;
    filling.sections_mm2.push_back(*one);
    filling.runs.push_back(checked.plan.runs[run].id);
  }
  const double bore = leg.conduit_bore->in(millimetres);
  filling.bore_mm2 = std::numbers::pi / 4 * bore * bore;
  filling.limit = limit_for(checked.rulebook, static_cast<int>(filling.runs.size()));
  return filling.runs.empty() ? std::nullopt : std::optional(filling);
}

std::string leg_text(const Checked& checked, const Leg& leg) {
  return fmt::format("{} from {} to {}", leg.id.empty() ? std::string("the conduit") : leg.id,
                     checked.plan.places[leg.from.place].id, checked.plan.places[leg.to.place].id);
}

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  for (const LegId id : checked.plan.legs.ids()) {
    const Leg& leg = checked.plan.legs[id];
    const std::optional<Filling> filling = filling_of(checked, id);
    if (!filling || !exceeds(filling->fill(), filling->limit)) continue;
    const std::vector<std::string>& runs = filling->runs;
    Finding finding;
    finding.rule = std::string(full_conduit.name);
    finding.severity = full_conduit.severity;
    finding.span = leg.span;
    if (!leg.id.empty()) finding.subjects.push_back(leg.id);
    finding.subjects.insert(finding.subjects.end(), runs.begin(), runs.end());
    const FigureTexts texts = set_values(finding, filling->fill() * 100, filling->limit * 100, "%");
    finding.message =
        fmt::format("{} is {} full with {}, {} may be for {}", leg_text(checked, leg), texts.is, listed(runs),
                    texts.may_be, runs.size() == 1 ? "one" : fmt::format("{}", runs.size()));
    finding.mend = next_conduit_text(checked, filling->section, filling->limit);
    finding.source = sources_text({checked.rulebook.conduit_fill_from});
    findings.push_back(std::move(finding));
  }
  return findings;
}

void add_leg(const Checked& checked, LegId leg, Steps& steps) {
  const auto filling = filling_of(checked, leg);
  if (!filling) return;
  for (std::size_t i = 0; i < filling->runs.size(); ++i)
    steps.push_back(fmt::format("{} takes {} mm2", filling->runs[i], to_text(filling->sections_mm2[i], 1)));
  steps.push_back(fmt::format("together {} mm2 of a bore of {} mm2 in {}: {}", to_text(filling->section, 1),
                              to_text(filling->bore_mm2, 1), leg_text(checked, checked.plan.legs[leg]),
                              percent_text(filling->fill())));
  steps.push_back(fmt::format("for {} it may be {} ({})", filling->runs.size(), percent_text(filling->limit),
                              to_text(checked.rulebook.conduit_fill_from)));
  steps.push_back(held_against(filling->fill() * 100, filling->limit * 100, "%"));
}

// Of a conductor: each conduit that it passes.
Steps work_out(const Checked& checked, const Subject& subject) {
  Steps steps;
  if (const LegId* leg = std::get_if<LegId>(&subject)) add_leg(checked, *leg, steps);
  if (const ConductorId* conductor = std::get_if<ConductorId>(&subject)) {
    for (const LegId leg : checked.routes.runs[checked.plan.conductors[*conductor].run].legs)
      add_leg(checked, leg, steps);
  }
  return steps;
}

}  // namespace

constexpr Rule full_conduit = {
    "full-conduit",
    Severity::caution,
    "The wires and cables that pass a leg in conduit fill more of its bore than the rulebook lets them.",
    "They jam half way, their insulation is scraped off at the bends, and what runs so close cannot cool.",
    "A wider conduit, a second one, or another way for some of them: `via` says which way a run takes.",
    "The rulebook's share of the bore for so many cables; the outside diameters are the stock's, of a cable with "
    "more than two cores worked out from its two-core kin.",
    check,
    "fill = sum of the sections of all that passes (pi / 4 x outside diameter squared) / section of the bore.",
    "Three cables of 7 mm in a bore of 16 mm: 3 x 38.5 mm2 / 201 mm2 = 57 %, more than 40 %.",
    work_out};

}  // namespace loomleaf
