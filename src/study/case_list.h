// Which cases there are in one standing of the changeovers, and what draws in each.
#pragma once

#include <vector>

#include "loomleaf/study/final_circuits.h"
#include "loomleaf/study/working_point.h"
#include "wired_network.h"

namespace loomleaf {

struct CaseSetup {
  Case at;
  const FinalCircuit* circuit = nullptr;  // full: the one that is judged
  std::vector<std::size_t> in_full;       // full: loads on it that otherwise run by a share, by position
  std::optional<std::size_t> alone;       // starter: its position
};

// The load case first, then charge (where something charges), each circuit in full (where a load on it runs by a share,
// and is supplied), each starter that is supplied.
std::vector<CaseSetup> list_cases(const Plan& plan, const Circuit& circuit, const WiredNetwork& network,
                                  const std::vector<FinalCircuit>& circuits, std::size_t ways,
                                  const std::string& ways_text);

// What draws in a case. `at_use` are the shares of the load case.
std::vector<double> shares_at_use(const Plan& plan, const Circuit& circuit);
CaseDemands demands_in(const CaseSetup& setup, const std::vector<double>& at_use);

}  // namespace loomleaf
