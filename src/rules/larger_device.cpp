#include "larger_device.h"

#include <fmt/format.h>

#include <algorithm>

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

LargerDevices::LargerDevices(const Checked& checked) : checked_(checked), protected_by_(checked.plan.items.size()) {
  for (std::size_t at = 0; at < checked.circuit.loads.size(); ++at) {
    position_of_load_[checked.circuit.loads[at].item] = at;
  }
  for (const ConductorId conductor : checked.plan.conductors.ids()) {
    for (const ItemId item : checked.study.protection.conductors[conductor].protected_by) {
      protected_by_[item].push_back(conductor);
    }
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

// "A1 14 AWG" of each conductor that does not bear what more comes through; nothing where no size would do.
std::optional<std::vector<std::string>> LargerDevices::thicker_for(ItemId item, Current more) const {
  std::vector<std::string> thicker;
  for (const ConductorId conductor : protected_by_[item]) {
    const ConductorProtection& protection = checked_.study.protection.conductors[conductor];
    const ConductorFigures& figures = checked_.study.conductors[conductor];
    if (!protection.let_through || !figures.may_carry) continue;
    const Current then = *protection.let_through + more;
    if (!exceeds(then.in(amperes), figures.may_carry->in(amperes))) continue;
    const auto size = size_that_bears(checked_, conductor, then, Bears::device);
    if (!size) return std::nullopt;
    std::string text = fmt::format("{} {}", run_of(checked_.plan, conductor).id, to_text(size->size));
    if (thicker.empty() || thicker.back() != text) thicker.push_back(std::move(text));  // the cores of a cable in a row
  }
  return thicker;
}

std::string LargerDevices::text(ItemId item, Current flows, Current needed) const {
  const Device& device = *checked_.plan.items[item].as<Device>();
  const std::string& id = id_of(checked_.plan, item);
  const std::string shared = fmt::format("share the loads of {} among several circuits", id);
  const auto rating = rating_that_stays_closed(item, device, flows, needed);
  if (!rating) return shared;
  const auto thicker = thicker_for(item, *rating - *device.rating);
  if (!thicker) return shared;
  const std::string change = fmt::format("change {} to {}", id, to_text(*rating));
  return thicker->empty() ? change : fmt::format("{}, and make {} at least", change, listed(*thicker));
}

}  // namespace loomleaf
