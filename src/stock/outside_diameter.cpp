#include "loomleaf/stock/outside_diameter.h"

#include <algorithm>
#include <cmath>

namespace loomleaf {
namespace {

constexpr double kFlatGirth = 0.83;

// Diameter of a round bundle of n like strands over that of two side by side: circles packed in a circle.
double over_two(std::size_t cores) {
  constexpr double packed[] = {1.0, 2.0, 2.155, 2.414, 2.701, 3.0, 3.0};
  const std::size_t n = std::max<std::size_t>(1, cores);
  return (n <= 7 ? packed[n - 1] : std::sqrt(static_cast<double>(n) / 0.75)) / 2.0;
}

}  // namespace

Outside outside_of_wire(const WireStock& wire) { return {wire.single_od, wire.single_od}; }

std::optional<Outside> outside_of_cable(const WireStock& wire, std::size_t cores) {
  if (wire.two_core_od <= Length{}) return std::nullopt;
  const Length widest = wire.two_core_od * over_two(cores);
  return Outside{widest, cores == 2 ? widest * kFlatGirth : widest};
}

}  // namespace loomleaf
