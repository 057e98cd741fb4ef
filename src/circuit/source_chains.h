// How high sources stack up between the points that they join.
#pragma once

#include <cstddef>
#include <vector>

#include "loomleaf/plan/item.h"

namespace loomleaf {

inline constexpr double rounding_V = 1e-9;

// A source or converter output between two parts of the network that conduct within themselves.
struct SourceStep {
  ItemId item;
  std::size_t from = 0, to = 0;  // the parts of its - and +, by any number
  double voltage_V = 0.0;
};

// The sources between two points, in order from the lower one.
struct SourceChain {
  std::vector<SourceStep> steps;
  double voltage_V = 0.0;
};

// For each island (parts that steps join) the chain with the greatest voltage between two of its points.
std::vector<SourceChain> highest_chains(std::vector<SourceStep> steps);

}  // namespace loomleaf
