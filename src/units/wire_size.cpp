#include "loomleaf/units/wire_size.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <string_view>

#include "loomleaf/units/format.h"

namespace loomleaf {

namespace {

double awg_mm2(int gauge) {
  const double diameter_mm = 0.127 * std::pow(92.0, (36.0 - gauge) / 39.0);
  return std::numbers::pi / 4 * diameter_mm * diameter_mm;
}

struct SaeArea {
  int gauge;
  double circular_mils;
};
// SAE J1127 and J1128, least areas, as a boat-cable maker's catalogue prints them.
constexpr auto sae_areas = std::to_array<SaeArea>({{18, 1537},
                                                   {16, 2336},
                                                   {14, 3702},
                                                   {12, 5833},
                                                   {10, 9343},
                                                   {8, 14810},
                                                   {6, 24538},
                                                   {4, 37360},
                                                   {2, 62450},
                                                   {1, 77790},
                                                   {0, 98980},
                                                   {-1, 125100},
                                                   {-2, 158600},
                                                   {-3, 205500}});

double sae_mm2(int gauge) {
  constexpr double mm2_per_circular_mil = std::numbers::pi / 4 * 0.0254 * 0.0254;
  // A number that the table lacks is not sold: it has an area only so that its nearest neighbour can be named.
  constexpr double least_share_of_awg = 0.89;
  const auto* const found = std::ranges::find(sae_areas, gauge, &SaeArea::gauge);
  return found == sae_areas.end() ? awg_mm2(gauge) * least_share_of_awg : found->circular_mils * mm2_per_circular_mil;
}

}  // namespace

std::string to_text(const WireSize& size) {
  if (size.system == WireSize::System::metric) return to_text(size.area);
  const std::string_view system = size.system == WireSize::System::sae ? "SAE" : "AWG";
  if (size.gauge <= 0) return fmt::format("{}/0 {}", 1 - size.gauge, system);
  return fmt::format("{} {}", size.gauge, system);
}

Area nominal_area(const WireSize& size) {
  switch (size.system) {
    case WireSize::System::awg:
      return square_millimetres(awg_mm2(size.gauge));
    case WireSize::System::metric:
      return size.area;
    case WireSize::System::sae:
      return square_millimetres(sae_mm2(size.gauge));
  }
  return {};
}

}  // namespace loomleaf
