#include "loomleaf/study/network.h"

#include "network_solver.h"

namespace loomleaf {

Network::Network(NetworkShape shape) : solver_(std::make_unique<Solver>(std::move(shape))) {}
Network::~Network() = default;
Network::Network(Network&&) noexcept = default;
Network& Network::operator=(Network&&) noexcept = default;

std::size_t Network::island_of(std::size_t node) const { return solver_->layout().island_at(node); }
std::size_t Network::island_count() const { return solver_->layout().islands; }
std::size_t Network::component_of(std::size_t node) const {
  const NetworkLayout& layout = solver_->layout();
  return layout.component_of_group[layout.held.group_of[node]];
}
std::size_t Network::component_count() const { return solver_->layout().components; }
NetworkSolution Network::solve(const NetworkDemands& demands) { return solver_->solve(demands); }
NetworkSolution Network::solve_from(const NetworkSolution& start, const NetworkDemands& demands) {
  return solver_->solve_from(start, demands);
}
NetworkSolution Network::solve_currents(const NetworkSolution& start, const NetworkDemands& demands) {
  return solver_->solve_currents(start, demands);
}

}  // namespace loomleaf
