#include "reach.h"

#include <algorithm>

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
  for (const ConverterPorts& converter : checked.circuit.converters) {
    if (!is_told(converter.item)) all.push_back(reach_of(checked, converter));
  }
  return all;
}

}  // namespace loomleaf
