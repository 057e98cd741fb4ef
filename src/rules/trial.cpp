#include "trial.h"

#include <algorithm>

#include "catalogue.h"
#include "larger_device.h"

namespace loomleaf {

Trial::Trial(const Checked& checked)
    : plan_(checked.plan), checked_{plan_, checked.routes, checked.circuit, study_, checked.stock, checked.rulebook} {}

void Trial::set_rating(ItemId device, Current rating) { std::get<Device>(plan_.items[device].data).rating = rating; }

void Trial::set_size(RunId run, const WireSize& size) { plan_.runs[run].size = size; }

const Checked& Trial::study() {
  study_ = run_study(plan_, checked_.routes, checked_.circuit, checked_.stock, checked_.rulebook);
  return checked_;
}

GraveFindings grave_findings(const Checked& checked) {
  GraveFindings grave;
  for (const Rule& rule : all_rules()) {
    if (rule.severity < Severity::warning || rule.name == fuse_too_small.name) continue;  // its mends are trials
    for (const Finding& finding : rule.check(checked))
      if (finding.severity >= Severity::warning) grave.emplace(finding.rule, finding.subjects.front());
  }
  for (const BranchId branch : checked.circuit.branches.ids()) {
    const Branch& at = checked.circuit.branches[branch];
    if (at.kind == BranchKind::device && opens_in_work(checked, branch))
      grave.emplace(fuse_too_small.name, checked.plan.items[*at.item].id);
  }
  return grave;
}

TrialBudget::TrialBudget(const Checked& checked, std::size_t conductors)
    : left_(conductors / std::max<std::size_t>(1, checked.plan.conductors.size() * checked.study.ways.all.size())) {}

}  // namespace loomleaf
