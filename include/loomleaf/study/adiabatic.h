// What a conductor bears of a short circuit while no heat leaves it.
#pragma once

#include "loomleaf/units/quantity.h"

namespace loomleaf {

// k of I^2 t = k^2 S^2 for copper, in A s^0.5 / mm2: 226 x sqrt(ln((234.5 + limit) / (234.5 + start))), after IEC 60949
// and IEC 60364-5-54 annex A.
double adiabatic_k(Temperature start, Temperature limit);

// How hot a short circuit may make an insulation: up to 105 C it counts as PVC, 160 C (BS 7671 table 43.1), above as
// cross-linked, 250 C. PVC bears no more than the other at the same rating, so the doubt is on the safe side.
Temperature short_circuit_limit(Temperature insulation);

// The time for which it bears this current, from its rated temperature to the limit of its insulation.
Duration bears_for(Area area, Temperature insulation, Current current);

}  // namespace loomleaf
