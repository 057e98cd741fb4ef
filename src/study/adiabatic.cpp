#include "loomleaf/study/adiabatic.h"

#include <cmath>
#include <limits>

namespace loomleaf {

double adiabatic_k(Temperature start, Temperature limit) {
  constexpr double to_zero_resistance = 234.5;  // K below 0 C at which copper's resistance would vanish
  return 226.0 *
         std::sqrt(std::log((to_zero_resistance + limit.in(celsius)) / (to_zero_resistance + start.in(celsius))));
}

Temperature short_circuit_limit(Temperature insulation) {
  return insulation > celsius(105) ? celsius(250) : celsius(160);
}

Duration bears_for(Area area, Temperature insulation, Current current) {
  if (current <= Current{}) return seconds(std::numeric_limits<double>::infinity());
  const double k = adiabatic_k(insulation, short_circuit_limit(insulation));
  return seconds(std::pow(k * area.in(square_millimetres) / current.in(amperes), 2.0));
}

}  // namespace loomleaf
