// Which supplies reach a load, through all standings of the changeovers.
#pragma once

#include <optional>
#include <vector>

#include "loomleaf/circuit/circuit.h"
#include "loomleaf/study/sides.h"

namespace loomleaf {

// One load, through all standings.
struct LoadReach {
  bool has_feed = false;    // a supply's + reaches it
  bool has_return = false;  // that supply's - does; without feed: any supply's -
  std::optional<Voltage> rated_voltage;
};
// By position in circuit.loads.
std::vector<LoadReach> reach_loads(const Plan& plan, const Circuit& circuit, const std::vector<Sides>& sides);

// Every polarised item that is wired + to - in some standing, in the plan's order.
std::vector<ItemId> find_reversed(const Plan& plan, const Circuit& circuit, const std::vector<Sides>& sides);

// Loads that bridge a supply only with others in line, through what no supply reaches by itself; in the plan's order.
std::vector<ItemId> find_series_loads(const Circuit& circuit, const std::vector<Sides>& sides);

}  // namespace loomleaf
