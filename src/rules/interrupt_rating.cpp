#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "acceptances.h"
#include "back_up.h"
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

// What a device is asked to break beyond its rating, and whether others before it help.
struct TooMuch {
  const ProspectiveShort* prospective = nullptr;
  bool is_backed_up = false;  // by what breaks it without limiting it
};

// The gravest over the standings of the changeovers, then the greatest. Nothing where it can break what it may have to,
// or others limit it.
std::optional<TooMuch> too_much(const std::vector<ProspectiveShort>& greatest_first, BranchId device, Current breaks,
                                BackUp& back_up) {
  std::optional<TooMuch> gravest;
  for (const ProspectiveShort& one : greatest_first) {
    if (!exceeds(one.current.in(amperes), breaks.in(amperes))) break;
    const AskedToBreak asked{device, one.current, breaks, one.ways};
    if (back_up.stands_before(asked, BacksUp::limits)) continue;
    const bool is_backed_up = back_up.stands_before(asked, BacksUp::breaks);
    if (!gravest || (gravest->is_backed_up && !is_backed_up)) gravest = TooMuch{&one, is_backed_up};
  }
  return gravest;
}

// The nearest device on all ways to it that can break its current.
std::optional<ItemId> one_that_breaks(const Checked& checked, const BranchOfDevices& branch_of,
                                      const ProspectiveShort& prospective) {
  const auto found = std::ranges::find_if(prospective.before, [&](ItemId before) {
    const auto its = interrupt_rating_of(checked, *branch_of[before]);
    return its && !exceeds(prospective.current.in(amperes), its->breaks.in(amperes));
  });
  return found == prospective.before.end() ? std::nullopt : std::optional(*found);
}

// In kA where that tells them apart.
FigureTexts told(Current draws, Current breaks) {
  const FigureTexts rounded{to_text(draws), to_text(breaks)};
  return rounded.is == rounded.may_be ? alike(draws, breaks) : rounded;
}

struct Asked {
  ItemId item;
  BranchId branch;
  InterruptRating rating;
  TooMuch too_much;
};

// "fit a fuse that breaks 3 kA or more as F1, such as `class-t`, which breaks 20 kA"
std::string stronger_text(const Checked& checked, const Asked& asked) {
  const ProspectiveShort& prospective = *asked.too_much.prospective;
  const Device& device = *checked.plan.items[asked.item].as<Device>();
  return fmt::format(
      "fit a {} that breaks {} or more as {}{}", device.is_breaker ? "breaker" : "fuse",
      told(prospective.current, asked.rating.breaks).is, id_of(checked.plan, asked.item),
      family_that_breaks(checked, device, prospective.current, highest_at(checked, asked.branch)->voltage));
}

Finding begun(const Checked& checked, const Asked& asked) {
  const ProspectiveShort& prospective = *asked.too_much.prospective;
  Finding finding = found(interrupt_rating, checked.plan, asked.item);
  const std::string& id = finding.subjects[0];
  set_values(finding, prospective.current, asked.rating.breaks);
  const FigureTexts texts = told(prospective.current, asked.rating.breaks);
  finding.message = fmt::format("a short circuit right behind {} draws up to {}{}, it can break {}", id, texts.is,
                                in_ways_text(checked.study, prospective.ways), texts.may_be);
  finding.mend = stronger_text(checked, asked) + "; or a current-limiting fuse before it";
  finding.source = asked.rating.source;
  return finding;
}

// Devices that one and the same before them backs up.
struct BackedUp {
  std::optional<ItemId> by;  // absent: several
  std::vector<Asked> devices;
};

// One cause, one finding: on all of them, with the figures of the one that is asked for the most.
Finding finding_of(const Checked& checked, const BackedUp& group) {
  const auto times_too_much = [](const Asked& asked) {
    return asked.too_much.prospective->current / asked.rating.breaks;
  };
  const double greatest = times_too_much(*std::ranges::max_element(group.devices, {}, times_too_much));
  const Asked& most = *std::ranges::find_if(
      group.devices, [&](const Asked& asked) { return !exceeds(greatest, times_too_much(asked)); });  // first of equals
  Finding finding = begun(checked, most);
  finding.severity = Severity::caution;
  const std::string by = group.by ? id_of(checked.plan, *group.by) : "the devices";
  finding.message += fmt::format("; {} before it can break that, but {} not limit it", by, group.by ? "does" : "do");
  std::vector<ItemId> others;
  for (const Asked& asked : group.devices)
    if (asked.item != most.item) others.push_back(asked.item);
  const std::vector<std::string> names = names_of(checked.plan, others);
  if (!names.empty()) {
    finding.message +=
        fmt::format(". {} can no more break what {} asked for", listed(names), names.size() > 1 ? "they are" : "it is");
    finding.mend = fmt::format("fit a current-limiting fuse before all of them; or {}, and the like for the others",
                               stronger_text(checked, most));
  }
  finding.subjects.insert(finding.subjects.end(), names.begin(), names.end());
  if (group.by) finding.subjects.push_back(by);
  return finding;
}

// What the plan accepts stays a finding of its own, for the reason is given for that device.
bool is_accepted(const Acceptances& acceptances, const std::string& id) {
  return !acceptances.covering(interrupt_rating.name, id).empty();
}

std::vector<Finding> check(const Checked& checked) {
  const BranchOfDevices branch_of = branches_of_devices(checked);
  const Acceptances acceptances(checked.plan);
  BackUp back_up(checked);
  std::vector<Finding> findings;
  std::vector<BackedUp> groups;
  std::map<ItemId, std::size_t> group_of;  // by what backs them up
  for (const ItemId item : checked.plan.items.ids()) {
    const std::vector<ProspectiveShort>& in_ways = checked.study.shorts.devices[item];
    if (in_ways.empty() || !branch_of[item]) continue;
    const auto rating = interrupt_rating_of(checked, *branch_of[item]);
    if (!rating) continue;
    const auto too_much_there = too_much(in_ways, *branch_of[item], rating->breaks, back_up);
    if (!too_much_there) continue;
    const Asked asked{item, *branch_of[item], *rating, *too_much_there};
    if (!too_much_there->is_backed_up) {
      findings.push_back(begun(checked, asked));
      continue;
    }
    const auto by = one_that_breaks(checked, branch_of, *too_much_there->prospective);
    const bool alone = !by || is_accepted(acceptances, id_of(checked.plan, item));
    if (alone) {
      findings.push_back(finding_of(checked, {by, {asked}}));
      continue;
    }
    const auto [known, is_new] = group_of.try_emplace(*by, groups.size());
    if (is_new) groups.push_back({by, {}});
    groups[known->second].devices.push_back(asked);
  }
  for (const BackedUp& group : groups) findings.push_back(finding_of(checked, group));
  return findings;
}

Steps work_out(const Checked& checked, const Subject& subject) {
  const ItemId* item = std::get_if<ItemId>(&subject);
  if (!item || checked.study.shorts.devices[*item].empty()) return {};
  const std::vector<ProspectiveShort>& in_ways = checked.study.shorts.devices[*item];
  const BranchId device = *branches_of_devices(checked)[*item];
  const auto rating = interrupt_rating_of(checked, device);
  BackUp back_up(checked);
  const auto asked = rating ? too_much(in_ways, device, rating->breaks, back_up) : std::nullopt;
  const ProspectiveShort* prospective = asked ? asked->prospective : &in_ways.front();
  Steps steps{fmt::format("a short right behind it, with a return of no resistance, draws {}{}",
                          to_text(prospective->current), in_ways_text(checked.study, prospective->ways))};
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
  const FigureTexts texts = told(prospective->current, rating->breaks);
  const std::string more = fmt::format("{} is more than {}", texts.is, texts.may_be);
  if (!asked)
    steps.push_back(more +
                    ", but on every way from a battery a device that breaks so much limits it, and what comes in "
                    "beside it can be broken: no finding");
  else
    steps.push_back(
        fmt::format("{}{}: a finding", more, asked->is_backed_up ? ", and what breaks it does not limit it" : ""));
  return steps;
}

}  // namespace

constexpr Rule interrupt_rating = {
    "interrupt-rating",
    Severity::danger,
    "A short circuit right behind a fuse or breaker draws more than it can break. It is a CAUTION where a device "
    "before it, on every way from the batteries, can break that current, and silent where those that can are "
    "current-limiting. One for each battery will do. What chargers, converters and the like add on ways without one "
    "must be within what it can break itself.",
    "A fuse that is asked to break more than it can does not put the arc out: it bursts, or its holder burns, and "
    "the current flows on. A good battery gives thousands of amperes for as long as that takes.",
    "A fuse that breaks what the battery can give, close to the battery: a current-limiting one there also keeps "
    "all the small fuses behind it safe. Longer or thinner wire to the fuse lowers the current too. What one device "
    "backs up is told in one finding.",
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
