// What only the whole network shows of the bounds that this program keeps.
#pragma once

#include <vector>

#include "loomleaf/circuit/circuit.h"
#include "loomleaf/language/complaint.h"
#include "loomleaf/plan/plan.h"
#include "loomleaf/units/quantity.h"

namespace loomleaf {

inline constexpr Voltage highest_voltage = volts(60);  // between any two points

// Sources and converter outputs that, one behind the other through conductors, devices and contacts, put more than
// 60 V DC between two points: one refusing complaint for each part of the network, at the topmost source. Each source
// counts with its `high` voltage (nominal where none is given), sources side by side with the highest of them. A single
// source above the bound is complained of by `read_document` already and not here.
std::vector<Complaint> check_voltage_limits(const Plan& plan, const Circuit& circuit);

}  // namespace loomleaf
