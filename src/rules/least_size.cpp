#include <fmt/format.h>

#include "catalogue.h"
#include "found.h"
#include "loomleaf/units/format.h"
#include "steps.h"

namespace loomleaf {

namespace {

// The least size as one would ask for it in the system of this one.
WireSize least_like(const Rulebook& book, const WireSize& size, const WireSize& least) {
  const WireSize as_sae = WireSize::sae(least.gauge);
  const bool same = size.system == WireSize::System::sae && book.judged_as(as_sae) == least;
  return same ? as_sae : least;
}

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  for (const RunId id : checked.plan.runs.ids()) {
    const Run& run = checked.plan.runs[id];
    if (run.signal || !run.size || run.conductors.empty()) continue;
    const auto least = checked.rulebook.least_size(run.is_cable);
    if (!least) continue;
    const double is = nominal_area(checked.rulebook.judged_as(*run.size)).in(square_millimetres);
    const double may_be = nominal_area(least->value).in(square_millimetres);
    if (!exceeds(may_be, is)) continue;
    Finding finding = found(least_size, checked.plan, run.conductors.front());
    finding.subjects = {run.id};
    set_values(finding, is, may_be, "mm2");
    finding.message = fmt::format("{} is {}, the least {} is {}", run.id, to_text(*run.size),
                                  run.is_cable ? "for a core of a cable" : "for a single wire", to_text(least->value));
    finding.mend = fmt::format("make {} {}", run.id, to_text(least_like(checked.rulebook, *run.size, least->value)));
    finding.source = to_text(least->from);
    findings.push_back(std::move(finding));
  }
  return findings;
}

Steps work_out(const Checked& checked, const Subject& subject) {
  const ConductorId* conductor = std::get_if<ConductorId>(&subject);
  if (!conductor) return {};
  const Run& run = run_of(checked.plan, *conductor);
  const auto least = checked.rulebook.least_size(run.is_cable);
  if (run.signal || !run.size || !least) return {};
  const double is = nominal_area(checked.rulebook.judged_as(*run.size)).in(square_millimetres),
               may_be = nominal_area(least->value).in(square_millimetres);
  const bool thin = exceeds(may_be, is);
  return {fmt::format("{} is {}: {} mm2", run.id, to_text(*run.size), to_text(is, 3)),
          fmt::format("least size {}: {}, {} mm2 ({})", run.is_cable ? "in a sheath" : "of a single wire",
                      to_text(least->value), to_text(may_be, 3), to_text(least->from)),
          fmt::format("it is {}thinner: {} finding", thin ? "" : "not ", thin ? "a" : "no")};
}

}  // namespace

constexpr Rule least_size = {
    "least-size",
    Severity::caution,
    "A wire, or the cores of a cable, are thinner than the rulebook's least size for how they run. Signals are "
    "excepted.",
    "Thin wires break where they shake and where they are crimped, whatever little current they carry.",
    "The rulebook's least size, or a cable, for whose cores most rulebooks take less.",
    "The rulebook's least sizes.",
    check,
    "The nominal area of the size may not be less than that of the rulebook's least size for how it runs; SAE vehicle "
    "wire is taken as the rulebook counts it.",
    "20 AWG is 0.52 mm2. Where 18 AWG of 0.82 mm2 is the least, 20 AWG is thinner: a finding.",
    work_out};

}  // namespace loomleaf
