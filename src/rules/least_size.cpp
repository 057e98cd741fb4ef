#include <fmt/format.h>

#include <map>

#include "battery_bonds.h"
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

// What the rulebook asks of a conductor, and why.
struct Least {
  WireSize size;
  std::string what;
  Provenance from;
};

double area_mm2(const Rulebook& book, const WireSize& size) {
  return nominal_area(book.judged_as(size)).in(square_millimetres);
}

Least least_of_bond(const Checked& checked, const BatteryBond& bond) {
  const Figure<WireSize> least = *least_size_of(checked, bond);
  const bool as_lead = bond.lead && least.value != checked.rulebook.least_bond->least;
  return {least.value,
          as_lead ? fmt::format("the bond of a battery with a lead like {}", id_of(checked.plan, *bond.lead))
                  : std::string("the bond of a battery to metalwork"),
          least.from};
}

class LeastSizes {
 public:
  explicit LeastSizes(const Checked& checked) : checked_(checked) {
    if (checked.rulebook.least_bond)
      for (const BatteryBond& bond : battery_bonds(checked)) bonds_.emplace(bond.conductor, bond);
  }

  std::optional<Least> of(ConductorId id) const {
    const Run& run = run_of(checked_.plan, id);
    if (run.signal || !run.size) return std::nullopt;
    if (const auto bond = bonds_.find(id); bond != bonds_.end()) return least_of_bond(checked_, bond->second);
    const auto least = checked_.rulebook.least_size(run.is_cable);
    if (!least) return std::nullopt;
    return Least{least->value, run.is_cable ? "a core of a cable" : "a single wire", least->from};
  }

 private:
  const Checked& checked_;
  std::map<ConductorId, BatteryBond> bonds_;
};

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  const LeastSizes least_sizes(checked);
  for (const RunId id : checked.plan.runs.ids()) {
    const Run& run = checked.plan.runs[id];
    for (const ConductorId conductor : run.conductors) {
      const auto least = least_sizes.of(conductor);
      if (!least) continue;
      const double is = area_mm2(checked.rulebook, *run.size), may_be = area_mm2(checked.rulebook, least->size);
      if (!exceeds(may_be, is)) continue;
      Finding finding = found(least_size, checked.plan, conductor);
      finding.subjects = {run.id};
      set_values(finding, is, may_be, "mm2");
      finding.message = fmt::format("{} is {}, the least for {} is {}", run.id, to_text(*run.size), least->what,
                                    to_text(least->size));
      finding.mend = fmt::format("make {} {}", run.id, to_text(least_like(checked.rulebook, *run.size, least->size)));
      finding.source = to_text(least->from);
      findings.push_back(std::move(finding));
      break;  // all cores of a run have its size
    }
  }
  return findings;
}

Steps work_out(const Checked& checked, const Subject& subject) {
  const ConductorId* conductor = std::get_if<ConductorId>(&subject);
  if (!conductor) return {};
  const Run& run = run_of(checked.plan, *conductor);
  const auto least = LeastSizes(checked).of(*conductor);
  if (!least) return {};
  const double is = area_mm2(checked.rulebook, *run.size), may_be = area_mm2(checked.rulebook, least->size);
  const bool thin = exceeds(may_be, is);
  return {fmt::format("{} is {}: {} mm2", run.id, to_text(*run.size), to_text(is, 3)),
          fmt::format("the least for {}: {}, {} mm2 ({})", least->what, to_text(least->size), to_text(may_be, 3),
                      to_text(least->from)),
          fmt::format("it is {}thinner: {} finding", thin ? "" : "not ", thin ? "a" : "no")};
}

}  // namespace

constexpr Rule least_size = {
    "least-size",
    Severity::caution,
    "A wire, or the cores of a cable, are thinner than the rulebook's least size for how they run; or the lead that "
    "bonds a battery's - to metalwork is thinner than the rulebook asks for. Signals are excepted.",
    "Thin wires break where they shake and where they are crimped, whatever little current they carry. Over a bond "
    "flows whatever a chafed wire lets into the metalwork, until its fuse opens.",
    "The rulebook's least size, or a cable, for whose cores most rulebooks take less.",
    "The rulebook's least sizes.",
    check,
    "The nominal area of the size may not be less than that of the rulebook's least size for how it runs; SAE vehicle "
    "wire is taken as the rulebook counts it.",
    "20 AWG is 0.52 mm2. Where 18 AWG of 0.82 mm2 is the least, 20 AWG is thinner: a finding.",
    work_out};

}  // namespace loomleaf
