#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "catalogue.h"
#include "cure.h"
#include "found.h"
#include "loomleaf/units/format.h"

namespace loomleaf {

namespace {

// A smaller device of the same kind that the conductor bears and that its own work lets stay closed.
std::optional<std::string> smaller_device_text(const Checked& checked, ItemId item, Current may_carry) {
  const Device* device = checked.plan.items[item].as<Device>();
  if (!device) return std::nullopt;
  if (!checked.study.working.surges[item].empty()) return std::nullopt;
  const auto rating = rating_up_to(ratings_like(checked.stock, *device), may_carry);
  if (!rating) return std::nullopt;
  Current needed{};
  if (const auto& lasting = checked.study.working.continuous[item]) needed = lasting->value;
  for (const BranchId branch : checked.circuit.branches.ids()) {
    const Branch& at = checked.circuit.branches[branch];
    if (at.kind == BranchKind::device && at.item == item) {
      needed = std::max(needed, amperes(working_amperes(checked, branch)));
    }
  }
  if (exceeds(needed.in(amperes), rating->in(amperes))) return std::nullopt;
  return fmt::format("change {} to {}", checked.plan.items[item].id, to_text(*rating));
}

Finding thin_for_device_beyond(const Checked& checked, ConductorId conductor, const ConductorProtection& protection,
                               Current may_carry) {
  Finding finding = found(gauge_mismatch, checked.plan, conductor);
  const Current rating = protection.beyond_rating.value_or(Current{});
  const FigureTexts texts = set_values(finding, rating, may_carry);
  const std::vector<std::string> devices = names_of(checked.plan, protection.beyond);
  const ConductorFigures& figures = checked.study.conductors[conductor];
  finding.message = fmt::format("{} may carry {}{}, {} beyond it lets {} through", finding.subjects[0], texts.may_be,
                                factors_text(figures), listed(devices), texts.is);
  finding.mend = thicker_text(checked, conductor, rating, Bears::device);
  if (protection.beyond.size() == 1) {
    if (const auto smaller = smaller_device_text(checked, protection.beyond[0], may_carry)) finding.mend = *smaller;
  }
  finding.subjects.insert(finding.subjects.end(), devices.begin(), devices.end());
  return finding;
}

Finding too_much_let_through(const Checked& checked, ConductorId conductor, const ConductorProtection& protection,
                             Current may_carry) {
  Finding finding = found(gauge_mismatch, checked.plan, conductor);
  const FigureTexts texts = set_values(finding, *protection.let_through, may_carry);
  const std::vector<std::string> devices = names_of(checked.plan, protection.protected_by);
  const ConductorFigures& figures = checked.study.conductors[conductor];
  const bool several = devices.size() > 1;
  finding.message =
      fmt::format("{} may carry {}{}, {} {} {} through{}{}", finding.subjects[0], texts.may_be, factors_text(figures),
                  devices.empty() ? "what feeds it" : listed(devices), several ? "let" : "lets", texts.is,
                  several ? " together" : "", in_ways_text(checked.study, protection.ways));
  finding.mend = thicker_text(checked, conductor, *protection.let_through, Bears::device);
  if (devices.size() == 1) {
    if (const auto smaller = smaller_device_text(checked, protection.protected_by[0], may_carry))
      finding.mend = *smaller;
  }
  finding.subjects.insert(finding.subjects.end(), devices.begin(), devices.end());
  return finding;
}

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  for (const ConductorId conductor : checked.plan.conductors.ids()) {
    const ConductorProtection& protection = checked.study.protection.conductors[conductor];
    const ConductorFigures& figures = checked.study.conductors[conductor];
    if (!figures.may_carry) continue;
    const bool exempt = protection.exposure == Exposure::protected_ || protection.exposure == Exposure::tolerated;
    if (exempt || only_by_a_short(checked, conductor)) continue;
    if (protection.exposure == Exposure::too_thin_for_device) {
      findings.push_back(thin_for_device_beyond(checked, conductor, protection, *figures.may_carry));
    } else if (!protection.unbounded && protection.let_through) {
      findings.push_back(too_much_let_through(checked, conductor, protection, *figures.may_carry));
    } else {
      continue;
    }
    findings.back().source = ampacity_source(checked, figures, Bears::device);
  }
  return findings;
}

}  // namespace

constexpr Rule gauge_mismatch = {
    "gauge-mismatch",
    Severity::danger,
    "What the fuses and breakers before a conductor let through, added up over everything that feeds it, is more than "
    "a conductor of its size may carry.",
    "A fuse protects the wire, not the lamp. If the fuse is too big for the wire, a fault or an overload heats the "
    "wire "
    "beyond what its insulation bears while the fuse looks on.",
    "Fit the next smaller fuse that still carries the load, or a thicker conductor. Where several supplies feed one "
    "conductor, it must bear the sum of their fuses.",
    "The rulebook's ampacity table for the size and the insulation, its factors for warmth and for cables run "
    "together, and its allowance for the device's rating over the ampacity.",
    check};

}  // namespace loomleaf
