#include "reach.h"

#include <algorithm>
#include <map>
#include <set>

namespace loomleaf {

namespace {

Reach reach_of(const Checked& checked, const ConverterPorts& converter) {
  Reach reach{converter.item};
  for (const Sides& sides : checked.study.sides) {
    const PartId back = sides.part_of[converter.in_minus];
    for (const SupplyId supply : sides.plus_in[sides.part_of[converter.in_plus]]) {
      if (sides.supplies[supply].converter == converter.item) continue;
      reach.has_feed = true;
      if (sides.part_of[sides.supplies[supply].minus] == back) reach.has_return = true;
    }
  }
  return reach;
}

// Converters that are fed by converters alone, in the end by themselves: a + comes to each, but no source stands behind
// it. One that is fed, however far back, by a converter without any feed is told of there.
std::set<ItemId> fed_in_a_ring(const Checked& checked) {
  std::map<ItemId, std::set<ItemId>> feeders;
  std::set<ItemId> accounted;  // a source, or a finding elsewhere, stands behind it
  for (const ConverterPorts& converter : checked.circuit.converters) {
    std::set<ItemId>& its = feeders[converter.item];
    for (const Sides& sides : checked.study.sides)
      for (const SupplyId id : sides.plus_in[sides.part_of[converter.in_plus]]) {
        const std::optional<ItemId>& other = sides.supplies[id].converter;
        if (!other)
          accounted.insert(converter.item);
        else if (other != converter.item)
          its.insert(*other);
      }
    if (its.empty()) accounted.insert(converter.item);
  }
  std::vector<ItemId> open(accounted.begin(), accounted.end());
  std::map<ItemId, std::vector<ItemId>> fed;
  for (const auto& [item, its] : feeders)
    for (const ItemId feeder : its) fed[feeder].push_back(item);
  while (!open.empty()) {
    const std::vector<ItemId> next = fed[open.back()];
    open.pop_back();
    for (const ItemId item : next)
      if (accounted.insert(item).second) open.push_back(item);
  }
  std::set<ItemId> in_a_ring;
  for (const auto& [item, its] : feeders)
    if (accounted.count(item) == 0) in_a_ring.insert(item);
  return in_a_ring;
}

}  // namespace

std::vector<Reach> reach_of_consumers(const Checked& checked) {
  const WorkingPoints& working = checked.study.working;
  const auto is_told = [&](ItemId item) {
    return std::ranges::binary_search(working.reversed, item) || std::ranges::binary_search(working.series_loads, item);
  };
  std::vector<Reach> all;
  for (std::size_t at = 0; at < checked.circuit.loads.size(); ++at) {
    const ItemId item = checked.circuit.loads[at].item;
    const LoadResult& result = working.loads[at];
    if (!is_told(item)) all.push_back({item, result.has_feed, result.has_return});
  }
  const std::set<ItemId> ring = fed_in_a_ring(checked);
  for (const ConverterPorts& converter : checked.circuit.converters) {
    if (is_told(converter.item)) continue;
    all.push_back(reach_of(checked, converter));
    if (ring.count(converter.item) > 0) all.back().has_feed = false;
  }
  return all;
}

}  // namespace loomleaf
