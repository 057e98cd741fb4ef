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
  std::vector<Reach> all;
  for (std::size_t at = 0; at < checked.circuit.loads.size(); ++at) {
    const LoadResult& result = checked.study.working.loads[at];
    if (!result.reversed) all.push_back({checked.circuit.loads[at].item, result.has_feed, result.has_return});
  }
  const std::vector<ItemId>& reversed = checked.study.working.reversed;
  for (const ConverterPorts& converter : checked.circuit.converters) {
    const bool is_reversed = std::ranges::binary_search(reversed, converter.item);
    if (!is_reversed) all.push_back(reach_of(checked, converter));
  }
  return all;
}

}  // namespace loomleaf
