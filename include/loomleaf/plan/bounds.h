// How far a plan may go before it is refused or cannot be read.
#pragma once

#include <string_view>

#include "loomleaf/units/quantity.h"

namespace loomleaf {

// Between any two points of an installation that this program takes on.
inline constexpr Voltage highest_voltage = volts(60);
inline constexpr std::string_view above_highest_voltage =
    "nothing: wiring above 60 V DC is work for a licensed electrician, and this program does not plan it";

inline constexpr int most_poles = 200;  // of a switch or connector
inline constexpr int most_ways = 50;    // of a switch

}  // namespace loomleaf
