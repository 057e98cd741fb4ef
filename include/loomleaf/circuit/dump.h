// A circuit as text, one line a node and a branch, for tests and for looking at.
#pragma once

#include <string>

#include "loomleaf/circuit/circuit.h"

namespace loomleaf {

std::string node_text(const Plan& plan, const Circuit& circuit, NodeId node);  // "PB = F1.in = F2.in"

// node PB = F1.in / conductor W3: S0.out to PB / device F1: F1.in to F1.out / contact S1 way 1: S1.in to S1.out2
std::string dump(const Plan& plan, const Circuit& circuit);

}  // namespace loomleaf
