#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "catalogue.h"
#include "cure.h"
#include "found.h"
#include "loomleaf/study/fuse_curve.h"
#include "loomleaf/units/format.h"

namespace loomleaf {

namespace {

// What flows while this load starts, on top of all that flows anyway.
Current peak_of(const Checked& checked, std::size_t load, Current flows) {
  const auto& current = checked.study.working.loads[load].current;
  const Load& as = *checked.plan.items[checked.circuit.loads[load].item].as<Load>();
  return current && as.surge ? flows + current->value * (as.surge->times - 1) : flows;
}

Current highest_peak(const Checked& checked, const std::vector<ItemId>& surges, Current flows) {
  Current highest = flows;
  for (std::size_t at = 0; at < checked.circuit.loads.size(); ++at) {
    if (std::ranges::find(surges, checked.circuit.loads[at].item) == surges.end()) continue;
    highest = std::max(highest, peak_of(checked, at, flows));
  }
  return highest;
}

// Whether a rating of this family rides through the surges that the device does not, each on top of all that flows.
bool rides_through_surges(const Checked& checked, ItemId item, const Device& device, Current rating, Current flows) {
  const FuseFamily* family = checked.stock.find_family(device.family);
  const std::vector<ItemId>& surges = checked.study.working.surges[item];
  for (std::size_t at = 0; family && at < checked.circuit.loads.size(); ++at) {
    const ItemId load = checked.circuit.loads[at].item;
    if (std::ranges::find(surges, load) == surges.end()) continue;
    const Duration lasting = checked.plan.items[load].as<Load>()->surge->lasting;
    if (!rides_through(*family, rating, peak_of(checked, at, flows), lasting).value_or(true)) return false;
  }
  return true;
}

// The smallest rating sold that stays closed.
std::optional<Current> rating_that_stays_closed(const Checked& checked, ItemId item, const Device& device,
                                                Current flows, Current needed) {
  for (const Current rating : ratings_like(checked.stock, device)) {
    if (exceeds(needed.in(amperes), rating.in(amperes))) continue;
    if (rides_through_surges(checked, item, device, rating, flows)) return rating;
  }
  return std::nullopt;
}

// What must get thicker where this device is changed for a larger one: "A1 14 AWG". Nothing where no size would do.
std::optional<std::vector<std::string>> thicker_for(const Checked& checked, ItemId item, Current more) {
  std::vector<std::string> thicker;
  for (const ConductorId conductor : checked.plan.conductors.ids()) {
    const ConductorProtection& protection = checked.study.protection.conductors[conductor];
    const ConductorFigures& figures = checked.study.conductors[conductor];
    if (!protection.let_through || !figures.may_carry) continue;
    if (std::ranges::find(protection.protected_by, item) == protection.protected_by.end()) continue;
    const Current then = *protection.let_through + more;
    if (!exceeds(then.in(amperes), figures.may_carry->in(amperes))) continue;
    const auto size = size_that_bears(checked, conductor, then, Bears::device);
    if (!size) return std::nullopt;
    const std::string text = fmt::format("{} {}", run_of(checked.plan, conductor).id, to_text(size->size));
    if (std::ranges::find(thicker, text) == thicker.end()) thicker.push_back(text);
  }
  return thicker;
}

std::string larger_device_text(const Checked& checked, ItemId item, const Device& device, Current flows,
                               Current needed) {
  const std::string& id = id_of(checked.plan, item);
  const std::string shared = fmt::format("share the loads of {} among several circuits", id);
  const auto rating = rating_that_stays_closed(checked, item, device, flows, needed);
  if (!rating) return shared;
  const auto thicker = thicker_for(checked, item, *rating - *device.rating);
  if (!thicker) return shared;
  const std::string change = fmt::format("change {} to {}", id, to_text(*rating));
  return thicker->empty() ? change : fmt::format("{}, and make {} at least", change, listed(*thicker));
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
      const FigureTexts texts = set_values(finding, highest_peak(checked, surges, amperes(flows)), *device->rating);
      finding.message = fmt::format("{} opens on the starting surge of {}, up to {}; it is rated {}", id,
                                    listed(names_of(checked.plan, surges)), texts.is, texts.may_be);
      if (const FuseFamily* family = checked.stock.find_family(device->family))
        finding.source = to_text(family->gates_from);
    } else {
      continue;
    }
    finding.mend = larger_device_text(checked, item, *device, amperes(flows), amperes(std::max(flows, raised)));
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
