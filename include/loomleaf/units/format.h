// Quantities as people read them, for messages, sheets and tables.
#pragma once

#include <string>

#include "loomleaf/units/quantity.h"

namespace loomleaf {

// Rounded for a reader, without trailing zeros and never in exponent form: at most `decimals` places.
std::string to_text(double number, int decimals);

// "12.8 V", "350 mV" below 1 V where that reads better is left to the caller: these print in one fixed unit.
std::string to_text(Voltage u);      // V, two places
std::string to_text(Current i);      // A, two places below 10 A, one above; kA from 1000 A on
std::string to_text(Resistance r);   // mohm below 1 ohm, ohm above
std::string to_text(Power p);        // W, one place
std::string to_text(Length l);       // mm below 1 m, m with two places above
std::string to_text(Area a);         // mm2, three places
std::string to_text(Temperature t);  // C, whole degrees where it is whole
std::string to_text(Duration t);     // s, ms below 1 s
std::string percent_text(double share);  // a share of 1 as per cent: 0.034 is "3.4 %"

// The shortest decimal form that reads back as the same double; "null" is the caller's business for what is not finite.
std::string shortest(double number);

}  // namespace loomleaf
