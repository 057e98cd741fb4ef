#include "loomleaf/takeoff/legends.h"

#include <algorithm>

#include "loomleaf/units/format.h"

namespace loomleaf {
namespace {

std::string rating_text(const Item& item) {
  std::optional<Current> rating;
  if (const auto* found = item.as<Switch>()) rating = found->rating;
  if (const auto* found = item.as<Device>()) rating = found->rating;
  if (const auto* found = item.as<Dimmer>()) rating = found->rating;
  return rating ? to_text(*rating) : std::string();
}

bool is_handled(const Item& item) {
  const Device* device = item.as<Device>();
  return item.is<Switch>() || item.is<Dimmer>() || item.is<Connector>() || (device && device->is_breaker);
}

}  // namespace

std::vector<Legend> list_legends(const Plan& plan) {
  std::vector<ItemId> items;
  for (const ItemId id : plan.items.ids())
    if (is_handled(plan.items[id])) items.push_back(id);
  const auto place_of = [&](ItemId id) {
    const auto& standing = plan.items[id].standing;
    return standing ? standing->place : plan.places.end_id();
  };
  std::stable_sort(items.begin(), items.end(), [&](ItemId a, ItemId b) { return place_of(a) < place_of(b); });
  std::vector<Legend> legends;
  for (const ItemId id : items) {
    const Item& item = plan.items[id];
    legends.push_back({item.id, item.description, rating_text(item),
                       item.standing ? plan.places[item.standing->place].id : std::string()});
  }
  return legends;
}

}  // namespace loomleaf
