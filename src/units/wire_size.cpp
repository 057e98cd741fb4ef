#include "loomleaf/units/wire_size.h"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

#include "loomleaf/units/format.h"

namespace loomleaf {

std::string to_text(const WireSize& size) {
  if (size.system == WireSize::System::metric) return to_text(size.area);
  if (size.gauge <= 0) return fmt::format("{}/0 AWG", 1 - size.gauge);
  return fmt::format("{} AWG", size.gauge);
}

Area nominal_area(const WireSize& size) {
  if (size.system == WireSize::System::metric) return size.area;
  const double diameter_mm = 0.127 * std::pow(92.0, (36.0 - size.gauge) / 39.0);
  return square_millimetres(std::numbers::pi / 4 * diameter_mm * diameter_mm);
}

}  // namespace loomleaf
