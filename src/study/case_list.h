// Which cases there are in one standing of the changeovers, and what draws in each.
#pragma once

#include <vector>

#include "loomleaf/study/final_circuits.h"
#include "loomleaf/study/working_point.h"
#include "wired_network.h"

namespace loomleaf {

struct CaseSetup {
  Case at;
  std::size_t number = 0;                 // among all cases, of all standings
  const FinalCircuit* circuit = nullptr;  // full: the one that is judged
  std::vector<std::size_t> in_full;       // full: loads on it that otherwise run by a share, by position
  std::optional<std::size_t> alone;       // starter: its position
  std::vector<bool> rests;                // load_charge: converters that do not charge, by position; empty: none
};

// The load case first, then charge (where something charges), load+charge (where a converter does), each circuit in
// full (where a load on it runs by a share, and is supplied), each starter that is supplied.
std::vector<CaseSetup> list_cases(const Plan& plan, const Circuit& circuit, const WiredNetwork& network,
                                  const std::vector<FinalCircuit>& circuits, std::size_t ways,
                                  const std::string& ways_text);

// Those of them that have resistive loads or coils running, once more with the supplies at their highest voltage. None
// where nothing draws more there. The load case is the first again.
std::vector<CaseSetup> list_highest_cases(const std::vector<CaseSetup>& cases, const Circuit& circuit,
                                          const WiredNetwork& network, const SupplyState& highest,
                                          const std::string& ways_text);

// Cases that are solved at once: of those of a kind that have a circuit in full, all that share no island, so that none
// knows of the other; every other case by itself, before them and in the order of the list.
using CaseBatch = std::vector<const CaseSetup*>;
std::vector<CaseBatch> in_batches(const std::vector<CaseSetup>& cases, const Circuit& circuit,
                                  const WiredNetwork& network);
// The islands that a circuit lies in, each once.
std::vector<std::size_t> islands_of(const FinalCircuit& final_circuit, const Circuit& circuit,
                                    const WiredNetwork& network);

// What draws in a batch. `at_use` are the shares of the load case.
std::vector<double> shares_at_use(const Plan& plan, const Circuit& circuit);
CaseDemands demands_in(const CaseBatch& batch, const std::vector<double>& at_use);

}  // namespace loomleaf
