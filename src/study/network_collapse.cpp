// Where a line can bring no more: which islands have come to that, and which of their loads gives way.
#include <limits>

#include "network_solver.h"

namespace loomleaf {
namespace {

constexpr int halvings = 26;  // of the search for the greatest share of its demand that an island bears

NetworkDemands scaled(const NetworkDemands& demands, double share) {
  NetworkDemands less = demands;
  for (Demand& demand : less.ports) {
    demand.watt *= share;
    demand.siemens *= share;
    if (demand.ampere > 0.0) demand.ampere *= share;
  }
  return less;
}

}  // namespace

std::vector<bool> Network::Solver::islands_past_the_limit() const {
  std::vector<bool> past(layout_.islands, false);
  const auto& place_of = factor_.permutationP().indices();
  const auto diagonal = factor_.vectorD();
  // A factorization that met a zero has no values behind it.
  Eigen::Index good = diagonal.size();
  if (factor_.info() != Eigen::Success)
    for (good = 0; good < diagonal.size() && diagonal[good] != 0.0;) ++good;
  for (std::size_t i = 0; i < layout_.island_of_unknown.size(); ++i) {
    const Eigen::Index place = place_of.size() == 0 ? at(i) : Eigen::Index{place_of[at(i)]};
    if (place <= good && place < diagonal.size() && !(diagonal[place] > 0.0)) past[layout_.island_of_unknown[i]] = true;
  }
  return past;
}

Network::Solver::Limit Network::Solver::find_limit(std::size_t island, const NetworkDemands& wanted) {
  State good = start_;
  for (std::size_t other = 0; other < layout_.islands; ++other)
    if (other != island) good.off[other] = true;
  const auto bears = [&](double share) {
    State trial = good;
    if (newton(trial, scaled(wanted, share))[island]) return false;
    good = std::move(trial);
    return true;
  };
  double low = 0.0, high = 1.0;
  for (int i = 0; i < halvings; ++i) {
    const double middle = 0.5 * (low + high);
    (bears(middle) ? low : high) = middle;
  }
  if (high == 1.0 && bears(1.0)) return {std::move(good), std::nullopt};
  return {std::nullopt, falling_fastest(island, good, scaled(wanted, low))};
}

std::optional<std::size_t> Network::Solver::falling_fastest(std::size_t island, State& state,
                                                            const NetworkDemands& demands) {
  evaluate(state, demands);
  factor_.factorize(matrix_.with_ports(slopes(state)));
  // What a little more of everything would do.
  state.leaving.assign(shape_.nodes, 0.0);
  for (std::size_t i = 0; i < shape_.ports.size(); ++i) {
    state.leaving[shape_.ports[i].plus] += state.port_ampere[i];
    state.leaving[shape_.ports[i].minus] -= state.port_ampere[i];
  }
  Eigen::VectorXd change = Eigen::VectorXd::Zero(state.unknown.size());
  if (change.size() > 0) change = -factor_.solve(excess(state));
  std::optional<std::size_t> first;
  double fastest = -std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < shape_.ports.size(); ++i) {
    if (island_of_port_[i] != island || state.demands[i].watt <= 0.0) continue;
    const double fall = -across(change, shape_.ports[i]) / state.port_volt[i];
    if (fall <= fastest) continue;
    fastest = fall;
    first = i;
  }
  return first;
}

}  // namespace loomleaf
