#include "ways_home.h"

#include <algorithm>

namespace loomleaf {
namespace {

constexpr std::size_t kMostSupplyCorners = 64;
constexpr std::size_t kLongestRing =
    64;  // corners; of a longer one either way round counts, which makes many ask the same

}  // namespace

WaysHomeFinder::WaysHomeFinder(const Circuit& circuit, const FaultNetwork& network, const BlockTree& blocks)
    : circuit_(circuit), network_(network), blocks_(blocks) {
  for (std::size_t supply = 0; supply < network.supply_count(); ++supply)
    supply_places_.push_back(blocks.places()[network.supply_minus(supply)]);
  std::sort(supply_places_.begin(), supply_places_.end());
}

std::optional<std::vector<WayHome>> WaysHomeFinder::find(BranchId branch, NodeId end) {
  const auto block = blocks_.block_of(branch);
  if (!block || network_.parts().side_of_bundle(branch)) return std::nullopt;
  const std::vector<std::size_t>& supplies = supply_corners(*block);
  if (supplies.size() > kMostSupplyCorners) return std::nullopt;
  const Branch& at = circuit_.branches[branch];
  const std::size_t from = blocks_.corner_of(*block, end), to = blocks_.corner_of(*block, at.a == end ? at.b : at.a);
  std::vector<WayHome> ways;
  for (const std::size_t supply : supplies) ways.push_back(way(*block, from, to, supply));
  return ways;
}

// Round a plain ring the way to the supply leads from this end away from the other one, so that only those between
// have their current pass: from -> to.
WayHome WaysHomeFinder::way(std::size_t block, std::size_t from, std::size_t to, std::size_t supply) const {
  const WalkRange at = blocks_.hanging_at(block, supply, supply);
  const std::size_t corners = blocks_.corner_count(block);
  if (!blocks_.is_plain_ring(block) || corners > kLongestRing)
    return {at, blocks_.hanging_elsewhere(block, supply, supply)};
  if (supply == from) return {at, {}};
  const bool is_rising = to + 1 == from || (from == 0 && to == corners - 1);  // on from this end, away from the other
  if (is_rising) {
    if (supply == 0) return {at, blocks_.hanging_at(block, from, corners - 1)};
    return {at, supply > from ? blocks_.hanging_at(block, from, supply - 1)
                              : blocks_.hanging_elsewhere(block, supply, from - 1)};
  }
  return {at, supply < from ? blocks_.hanging_at(block, supply + 1, from)
                            : blocks_.hanging_elsewhere(block, from + 1, supply)};
}

const std::vector<std::size_t>& WaysHomeFinder::supply_corners(std::size_t block) {
  const auto [place, is_new] = supply_corners_.try_emplace(block);
  if (!is_new) return place->second;
  for (std::size_t corner = 0; corner < blocks_.corner_count(block); ++corner)
    if (has_supply(blocks_.hanging_at(block, corner, corner))) place->second.push_back(corner);
  return place->second;
}

bool WaysHomeFinder::has_supply(const WalkRange& range) const {
  const auto has = [this](std::size_t first, std::size_t last) {
    const auto place = std::ranges::lower_bound(supply_places_, first);
    return place != supply_places_.end() && *place < last;
  };
  const auto& [within, out_of] = range;
  return out_of.empty() ? has(within.first, within.last)
                        : has(within.first, out_of.first) || has(out_of.last, within.last);
}

}  // namespace loomleaf
