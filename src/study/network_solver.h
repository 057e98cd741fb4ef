// Newton's method on a network. The diagonal of the factored matrix is the alarm: while it is positive the solution is
// the upper, stable one; a load whose line can bring no more turns it negative.
#pragma once

#include "network_matrix.h"

namespace loomleaf {

inline Eigen::Index at(std::size_t i) { return static_cast<Eigen::Index>(i); }  // Eigen's indices are signed

class Network::Solver {
 public:
  explicit Solver(NetworkShape shape);

  const NetworkLayout& layout() const { return layout_; }
  NetworkSolution solve(const NetworkDemands& demands);
  NetworkSolution solve_from(const NetworkSolution& start, const NetworkDemands& demands);
  NetworkSolution solve_currents(const NetworkSolution& start, const NetworkDemands& demands);

 private:
  using Factor = Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>>;

  // Where the iteration stands: the unknowns, what the holds deliver, and all that follows from them.
  struct State {
    Eigen::VectorXd unknown;
    std::vector<double> hold_ampere;
    std::vector<bool> off;        // by island: nothing is drawn there, for want of a solution
    std::vector<Demand> demands;  // by port, transfers and `off` taken in
    std::vector<double> node_volt, port_volt, link_ampere, port_ampere, leaving;
  };

  void find_start();
  void evaluate(State& state, const NetworkDemands& wanted) const;
  void add_transfers(State& state, const NetworkDemands& wanted) const;
  void draw(State& state, std::size_t port) const;
  void draw_transfers(State& state, const NetworkDemands& wanted) const;
  double across(const Eigen::VectorXd& unknowns, const NetworkPort& port) const;
  void update_holds(State& state) const;
  Eigen::VectorXd excess(const State& state) const;  // current leaving each unknown, which must come to nothing
  std::vector<double> slopes(const State& state) const;
  std::vector<bool> islands_past_the_limit() const;
  // One step, halved where a load would lose more than half its voltage; returns the greatest change by island.
  std::vector<double> step(State& state, const Eigen::VectorXd& change) const;

  // Leaves the islands without solution `off` and says which they are.
  std::vector<bool> newton(State& state, const NetworkDemands& wanted);
  bool quick(State& state, const NetworkDemands& wanted);
  // Evaluates with the transfers brought up to date; whether each island's have come to rest.
  std::vector<bool> follow_transfers(State& state, const NetworkDemands& wanted, double rest_share) const;
  // Raises all demands of one island together, to find the greatest share of them that has a solution. At that share
  // the load whose voltage falls fastest is the one that gives way; unless all of them have a solution after all.
  struct Limit {
    std::optional<State> solved;
    std::optional<std::size_t> gives_way;
  };
  Limit find_limit(std::size_t island, const NetworkDemands& wanted);
  std::optional<std::size_t> falling_fastest(std::size_t island, State& state, const NetworkDemands& demands);
  void set_patches_side_by_side(std::vector<double>& node_volt) const;
  NetworkSolution finish(State& state, const NetworkDemands& wanted, std::vector<NetworkSolution::Collapse> collapses);

  NetworkShape shape_;
  NetworkLayout layout_;
  ConductanceMatrix matrix_;
  TieCurrents tie_currents_;
  std::vector<std::size_t> island_of_port_, transfer_ports_;
  Factor links_factor_, factor_;
  State start_;  // nothing is drawn
  bool has_factor_ = false;
};

}  // namespace loomleaf
