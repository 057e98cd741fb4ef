#include "larger_device.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "cure.h"
#include "found.h"
#include "loomleaf/study/fuse_curve.h"
#include "loomleaf/units/format.h"

namespace loomleaf {

Surges surges_of(const Checked& checked, ItemId device) {
  const Device* as = checked.plan.items[device].as<Device>();
  const FuseFamily* family = as ? checked.stock.find_family(as->family) : nullptr;
  const bool is_known =
      family && std::ranges::any_of(family->gates, [](const TimeGate& gate) { return gate.no_sooner.has_value(); });
  const std::vector<ItemId>& loads = checked.study.working.surges[device];
  return is_known ? Surges{loads, {}} : Surges{{}, loads};
}

WorkOfDevice work_of(const Checked& checked, BranchId device) {
  const auto& worst = checked.study.working.branches[device];
  const auto& lasting = checked.study.working.continuous[*checked.circuit.branches[device].item];
  return {worst ? abs(worst->value) : Current{}, lasting ? abs(lasting->value) : Current{}};
}

bool opens_in_work(const Checked& checked, BranchId device) {
  const ItemId item = *checked.circuit.branches[device].item;
  const Device* as = checked.plan.items[item].as<Device>();
  if (!as || !as->rating) return false;
  const WorkOfDevice work = work_of(checked, device);
  return exceeds(std::max(work.flows, work.raised).in(amperes), as->rating->in(amperes)) ||
         !surges_of(checked, item).opening.empty();
}

LargerDevices::LargerDevices(const Checked& checked) : checked_(checked), budget_(checked, most_studied_again) {
  for (std::size_t at = 0; at < checked.circuit.loads.size(); ++at) {
    position_of_load_[checked.circuit.loads[at].item] = at;
  }
  for (const BranchId branch : checked.circuit.branches.ids()) {
    const Branch& at = checked.circuit.branches[branch];
    if (at.kind == BranchKind::device) branch_of_.emplace(*at.item, branch);
  }
}

Current LargerDevices::peak_of(ItemId load, Current flows) const {
  const auto& current = checked_.study.working.loads[position_of_load_.at(load)].current;
  const Load& as = *checked_.plan.items[load].as<Load>();
  return current && as.surge ? flows + current->value * (as.surge->times - 1) : flows;
}

Current LargerDevices::highest_peak(ItemId item, Current flows) const {
  Current highest = flows;
  for (const ItemId load : checked_.study.working.surges[item]) highest = std::max(highest, peak_of(load, flows));
  return highest;
}

bool LargerDevices::rides_through_surges(ItemId item, const Device& device, Current rating, Current flows) const {
  const FuseFamily* family = checked_.stock.find_family(device.family);
  if (!family) return true;
  return std::ranges::all_of(checked_.study.working.surges[item], [&](ItemId load) {
    const Duration lasting = checked_.plan.items[load].as<Load>()->surge->lasting;
    return rides_through(*family, rating, peak_of(load, flows), lasting).value_or(true);
  });
}

// The smallest rating sold that does.
std::optional<Current> LargerDevices::rating_that_stays_closed(ItemId item, const Device& device, Current flows,
                                                               Current needed) const {
  for (const Current rating : ratings_like(checked_.stock, device)) {
    if (exceeds(needed.in(amperes), rating.in(amperes))) continue;
    if (rides_through_surges(item, device, rating, flows)) return rating;
  }
  return std::nullopt;
}

namespace {

constexpr std::size_t most_rounds = 3;  // of thicker conductors: what is thicker lets others be found that are too thin

// More can flow in it than it may carry, and more than before.
bool is_newly_too_thin(const Checked& before, const Checked& then, ConductorId conductor) {
  const auto now = too_much_for(then.study.protection.conductors[conductor]);
  const auto earlier = too_much_for(before.study.protection.conductors[conductor]);
  return now && then.study.conductors[conductor].may_carry && (!earlier || *now > *earlier);
}

// By run, the thickest that one of its conductors asks for; nothing where no size would do.
std::optional<std::map<RunId, WireSize>> sizes_asked(const Checked& before, const Checked& then) {
  std::map<RunId, WireSize> sizes;
  for (const ConductorId conductor : then.plan.conductors.ids()) {
    if (!is_newly_too_thin(before, then, conductor)) continue;
    const Current flow = *too_much_for(then.study.protection.conductors[conductor]);
    if (!exceeds(flow.in(amperes), then.study.conductors[conductor].may_carry->in(amperes))) continue;
    const auto size = size_that_bears(then, conductor, flow, Bears::device);
    if (!size) return std::nullopt;
    const auto [known, is_new] = sizes.try_emplace(then.plan.conductors[conductor].run, size->size);
    if (!is_new && nominal_area(size->size) > nominal_area(known->second)) known->second = size->size;
  }
  return sizes;
}

}  // namespace

// Whether the device then stays closed, and nothing grave comes of it.
bool LargerDevices::is_harmless(ItemId item, const Checked& then) {
  if (opens_in_work(then, branch_of_.at(item))) return false;
  if (!grave_) grave_ = grave_findings(checked_);
  return std::ranges::includes(*grave_, grave_findings(then));
}

// "A1 14 AWG" of each run that then has to be thicker; nothing where that does not make it safe.
std::optional<std::vector<std::string>> LargerDevices::thicker_with(ItemId item, Current rating) {
  Trial trial(checked_);
  trial.set_rating(item, rating);
  std::map<RunId, WireSize> thicker;
  for (std::size_t round = 0;; ++round) {
    budget_.spend_one();
    const Checked& then = trial.study();
    const auto sizes = sizes_asked(checked_, then);
    if (!sizes || round == most_rounds) return std::nullopt;
    for (const auto& [run, size] : *sizes) {
      trial.set_size(run, size);
      thicker.insert_or_assign(run, size);
    }
    if (!sizes->empty()) continue;
    if (!is_harmless(item, then)) return std::nullopt;
    break;
  }
  std::vector<std::string> texts;
  for (const auto& [run, size] : thicker)
    texts.push_back(fmt::format("{} {}", checked_.plan.runs[run].id, to_text(size)));
  return texts;
}

std::string LargerDevices::text(ItemId item, Current flows, Current needed) {
  const Device& device = *checked_.plan.items[item].as<Device>();
  const std::string& id = id_of(checked_.plan, item);
  const std::string shared = fmt::format("share the loads of {} among several circuits", id);
  // Behind thicker conductors some loads draw a little more: then the next rating may do.
  for (int attempt = 0; attempt < 2; ++attempt) {
    const auto rating = rating_that_stays_closed(item, device, flows, needed);
    if (!rating) return shared;
    const std::string change = fmt::format("change {} to {}", id, to_text(*rating));
    if (!budget_.has(most_rounds + 1)) return change + ", and check again what then asks for thicker conductors";
    if (const auto thicker = thicker_with(item, *rating))
      return thicker->empty() ? change : fmt::format("{}, and make {} at least", change, all_listed(*thicker));
    needed = *rating * 1.001;
  }
  return shared;
}

}  // namespace loomleaf
