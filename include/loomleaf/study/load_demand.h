// What a load asks for.
#pragma once

#include <optional>

#include "loomleaf/plan/plan.h"
#include "loomleaf/study/network.h"
#include "loomleaf/study/sides.h"

namespace loomleaf {

// The voltage a load is rated at: its own; else its converter's output, where nothing but converters supplies it; else
// the system's, where that is a single one; else its supply's. `across` are the supplies that it hangs on.
std::optional<Voltage> rated_voltage(const Plan& plan, const Load& load, const Sides& sides,
                                     const std::vector<SupplyId>& across);

// What it takes in at its rated voltage: its W, or its A times that voltage, over its efficiency.
Power input_power(const Load& load, Voltage rated);

// The law it draws by when this share of it runs.
Demand demand_of(const Load& load, Voltage rated, double share);

}  // namespace loomleaf
