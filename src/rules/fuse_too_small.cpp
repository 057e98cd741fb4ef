#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "catalogue.h"
#include "cure.h"
#include "found.h"
#include "loomleaf/units/format.h"

namespace loomleaf {

namespace {

// The next rating that stays closed, and what must get thicker for it.
std::string larger_device_text(const Checked& checked, ItemId item, const Device& device, Current needed) {
  const std::string& id = id_of(checked.plan, item);
  const auto rating = rating_from(ratings_like(checked.stock, device), needed);
  if (!rating)
    return fmt::format("share the loads of {} among several circuits: its kind is not sold for {}", id,
                       to_text(needed));
  std::vector<std::string> thicker;
  for (const ConductorId conductor : checked.plan.conductors.ids()) {
    const ConductorProtection& protection = checked.study.protection.conductors[conductor];
    const ConductorFigures& figures = checked.study.conductors[conductor];
    if (!protection.let_through || !figures.may_carry ||
        std::ranges::find(protection.protected_by, item) == protection.protected_by.end())
      continue;
    const Current then = *protection.let_through + (*rating - *device.rating);
    if (!exceeds(then.in(amperes), figures.may_carry->in(amperes))) continue;
    const auto size = size_that_bears(checked, conductor, then, Bears::device);
    if (!size) return fmt::format("share the loads of {} among several circuits", id);
    const std::string text = fmt::format("{} {}", run_of(checked.plan, conductor).id, to_text(*size));
    if (std::ranges::find(thicker, text) == thicker.end()) thicker.push_back(text);
  }
  const std::string change = fmt::format("change {} to {}", id, to_text(*rating));
  return thicker.empty() ? change : fmt::format("{}, and make {} at least", change, listed(thicker));
}

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  const WorkingPoints& working = checked.study.working;
  for (const BranchId branch : checked.circuit.branches.ids()) {
    const Branch& at = checked.circuit.branches[branch];
    if (at.kind != BranchKind::device) continue;
    const ItemId item = *at.item;
    const Device* device = checked.plan.items[item].as<Device>();
    if (!device || !device->rating) continue;
    const double rating = device->rating->in(amperes);
    const auto& worst = working.branches[branch];
    const auto& lasting = working.continuous[item];
    const double flows = worst ? std::fabs(worst->value.in(amperes)) : 0.0;
    const double raised = lasting ? std::fabs(lasting->value.in(amperes)) : 0.0;
    const std::vector<ItemId>& surges = working.surges[item];

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
    } else if (!surges.empty()) {
      finding.message = fmt::format("{} of {} opens on the starting surge of {}", id, to_text(*device->rating),
                                    listed(names_of(checked.plan, surges)));
      if (const FuseFamily* family = checked.stock.find_family(device->family))
        finding.source = to_text(family->gates_from);
    } else {
      continue;
    }
    const double needed = std::max({flows, raised, surges.empty() ? 0.0 : rating * 1.001});
    finding.mend = larger_device_text(checked, item, *device, amperes(needed));
    for (std::string& load : names_of(checked.plan, surges)) finding.subjects.push_back(std::move(load));
    findings.push_back(std::move(finding));
  }
  return findings;
}

}  // namespace

constexpr Rule fuse_too_small = {
    "fuse-too-small",
    Severity::warning,
    "A fuse or breaker opens in normal work: the working current is above its rating, or is so with what runs for long "
    "counted 1.25 times, or its curve does not ride through a motor's starting surge.",
    "It goes dark at the wrong moment, and the next fuse put in its place is too big for the wire.",
    "The next larger rating, as long as every wire behind it may carry that; else a thicker wire as well, or a second "
    "circuit.",
    "The rating, the rulebook's factor for lasting loads, and the published gates of the fuse's family.",
    check};

}  // namespace loomleaf
