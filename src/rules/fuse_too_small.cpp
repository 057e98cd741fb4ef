#include <fmt/format.h>

#include <algorithm>

#include "catalogue.h"
#include "found.h"
#include "larger_device.h"
#include "loomleaf/units/format.h"
#include "steps.h"

namespace loomleaf {

namespace {

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  const WorkingPoints& working = checked.study.working;
  LargerDevices larger(checked);
  for (const BranchId branch : checked.circuit.branches.ids()) {
    const Branch& at = checked.circuit.branches[branch];
    if (at.kind != BranchKind::device || !opens_in_work(checked, branch)) continue;
    const ItemId item = *at.item;
    const Device* device = checked.plan.items[item].as<Device>();
    const double rating = device->rating->in(amperes);
    const auto& worst = working.branches[branch];
    const auto& lasting = working.continuous[item];
    const double flows = work_of(checked, branch).flows.in(amperes);
    const double raised = work_of(checked, branch).raised.in(amperes);
    const std::vector<ItemId> surges = surges_of(checked, item).opening;

    Finding finding = found(fuse_too_small, checked.plan, item);
    const std::string& id = finding.subjects[0];
    const std::string factor = to_text(checked.rulebook.continuous_factor.value, 2);
    if (exceeds(flows, rating)) {
      const FigureTexts texts = set_values(finding, amperes(flows), *device->rating);
      finding.message = fmt::format("{} carries {} in normal work{}, it is rated {}", id, texts.is,
                                    in_case_text(checked.study, worst->in_case), texts.may_be);
      finding.source = fmt::format("the plan's rating of {}", id);
    } else if (exceeds(raised, rating)) {
      const FigureTexts texts = set_values(finding, amperes(raised), *device->rating);
      finding.message =
          fmt::format("{} opens in lasting work: {} with what runs for long counted {} times{}, it is rated {}", id,
                      texts.is, factor, in_case_text(checked.study, lasting->in_case), texts.may_be);
      finding.source = sources_text({checked.rulebook.continuous_factor.from});
    } else {
      const FigureTexts texts = set_values(finding, larger.highest_peak(item, amperes(flows)), *device->rating);
      finding.message = fmt::format("{} opens on the starting surge of {}, up to {}; it is rated {}", id,
                                    listed(names_of(checked.plan, surges)), texts.is, texts.may_be);
      if (const FuseFamily* family = checked.stock.find_family(device->family))
        finding.source = to_text(family->gates_from);
    }
    finding.mend = larger.text(item, amperes(flows), amperes(std::max(flows, raised)));
    for (std::string& load : names_of(checked.plan, surges)) finding.subjects.push_back(std::move(load));
    findings.push_back(std::move(finding));
  }
  return findings;
}

Steps work_out(const Checked& checked, const Subject& subject) {
  const ItemId* item = std::get_if<ItemId>(&subject);
  Steps steps;
  for (const BranchId id : checked.circuit.branches.ids()) {
    const Branch& branch = checked.circuit.branches[id];
    if (branch.kind != BranchKind::device || !item || branch.item != *item) continue;
    const Device& device = *checked.plan.items[*item].as<Device>();
    const auto& lasting = checked.study.working.continuous[*item];
    if (!device.rating) continue;
    steps = overload_steps(checked, "working current", checked.study.working.branches[id], device.rating);
    const auto& flows = checked.study.working.branches[id];
    if (lasting && exceeds(abs(lasting->value).in(amperes), flows ? abs(flows->value).in(amperes) : 0.0)) {
      const Current raised = abs(lasting->value);
      steps.push_back(fmt::format("with what runs for long counted {} times: {}{}",
                                  to_text(checked.rulebook.continuous_factor.value, 2),
                                  alike(raised, *device.rating).is, case_words(checked, lasting->in_case)));
      steps.push_back(held_against(raised, *device.rating));
    }
    const std::vector<ItemId> surges = surges_of(checked, *item).opening;
    if (!surges.empty())
      steps.push_back(fmt::format("its curve does not ride through the starting surge of {}: a finding",
                                  listed(names_of(checked.plan, surges))));
  }
  return steps;
}

}  // namespace

constexpr Rule fuse_too_small = {
    "fuse-too-small",
    Severity::warning,
    "A fuse or breaker opens in normal work: the working current is above its rating, or is so with what runs for "
    "long counted 1.25 times, or its curve does not ride through a motor's starting surge.",
    "It goes dark at the wrong moment, and the next fuse put in its place is too big for the wire.",
    "The next larger rating, as long as every wire that it then lets more into may carry that, on whichever side of "
    "it; else a thicker wire as well, or a second circuit.",
    "The rating, the rulebook's factor for lasting loads, and the published gates of the fuse's family.",
    check,
    "The working current, and again 1.25 times the part that runs for three hours and more plus the rest, may "
    "not be above the rating. A surge of n times for t seconds is held against the time in which the curve "
    "may open, log-log between its gates; without a curve, one above the rating is `not-checked`.",
    "4 A of lamps all evening and 2 A of a pump now and then: 1.25 x 4 A + 2 A = 7 A, too much for 5 A, not "
    "for 7.5 A.",
    work_out};

}  // namespace loomleaf
