#include <fmt/format.h>

#include <cmath>
#include <numbers>

#include "catalogue.h"
#include "conduit_fill.h"
#include "found.h"
#include "loomleaf/units/format.h"
#include "steps.h"

namespace loomleaf {

namespace {

std::string next_conduit_text(const Checked& checked, double section, double limit) {
  const Conduit* best = nullptr;
  for (const Conduit& conduit : checked.stock.conduits) {
    const double bore = conduit.bore.in(millimetres);
    if (section > limit * std::numbers::pi / 4 * bore * bore) continue;
    if (!best || conduit.bore < best->bore) best = &conduit;
  }
  if (best) return fmt::format("take conduit of {} bore, such as `{}`", to_text(best->bore), best->name);
  const double bore = std::sqrt(section / limit * 4 / std::numbers::pi);
  return fmt::format("take conduit of {} mm bore or more, or lead some of them another way",
                     to_text(std::ceil(bore), 0));
}

std::string leg_text(const Checked& checked, const Leg& leg) {
  return fmt::format("{} from {} to {}", leg.id.empty() ? std::string("the conduit") : leg.id,
                     checked.plan.places[leg.from.place].id, checked.plan.places[leg.to.place].id);
}

// What the stock has no diameter for, behind what it has.
std::string unknown_text(const ConduitFill& fill) {
  if (fill.unknown.empty()) return "";
  return fmt::format(" alone, and {} of unknown diameter {} there too", listed(fill.unknown),
                     fill.unknown.size() == 1 ? "is" : "are");
}

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  for (const LegId id : checked.plan.legs.ids()) {
    const Leg& leg = checked.plan.legs[id];
    const std::optional<ConduitFill> fill = conduit_fill_of(checked, id);
    if (!fill || !is_too_full(*fill)) continue;
    Finding finding;
    finding.rule = std::string(full_conduit.name);
    finding.severity = full_conduit.severity;
    finding.span = leg.span;
    if (!leg.id.empty()) finding.subjects.push_back(leg.id);
    for (const auto* names : {&fill->runs, &fill->unknown})
      finding.subjects.insert(finding.subjects.end(), names->begin(), names->end());
    const FigureTexts texts = set_values(finding, fill->share() * 100, fill->limit * 100, "%");
    finding.message = fmt::format("{} is {} full with {}{}, at most {} is allowed for {}", leg_text(checked, leg),
                                  texts.is, listed(fill->runs), unknown_text(*fill), texts.may_be,
                                  fill->count() == 1 ? "one" : fmt::format("{}", fill->count()));
    finding.mend = fill->unknown.empty()
                       ? next_conduit_text(checked, fill->section_mm2, fill->limit)
                       : fmt::format("take a wider conduit with room for {} too, or lead some of them another way",
                                     listed(fill->unknown));
    finding.source = sources_text({checked.rulebook.conduit_fill_from});
    findings.push_back(std::move(finding));
  }
  return findings;
}

void add_leg(const Checked& checked, LegId leg, Steps& steps) {
  const auto fill = conduit_fill_of(checked, leg);
  if (!fill) return;
  const FigureTexts texts = alike(fill->share() * 100, fill->limit * 100, "%");
  for (std::size_t i = 0; i < fill->runs.size(); ++i)
    steps.push_back(fmt::format("{} takes {} mm2", fill->runs[i], to_text(fill->sections_mm2[i], 1)));
  if (!fill->unknown.empty())
    steps.push_back(fmt::format("the stock has no outside diameter for {}: not counted in", listed(fill->unknown)));
  steps.push_back(fmt::format("together {} mm2 of a bore of {} mm2 in {}: {}", to_text(fill->section_mm2, 1),
                              to_text(fill->bore_mm2, 1), leg_text(checked, checked.plan.legs[leg]), texts.is));
  steps.push_back(fmt::format("for {} at most {} is allowed ({})", fill->count(), texts.may_be,
                              to_text(checked.rulebook.conduit_fill_from)));
  // Under its limit nothing is said of a leg of which a part is not known.
  if (fill->unknown.empty() || is_too_full(*fill))
    steps.push_back(held_against(fill->share() * 100, fill->limit * 100, "%"));
  else
    steps.push_back("what is known is not too much, the rest is not known: not checked");
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
    "The rulebook's share of the bore for so many cables; the outside diameters are the stock's, for the kind of "
    "insulation that the plan names, else for what is usually sold; of a cable with more than two cores they are "
    "worked out from its two-core kin. One whose diameter the stock lacks counts in the number of "
    "cables; where the others alone are not too much, the leg is `not-checked`.",
    check,
    "fill = sum of the sections of all that passes (pi / 4 x outside diameter squared) / section of the bore.",
    "Three cables of 7 mm in a bore of 16 mm: 3 x 38.5 mm2 / 201 mm2 = 57 %, more than 40 %.",
    work_out};

}  // namespace loomleaf
