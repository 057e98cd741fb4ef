#include "network_solver.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace loomleaf {
namespace {

// A voltage has come to rest when a step moves it by less, what a transfer draws when it changes by less than its
// share.
struct Rest {
  double volt, share;
};
constexpr Rest at_rest{1e-9, 1e-10};        // below this the last step of Newton's method is all rounding
constexpr Rest nearly_at_rest{1e-7, 1e-8};  // will do where rounding lets a large network come to no better
constexpr double least_ampere = 1e-2;       // shares of less than this do not count
constexpr int most_steps = 60;
constexpr int most_quick_steps = 12;
constexpr double quick_enough = 0.3;  // each quick step is this much smaller than the last, or Newton takes over
constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();

bool all_true(const std::vector<bool>& values) {
  return std::all_of(values.begin(), values.end(), [](bool yes) { return yes; });
}

}  // namespace

Network::Solver::Solver(NetworkShape shape)
    : shape_(std::move(shape)),
      layout_(lay_out(shape_)),
      matrix_(shape_, layout_),
      tie_currents_(shape_.nodes, layout_.ties, layout_.held) {
  for (const NetworkPort& port : shape_.ports) island_of_port_.push_back(layout_.island_at(port.plus));
  for (const NetworkTransfer& transfer : shape_.transfers) transfer_ports_.push_back(transfer.port);
  std::sort(transfer_ports_.begin(), transfer_ports_.end());
  transfer_ports_.erase(std::unique(transfer_ports_.begin(), transfer_ports_.end()), transfer_ports_.end());
  links_factor_.compute(matrix_.without_ports());
  factor_.analyzePattern(matrix_.without_ports());
  find_start();
}

void Network::Solver::evaluate(State& state, const NetworkDemands& wanted) const {
  state.demands = wanted.ports;
  add_transfers(state, wanted);
  state.node_volt.resize(shape_.nodes);
  for (std::size_t node = 0; node < shape_.nodes; ++node) {
    const std::size_t unknown = layout_.unknown_at(node);
    state.node_volt[node] = layout_.held.offset[node] + (unknown == no_unknown ? 0.0 : state.unknown[at(unknown)]);
  }
  state.leaving.assign(shape_.nodes, 0.0);
  state.link_ampere.assign(shape_.links.size(), 0.0);
  for (const std::size_t i : layout_.resistive_links) {
    const NetworkLink& link = shape_.links[i];
    const double ampere = (state.node_volt[link.a] - state.node_volt[link.b]) / link.ohm;
    state.link_ampere[i] = ampere;
    state.leaving[link.a] += ampere;
    state.leaving[link.b] -= ampere;
  }
  state.port_volt.resize(shape_.ports.size());
  state.port_ampere.resize(shape_.ports.size());
  for (std::size_t i = 0; i < shape_.ports.size(); ++i) {
    state.port_volt[i] = state.node_volt[shape_.ports[i].plus] - state.node_volt[shape_.ports[i].minus];
    draw(state, i);
  }
}

void Network::Solver::add_transfers(State& state, const NetworkDemands& wanted) const {
  for (std::size_t i = 0; i < shape_.transfers.size(); ++i) {
    const NetworkTransfer& transfer = shape_.transfers[i];
    const double delivered = std::max(0.0, state.hold_ampere[transfer.hold]);
    state.demands[transfer.port].watt += wanted.transfers[i].watt_per_ampere * delivered;
    state.demands[transfer.port].ampere += wanted.transfers[i].ampere_per_ampere * delivered;
  }
}

void Network::Solver::draw(State& state, std::size_t port) const {
  const NetworkPort& ends = shape_.ports[port];
  Demand& demand = state.demands[port];
  if (state.off[island_of_port_[port]]) demand = {};
  const double volt = state.port_volt[port];
  double ampere = demand.siemens * volt + demand.ampere;
  if (demand.watt != 0.0) ampere += demand.watt / volt;
  state.port_ampere[port] = ampere;
  state.leaving[ends.plus] += ampere;
  state.leaving[ends.minus] -= ampere;
}

// What the transfers draw, anew; the voltages are as they were.
void Network::Solver::draw_transfers(State& state, const NetworkDemands& wanted) const {
  for (const std::size_t port : transfer_ports_) {
    state.leaving[shape_.ports[port].plus] -= state.port_ampere[port];
    state.leaving[shape_.ports[port].minus] += state.port_ampere[port];
    state.demands[port] = wanted.ports[port];
  }
  add_transfers(state, wanted);
  for (const std::size_t port : transfer_ports_) draw(state, port);
}

double Network::Solver::across(const Eigen::VectorXd& unknowns, const NetworkPort& port) const {
  const auto value = [&](std::size_t node) {
    const std::size_t unknown = layout_.unknown_at(node);
    return unknown == no_unknown ? 0.0 : unknowns[at(unknown)];
  };
  return value(port.plus) - value(port.minus);
}

void Network::Solver::update_holds(State& state) const {
  const std::vector<double> currents = tie_currents_.from_leaving(state.leaving);
  const std::size_t tied = layout_.tied_links.size();
  for (std::size_t i = 0; i < tied; ++i) state.link_ampere[layout_.tied_links[i]] = currents[i];
  for (std::size_t i = 0; i < shape_.holds.size(); ++i) state.hold_ampere[i] = -currents[tied + i];
}

Eigen::VectorXd Network::Solver::excess(const State& state) const {
  Eigen::VectorXd excess = Eigen::VectorXd::Zero(at(layout_.island_of_unknown.size()));
  for (std::size_t node = 0; node < shape_.nodes; ++node) {
    const std::size_t unknown = layout_.unknown_at(node);
    if (unknown != no_unknown) excess[at(unknown)] += state.leaving[node];
  }
  return excess;
}

std::vector<double> Network::Solver::slopes(const State& state) const {
  std::vector<double> siemens;
  siemens.reserve(shape_.ports.size());
  for (std::size_t i = 0; i < shape_.ports.size(); ++i) {
    const Demand& demand = state.demands[i];
    const double volt = state.port_volt[i];
    siemens.push_back(demand.siemens - (demand.watt != 0.0 ? demand.watt / (volt * volt) : 0.0));
  }
  return siemens;
}

void Network::Solver::find_start() {
  start_.unknown = Eigen::VectorXd::Zero(at(layout_.island_of_unknown.size()));
  start_.hold_ampere.assign(shape_.holds.size(), 0.0);
  start_.off = layout_.island_contradicted;
  NetworkDemands nothing;
  nothing.ports.resize(shape_.ports.size());
  nothing.transfers.resize(shape_.transfers.size());
  State state = start_;
  evaluate(state, nothing);
  if (!layout_.island_of_unknown.empty()) start_.unknown -= links_factor_.solve(excess(state));
}

std::vector<double> Network::Solver::step(State& state, const Eigen::VectorXd& change) const {
  std::vector<double> share(layout_.islands, 1.0);
  for (std::size_t i = 0; i < shape_.ports.size(); ++i) {
    if (state.demands[i].watt <= 0.0) continue;
    const double fall = -across(change, shape_.ports[i]);
    double& s = share[island_of_port_[i]];
    while (s * fall > 0.5 * state.port_volt[i] && s > 1e-6) s *= 0.5;
  }
  std::vector<double> greatest(layout_.islands, 0.0);
  for (std::size_t i = 0; i < layout_.island_of_unknown.size(); ++i) {
    const std::size_t island = layout_.island_of_unknown[i];
    state.unknown[at(i)] += share[island] * change[at(i)];
    greatest[island] = std::max(greatest[island], std::fabs(change[at(i)]));
  }
  return greatest;
}

std::vector<bool> Network::Solver::follow_transfers(State& state, const NetworkDemands& wanted,
                                                    double rest_share) const {
  std::vector<bool> rests(layout_.islands, true);
  evaluate(state, wanted);
  if (shape_.transfers.empty()) return rests;
  const std::vector<double> before = state.hold_ampere;
  update_holds(state);
  for (const NetworkTransfer& transfer : shape_.transfers) {
    const double now = state.hold_ampere[transfer.hold], was = before[transfer.hold];
    if (std::fabs(now - was) > rest_share * std::max(std::fabs(now), least_ampere))
      rests[island_of_port_[transfer.port]] = false;
  }
  draw_transfers(state, wanted);
  return rests;
}

std::vector<bool> Network::Solver::newton(State& state, const NetworkDemands& wanted) {
  std::vector<bool> failed(layout_.islands, false);
  const auto give_up = [&](std::size_t island) {
    if (!state.off[island]) failed[island] = state.off[island] = true;
  };
  for (int count = 0; count < most_steps; ++count) {
    const bool is_last = count + 1 == most_steps;
    const Rest& rest = is_last ? nearly_at_rest : at_rest;
    std::vector<bool> rests = follow_transfers(state, wanted, rest.share);
    for (std::size_t i = 0; i < shape_.ports.size(); ++i)
      if (state.demands[i].watt > 0.0 && !(state.port_volt[i] > 0.0)) give_up(island_of_port_[i]);
    factor_.factorize(matrix_.with_ports(slopes(state)));
    const std::vector<bool> past = islands_past_the_limit();
    bool any_past = false;
    for (std::size_t island = 0; island < layout_.islands; ++island)
      if (past[island]) {
        any_past = true;
        give_up(island);
      }
    if (any_past) continue;  // without these islands the matrix is sound again
    has_factor_ = true;
    if (!layout_.island_of_unknown.empty()) {
      const std::vector<double> moved = step(state, -factor_.solve(excess(state)));
      for (std::size_t island = 0; island < layout_.islands; ++island)
        rests[island] = rests[island] && moved[island] < rest.volt;
    }
    if (all_true(rests)) return failed;
    if (is_last)
      for (std::size_t island = 0; island < layout_.islands; ++island)
        if (!rests[island]) give_up(island);
  }
  return failed;
}

// The last factorization still points the right way where little has changed, and costs no new one.
bool Network::Solver::quick(State& state, const NetworkDemands& wanted) {
  if (!has_factor_ || layout_.island_of_unknown.empty()) return false;
  double last = std::numeric_limits<double>::infinity();
  for (int count = 0; count < most_quick_steps; ++count) {
    const bool transfers_rest = all_true(follow_transfers(state, wanted, at_rest.share));
    double moved = 0.0;
    for (const double change : step(state, -factor_.solve(excess(state)))) moved = std::max(moved, change);
    if (!std::isfinite(moved)) return false;
    const double shrunk = moved / last;
    // What is still to come is a geometric row.
    if (transfers_rest && moved < at_rest.volt && moved * std::min(shrunk, 1.0) < 1e-3 * at_rest.volt) return true;
    if (count > 0 && shrunk > quick_enough) return transfers_rest && moved < at_rest.volt;
    last = moved;
  }
  return false;
}

NetworkSolution Network::Solver::solve(const NetworkDemands& demands) {
  State state = start_;
  std::vector<NetworkSolution::Collapse> collapses;
  const std::vector<bool> failed = newton(state, demands);
  for (std::size_t island = 0; island < layout_.islands; ++island) {
    if (!failed[island]) continue;
    const Limit limit = find_limit(island, demands);
    has_factor_ = false;
    if (!limit.solved) {
      collapses.push_back({island, limit.gives_way});
      continue;
    }
    state.off[island] = false;
    for (std::size_t i = 0; i < layout_.island_of_unknown.size(); ++i)
      if (layout_.island_of_unknown[i] == island) state.unknown[at(i)] = limit.solved->unknown[at(i)];
    for (std::size_t i = 0; i < shape_.holds.size(); ++i)
      if (layout_.island_at(shape_.holds[i].plus) == island) state.hold_ampere[i] = limit.solved->hold_ampere[i];
  }
  return finish(state, demands, std::move(collapses));
}

NetworkSolution Network::Solver::solve_from(const NetworkSolution& start, const NetworkDemands& demands) {
  State state = start_;
  for (const NetworkSolution::Collapse& collapse : start.collapses) state.off[collapse.island] = true;
  state.hold_ampere = start.hold_ampere;
  std::vector<double> ground_volt(layout_.patches, 0.0);
  for (std::size_t node = 0; node < shape_.nodes; ++node)
    if (layout_.unknown_at(node) == no_unknown)
      ground_volt[layout_.patch_at(node)] = start.node_volt[node] - layout_.held.offset[node];
  for (std::size_t node = 0; node < shape_.nodes; ++node) {
    const std::size_t unknown = layout_.unknown_at(node);
    if (unknown != no_unknown && !state.off[layout_.island_at(node)])
      state.unknown[at(unknown)] =
          start.node_volt[node] - layout_.held.offset[node] - ground_volt[layout_.patch_at(node)];
  }
  for (std::size_t i = 0; i < shape_.holds.size(); ++i)
    if (state.off[layout_.island_at(shape_.holds[i].plus)]) state.hold_ampere[i] = 0.0;
  if (quick(state, demands)) return finish(state, demands, start.collapses);
  return solve(demands);
}

NetworkSolution Network::Solver::solve_currents(const NetworkSolution& start, const NetworkDemands& demands) {
  State state = start_;
  for (const NetworkSolution::Collapse& collapse : start.collapses) state.off[collapse.island] = true;
  for (int count = 0; count < most_steps; ++count) {
    const bool transfers_rest = all_true(follow_transfers(state, demands, at_rest.share));
    double moved = 0.0;
    if (!layout_.island_of_unknown.empty()) {
      const Eigen::VectorXd change = links_factor_.solve(excess(state));
      state.unknown -= change;
      moved = change.lpNorm<Eigen::Infinity>();
    }
    if (transfers_rest && moved < at_rest.volt) break;
  }
  return finish(state, demands, start.collapses);
}

// A patch next to one without solution keeps its own ground.
void Network::Solver::set_patches_side_by_side(std::vector<double>& node_volt) const {
  if (layout_.steps.empty()) return;
  std::vector<double> shift(layout_.patches, 0.0);
  for (const PatchStep& step : layout_.steps) {
    const double moved = node_volt[step.from] + shift[layout_.patch_at(step.from)] - node_volt[step.to];
    if (std::isfinite(moved)) shift[layout_.patch_at(step.to)] = moved;
  }
  for (std::size_t node = 0; node < node_volt.size(); ++node) node_volt[node] += shift[layout_.patch_at(node)];
}

NetworkSolution Network::Solver::finish(State& state, const NetworkDemands& wanted,
                                        std::vector<NetworkSolution::Collapse> collapses) {
  evaluate(state, wanted);
  update_holds(state);
  NetworkSolution solution{std::move(state.node_volt), std::move(state.link_ampere), std::move(state.port_ampere),
                           state.hold_ampere, std::move(collapses)};
  const auto blank = [&](std::vector<double>& values, auto island_of) {
    for (std::size_t i = 0; i < values.size(); ++i)
      if (state.off[island_of(i)]) values[i] = not_a_number;
  };
  blank(solution.node_volt, [&](std::size_t i) { return layout_.island_at(i); });
  set_patches_side_by_side(solution.node_volt);
  blank(solution.link_ampere, [&](std::size_t i) { return layout_.island_at(shape_.links[i].a); });
  blank(solution.port_ampere, [&](std::size_t i) { return island_of_port_[i]; });
  blank(solution.hold_ampere, [&](std::size_t i) { return layout_.island_at(shape_.holds[i].plus); });
  return solution;
}

}  // namespace loomleaf
