#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "catalogue.h"
#include "cure.h"
#include "found.h"
#include "fuse_places.h"
#include "loomleaf/units/format.h"
#include "steps.h"

namespace loomleaf {

namespace {

// What each device must let pass in normal work, what lasts counted with its factor.
IndexedList<ItemOf, Current> needed_of_devices(const Checked& checked) {
  IndexedList<ItemOf, Current> needed(checked.plan.items.size());
  for (const BranchId branch : checked.circuit.branches.ids()) {
    const Branch& at = checked.circuit.branches[branch];
    if (at.kind != BranchKind::device) continue;
    const auto& lasting = checked.study.working.continuous[*at.item];
    needed[*at.item] = std::max(amperes(working_amperes(checked, branch)), lasting ? lasting->value : Current{});
  }
  return needed;
}

// A smaller device of the same kind that the conductor bears and that its own work lets stay closed.
std::optional<std::string> smaller_device_text(const Checked& checked, ItemId item, Current needed, Current may_carry) {
  const Device* device = checked.plan.items[item].as<Device>();
  if (!device || !checked.study.working.surges[item].empty()) return std::nullopt;
  const auto rating = rating_up_to(ratings_like(checked.stock, *device), may_carry);
  if (!rating || exceeds(needed.in(amperes), rating->in(amperes))) return std::nullopt;
  return fmt::format("change {} to {}", checked.plan.items[item].id, to_text(*rating));
}

// A fuse of its own where it leaves what feeds it, or a thicker conductor.
std::string fuse_or_thicker_text(const Checked& checked, const FusePlaces& places, ConductorId conductor,
                                 Current current) {
  const std::string thicker = thicker_text(checked, conductor, current, Bears::device);
  const ConductorProtection& protection = checked.study.protection.conductors[conductor];
  const auto fuse = fuse_for(checked, conductor);
  if (!fuse) return thicker;
  if (protection.exposure == Exposure::exposed_return)
    return fmt::format("put a fuse of {} at most before what returns through {}, or {}", to_text(*fuse),
                       id_of(checked.plan, conductor), thicker);
  if (!protection.fed_at || protection.exposure == Exposure::too_thin_for_device) return thicker;
  const auto place = places.of(conductor);
  return place ? fmt::format("put a fuse of {} at most {}, or {}", to_text(*fuse), *place, thicker) : thicker;
}

// How much reaches the conductor, and through which devices.
struct Flow {
  Current current{};
  std::vector<ItemId> devices;
  bool beyond = false;  // the devices lie behind it: it is the unfused piece before them
};

std::optional<Flow> flow_of(const ConductorProtection& protection) {
  const auto current = too_much_for(protection);
  if (!current) return std::nullopt;
  if (protection.exposure == Exposure::too_thin_for_device) return Flow{*current, protection.beyond, true};
  return Flow{*current, protection.protected_by, false};
}

std::string mend_of(const Checked& checked, const FusePlaces& places, ConductorId conductor, const Flow& flow,
                    Current may_carry, const IndexedList<ItemOf, Current>& needed) {
  if (const auto spare = places.spare_text(conductor)) return *spare;
  std::optional<std::string> smaller;
  if (flow.devices.size() == 1 && checked.study.conductors[conductor].ampacity)
    smaller = smaller_device_text(checked, flow.devices.front(), needed[flow.devices.front()], may_carry);
  // A further fuse before the loads would leave a return as bare to a fault before that fuse.
  if (!checked.study.protection.conductors[conductor].by_paired_feed)
    return smaller ? *smaller : fuse_or_thicker_text(checked, places, conductor, flow.current);
  const std::string thicker = thicker_text(checked, conductor, flow.current, Bears::device);
  if (!smaller) return thicker;
  const auto size = size_that_bears(checked, conductor, flow.current, Bears::device);
  const bool fits = size && too_small_for(checked, conductor, size->size).empty();
  return fits ? thicker + ", or " + *smaller : *smaller + ", or " + thicker;
}

Finding finding_of(const Checked& checked, const FusePlaces& places, ConductorId conductor, const Flow& flow,
                   Current may_carry, const IndexedList<ItemOf, Current>& needed) {
  Finding finding = found(gauge_mismatch, checked.plan, conductor);
  const FigureTexts texts = set_values(finding, flow.current, may_carry);
  const std::vector<std::string> devices = names_of(checked.plan, flow.devices);
  const ConductorFigures& figures = checked.study.conductors[conductor];
  const bool several = devices.size() > 1;
  finding.message = fmt::format(
      "{} may carry {}{}, {}{} {} {} through{}{}", finding.subjects[0], may_carry_text(figures, texts.may_be),
      factors_text(figures), devices.empty() ? "what feeds it" : listed(devices), flow.beyond ? " beyond it" : "",
      several ? "let" : "lets", texts.is, several && !flow.beyond ? " together" : "",
      flow.beyond ? "" : in_ways_text(checked.study, checked.study.protection.conductors[conductor].ways));
  finding.mend = mend_of(checked, places, conductor, flow, may_carry, needed);
  finding.source = ampacity_source(figures, Bears::device);
  finding.subjects.insert(finding.subjects.end(), devices.begin(), devices.end());
  return finding;
}

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  const IndexedList<ItemOf, Current> needed = needed_of_devices(checked);
  const FusePlaces places(checked);
  for (const ConductorId conductor : checked.plan.conductors.ids()) {
    const auto& may_carry = checked.study.conductors[conductor].may_carry;
    if (!may_carry || only_by_a_short(checked, conductor)) continue;
    if (const auto flow = flow_of(checked.study.protection.conductors[conductor])) {
      findings.push_back(finding_of(checked, places, conductor, *flow, *may_carry, needed));
    }
  }
  return findings;
}

Steps work_out(const Checked& checked, const Subject& subject) {
  const ConductorId* conductor = std::get_if<ConductorId>(&subject);
  if (!conductor) return {};
  Steps steps = ampacity_steps(checked, *conductor, true);
  const auto& may_carry = checked.study.conductors[*conductor].may_carry;
  const ConductorProtection& protection = checked.study.protection.conductors[*conductor];
  if (steps.empty() || !may_carry) return {};
  const std::vector<std::string> devices = names_of(checked.plan, protection.protected_by);
  if (protection.let_through) {
    steps.push_back(fmt::format("what can flow in through {} = {}", devices.empty() ? "nothing" : listed(devices),
                                to_text(*protection.let_through)));
    if (protection.exposure != Exposure::tolerated) steps.push_back(held_against(*protection.let_through, *may_carry));
  } else {
    steps.push_back("a battery reaches it through no device: that is a matter for unfused-run");
  }
  if (protection.exposure == Exposure::tolerated)
    steps.push_back(
        fmt::format("it may carry {}; the rulebook tolerates it, as a short piece that ends in devices which it may "
                    "carry: no finding",
                    to_text(*may_carry)));
  if (protection.exposure == Exposure::too_thin_for_device && protection.beyond_rating)
    steps.push_back(fmt::format("as a piece before {}: {}", listed(names_of(checked.plan, protection.beyond)),
                                held_against(*protection.beyond_rating, *may_carry)));
  return steps;
}

}  // namespace

constexpr Rule gauge_mismatch = {
    "gauge-mismatch",
    Severity::danger,
    "What the fuses and breakers before a conductor let through, added up over everything that feeds it, is more "
    "than a conductor of its size may carry.",
    "A fuse protects the wire, not the lamp. If the fuse is too big for the wire, a fault or an overload heats "
    "the wire beyond what its insulation bears while the fuse looks on.",
    "Fit the next smaller fuse that still carries the load, or a thicker conductor. Where several supplies feed "
    "one conductor, it must bear the sum of their fuses. A return that all of a feed comes home by must bear what that "
    "feed's fuse does: make it as thick as the feed, or the fuse smaller.",
    "The rulebook's ampacity table for the size and the insulation, its factors for warmth and for cables run "
    "together, and its allowance for the device's rating over the ampacity.",
    check,
    "may carry = ampacity x factor for a warm place x factor for what runs together x the rulebook's "
    "allowance for devices. What the devices before it let through, added up, may not be more. A short piece that "
    "the rulebook tolerates before its devices must bear the largest of them alone, and the link of a series bank the "
    "largest that the bank feeds; what the circuits behind it draw together in normal work is held against its "
    "ampacity by `overloaded-wire`. The rule for taps of NEC 240.21(B)(1) asks for the same two (from memory). A "
    "return must bear what the "
    "loads behind their fuses bring if shorted, added up, and what one fault brings that meets it where all that hangs "
    "on a feed comes home: from the plus bar to the minus bar the main fuse alone stands before it (NEC 552.10(E)(1); "
    "a negative main as thick as the positive: common practice, no source). A size "
    "thinner than all that the rulebook has, or insulation cooler than its tables, is held against the nearest row "
    "that "
    "surely carries no less; what that bears is `not-checked`.",
    "14 AWG that may carry 15 A, in a bundle where 0.7 counts: 15 A x 0.7 = 10.5 A. A fuse of 10 A protects "
    "it, one of 15 A does not.",
    work_out};

}  // namespace loomleaf
