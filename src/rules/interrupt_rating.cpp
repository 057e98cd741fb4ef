#include <fmt/format.h>

#include <algorithm>

#include "catalogue.h"
#include "found.h"
#include "highest_voltage.h"
#include "interrupt.h"
#include "loomleaf/units/format.h"
#include "steps.h"

namespace loomleaf {

std::optional<InterruptRating> interrupt_rating_of(const Checked& checked, BranchId branch) {
  const Item& item = checked.plan.items[*checked.circuit.branches[branch].item];
  const Device& device = *item.as<Device>();
  if (device.breaks) return InterruptRating{*device.breaks, fmt::format("the plan's `breaks` of {}", item.id)};
  const FuseFamily* family = checked.stock.find_family(device.family);
  const auto highest = highest_at(checked, branch);
  if (!family || !highest) return std::nullopt;
  const std::optional<Current> breaks = family->breaks_at(highest->voltage);
  if (!breaks) return std::nullopt;
  return InterruptRating{*breaks, to_text(family->breaks_from)};
}

bool is_current_limiting(const Checked& checked, ItemId device) {
  const FuseFamily* family = checked.stock.find_family(checked.plan.items[device].as<Device>()->family);
  return family && family->current_limiting;
}

namespace {

using BranchOfDevices = IndexedList<ItemOf, std::optional<BranchId>>;

BranchOfDevices branches_of_devices(const Checked& checked) {
  BranchOfDevices of(checked.plan.items.size());
  for (const BranchId id : checked.circuit.branches.ids()) {
    const Branch& branch = checked.circuit.branches[id];
    if (branch.kind == BranchKind::device) of[*branch.item] = id;
  }
  return of;
}

// A fuse or breaker in the stock that breaks so much at this voltage, of this kind.
std::string family_that_breaks(const Checked& checked, const Device& device, Current current, Voltage voltage) {
  for (const FuseFamily& family : checked.stock.families) {
    const std::optional<Current> breaks = family.breaks_at(voltage);
    if (family.breaker != device.is_breaker || !breaks || exceeds(current.in(amperes), breaks->in(amperes))) continue;
    const bool is_sold = !device.rating || std::ranges::find(family.ratings, *device.rating) != family.ratings.end();
    if (is_sold) return fmt::format(", such as `{}`, which breaks {}", family.name, to_text(*breaks));
  }
  return "";
}

// The devices before it that can break its current themselves, the nearest first.
std::vector<ItemId> backed_up_by(const Checked& checked, const BranchOfDevices& branch_of,
                                 const ProspectiveShort& prospective) {
  std::vector<ItemId> devices;
  std::ranges::copy_if(prospective.before, std::back_inserter(devices), [&](ItemId before) {
    const auto its = interrupt_rating_of(checked, *branch_of[before]);
    return its && !exceeds(prospective.current.in(amperes), its->breaks.in(amperes));
  });
  return devices;
}

std::optional<ItemId> limiting(const Checked& checked, const std::vector<ItemId>& devices) {
  const auto found = std::ranges::find_if(devices, [&](ItemId id) { return is_current_limiting(checked, id); });
  return found == devices.end() ? std::nullopt : std::optional(*found);
}

std::vector<Finding> check(const Checked& checked) {
  const BranchOfDevices branch_of = branches_of_devices(checked);
  std::vector<Finding> findings;
  for (const ItemId item : checked.plan.items.ids()) {
    const auto& prospective = checked.study.shorts.devices[item];
    if (!prospective || !branch_of[item]) continue;
    const auto rating = interrupt_rating_of(checked, *branch_of[item]);
    if (!rating || !exceeds(prospective->current.in(amperes), rating->breaks.in(amperes))) continue;
    const std::vector<ItemId> back_up = backed_up_by(checked, branch_of, *prospective);
    if (limiting(checked, back_up)) continue;

    Finding finding = found(interrupt_rating, checked.plan, item);
    const std::string id = finding.subjects[0];
    set_values(finding, prospective->current, rating->breaks);
    finding.message = fmt::format("a short circuit right behind {} draws up to {}{}, it can break {}", id,
                                  to_text(prospective->current), in_ways_text(checked.study, prospective->ways),
                                  to_text(rating->breaks));
    if (!back_up.empty()) {
      finding.severity = Severity::caution;
      const std::vector<std::string> names = names_of(checked.plan, {back_up.data(), 1});
      finding.message += fmt::format("; {} before it can break that, but does not limit it", names[0]);
      finding.subjects.push_back(names[0]);
    }
    const Device& device = *checked.plan.items[item].as<Device>();
    finding.mend = fmt::format(
        "fit a {} that breaks {} or more as {}{}; or a current-limiting fuse before it",
        device.is_breaker ? "breaker" : "fuse", to_text(prospective->current), id,
        family_that_breaks(checked, device, prospective->current, highest_at(checked, *branch_of[item])->voltage));
    finding.source = rating->source;
    findings.push_back(std::move(finding));
  }
  return findings;
}

Steps work_out(const Checked& checked, const Subject& subject) {
  const ItemId* item = std::get_if<ItemId>(&subject);
  const auto& prospective = item ? checked.study.shorts.devices[*item] : std::nullopt;
  if (!prospective) return {};
  Steps steps{fmt::format("a short right behind it, with a return of no resistance, draws {}{}",
                          to_text(prospective->current), in_ways_text(checked.study, prospective->ways))};
  const auto rating = interrupt_rating_of(checked, *branches_of_devices(checked)[*item]);
  if (!rating) {
    steps.push_back("what it can break is not known: see not-checked");
    return steps;
  }
  steps.push_back(fmt::format("it can break {} ({})", to_text(rating->breaks), rating->source));
  if (!prospective->before.empty())
    steps.push_back(fmt::format("before it, on every way from the batteries: {}",
                                listed(names_of(checked.plan, prospective->before))));
  if (!exceeds(prospective->current.in(amperes), rating->breaks.in(amperes))) {
    steps.push_back(held_against(prospective->current, rating->breaks));
    return steps;
  }
  const std::string more = fmt::format("{} is more than {}", to_text(prospective->current), to_text(rating->breaks));
  const std::vector<ItemId> back_up = backed_up_by(checked, branches_of_devices(checked), *prospective);
  if (const auto limits = limiting(checked, back_up))
    steps.push_back(
        fmt::format("{}, but {} breaks that and limits it: no finding", more, id_of(checked.plan, *limits)));
  else
    steps.push_back(
        fmt::format("{}{}: a finding", more, back_up.empty() ? "" : ", and what breaks it does not limit it"));
  return steps;
}

}  // namespace

constexpr Rule interrupt_rating = {
    "interrupt-rating",
    Severity::danger,
    "A short circuit right behind a fuse or breaker draws more than it can break. It is a CAUTION where a device "
    "that lies before it on every way from the batteries can break that current, and silent where that one is "
    "current-limiting.",
    "A fuse that is asked to break more than it can does not put the arc out: it bursts, or its holder burns, and "
    "the current flows on. A good battery gives thousands of amperes for as long as that takes.",
    "A fuse that breaks what the battery can give, close to the battery: a current-limiting one there also keeps "
    "all the small fuses behind it safe. Longer or thinner wire to the fuse lowers the current too.",
    "The plan's `breaks` of the device, else what its family breaks at the highest voltage that can stand there.",
    check,
    "A battery counts as its nominal voltage behind V / A of its stated short circuit, or its internal "
    "resistance. The prospective current is that voltage over this resistance and the way out to the device, "
    "the device itself and the way back left out.",
    "12.8 V and 2.5 kA are 5.1 mohm. With 1.5 mohm of cable to the fuse: 12.8 V / 6.6 mohm = 1.9 kA. A blade "
    "fuse breaks 1 kA: a finding.",
    work_out,
    Severity::caution};

}  // namespace loomleaf
