// The installation in one standing of the changeovers as a network of numbers, and back.
#pragma once

#include <optional>
#include <vector>

#include "loomleaf/circuit/circuit.h"
#include "loomleaf/study/branch_resistance.h"
#include "loomleaf/study/network.h"
#include "loomleaf/study/sides.h"
#include "loomleaf/study/supply_state.h"
#include "loomleaf/study/working_point.h"

namespace loomleaf {

// What draws in a case. Loads: the share of each that runs, 0 for off.
struct CaseDemands {
  std::vector<double> load_share;  // by position in circuit.loads
  bool coils = true;
  // Supplies that charge a battery push their limit into it.
  bool sources_charge = false, converters_charge = false;
  std::vector<bool> converter_rests;  // those that do not even so, by position; empty: none
};

class WiredNetwork {
 public:
  WiredNetwork(const Plan& plan, const Circuit& circuit, const Ways& ways, const Sides& sides,
               const BranchResistances& resistances, const std::vector<std::optional<Voltage>>& rated_voltages,
               SupplyLevel level = SupplyLevel::lowest);

  const SupplyState& supplies() const { return state_; }
  // The supply a load hangs on, where it draws at all: live, and the right way round for a polarised load.
  const std::optional<SupplyState::Across>& supply_of_load(std::size_t position) const {
    return load_supply_[position];
  }
  const std::optional<SupplyState::Across>& supply_of_converter(std::size_t position) const {
    return converter_supply_[position];
  }
  bool converter_charges(std::size_t position) const { return converter_push_[position].has_value(); }
  bool any_converter_charges() const;
  bool anything_charges() const;
  // Whether a resistive load or a coil has a higher voltage across it at the supplies' highest level.
  bool draws_more_at(const SupplyState& highest) const;
  bool draws_more_at(const SupplyState& highest, std::size_t load) const;

  NetworkSolution solve(const CaseDemands& demands);
  // Whatever draws takes the current that it asks for at its rated voltage, or its supply's: so there is a solution
  // also where the wires cannot bring the power.
  NetworkSolution solve_asked(const CaseDemands& demands);
  NetworkSolution solve_from(const NetworkSolution& start, const CaseDemands& demands);

  // By the network's laws alone: every current of `at` as it is there, times its factor, whatever the voltage.
  struct CurrentFactors {
    std::vector<double> load;  // by position in circuit.loads
    double charging = 1.0;
  };
  NetworkSolution solve_currents(const NetworkSolution& at, const CurrentFactors& factors);

  Solution to_solution(const NetworkSolution& solved) const;
  // What a branch carries from a to b; not a number where there is no solution.
  double branch_ampere(const NetworkSolution& solved, BranchId branch) const;
  double load_ampere(const NetworkSolution& solved, std::size_t position) const;
  std::size_t island_of(NodeId node) const { return network_.island_of(node.value); }

 private:
  NetworkShape shape_of(const Ways& ways, const BranchResistances& resistances);
  void add_sources(NetworkShape& shape);
  void add_converters(NetworkShape& shape);
  void add_draws(NetworkShape& shape);
  bool is_spoilt(NodeId node) const;
  NetworkDemands demands_of(const CaseDemands& demands) const;
  void refer_voltages(const NetworkSolution& solved, Solution& solution) const;
  std::optional<ItemId> item_at_port(std::size_t port) const;

  const Plan& plan_;
  const Circuit& circuit_;
  const Sides& sides_;
  const std::vector<std::optional<Voltage>>& rated_voltages_;
  SupplyState state_;
  std::vector<std::optional<SupplyState::Across>> load_supply_, converter_supply_;
  // Positions in the network; absent: not in it.
  using Place = std::optional<std::size_t>;
  IndexedList<BranchOf, Place> link_of_;
  IndexedList<BranchOf, bool> conducts_;
  std::vector<Place> source_hold_, source_push_, converter_hold_, converter_push_, converter_input_, load_port_,
      coil_port_;
  std::vector<double> coil_siemens_;  // by position in circuit.coils
  std::vector<std::size_t> converter_of_transfer_;
  std::size_t port_count_ = 0;
  Network network_;
};

}  // namespace loomleaf
