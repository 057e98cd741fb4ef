#include "wired_network.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "loomleaf/study/load_demand.h"
#include "loomleaf/study/polarity.h"

namespace loomleaf {
namespace {

constexpr double usual_converter_efficiency = 0.85;  // common practice, where none is given
constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();

double input_watt_per_output_ampere(const Converter& converter, Voltage output) {
  return output.in(volts) / converter.efficiency.value_or(usual_converter_efficiency);
}

// A coil takes its W at the voltage of its supply.
double coil_siemens(const Relay& relay, Voltage supply) {
  if (relay.coil_resistance) return 1.0 / relay.coil_resistance->in(ohms);
  if (relay.coil_power) return relay.coil_power->in(watts) / (supply.in(volts)*supply.in(volts));
  return 0.0;
}

}  // namespace

WiredNetwork::WiredNetwork(const Plan& plan, const Circuit& circuit, const Ways& ways, const Sides& sides,
                           const BranchResistances& resistances,
                           const std::vector<std::optional<Voltage>>& rated_voltages, SupplyLevel level)
    : plan_(plan),
      circuit_(circuit),
      sides_(sides),
      rated_voltages_(rated_voltages),
      state_(plan, circuit, sides, level),
      load_supply_(circuit.loads.size()),
      converter_supply_(circuit.converters.size()),
      link_of_(circuit.branches.size()),
      conducts_(circuit.branches.size()),
      source_hold_(circuit.sources.size()),
      source_push_(circuit.sources.size()),
      converter_hold_(circuit.converters.size()),
      converter_push_(circuit.converters.size()),
      converter_input_(circuit.converters.size()),
      load_port_(circuit.loads.size()),
      coil_port_(circuit.coils.size()),
      coil_siemens_(circuit.coils.size()),
      network_(shape_of(ways, resistances)) {}

bool WiredNetwork::is_spoilt(NodeId node) const {
  return sides_.island_has_no_working_point[static_cast<std::size_t>(sides_.island_of[node])];
}

NetworkShape WiredNetwork::shape_of(const Ways& ways, const BranchResistances& resistances) {
  NetworkShape shape;
  shape.nodes = circuit_.nodes.size();
  for (const BranchId id : circuit_.branches.ids()) {
    const Branch& branch = circuit_.branches[id];
    conducts_[id] = conducts(circuit_, id, ways);
    if (!conducts_[id] || is_spoilt(branch.a)) continue;
    link_of_[id] = shape.links.size();
    shape.links.push_back({branch.a.value, branch.b.value, resistances.value[id].in(ohms)});
  }
  add_sources(shape);
  add_converters(shape);
  add_draws(shape);
  port_count_ = shape.ports.size();
  return shape;
}

void WiredNetwork::add_sources(NetworkShape& shape) {
  for (std::size_t i = 0; i < circuit_.sources.size(); ++i) {
    const TwoPole& source = circuit_.sources[i];
    if (is_spoilt(source.plus)) continue;
    if (state_.source(i).role == SupplyRole::holds) {
      source_hold_[i] = shape.holds.size();
      shape.holds.push_back({source.plus.value, source.minus.value, state_.source(i).volt.in(volts)});
    } else {
      source_push_[i] = shape.ports.size();
      shape.ports.push_back({source.plus.value, source.minus.value});
    }
  }
}

void WiredNetwork::add_converters(NetworkShape& shape) {
  for (std::size_t i = 0; i < circuit_.converters.size(); ++i) {
    const ConverterPorts& ports = circuit_.converters[i];
    const SupplyWork& work = state_.converter(i);
    converter_supply_[i] = state_.across(ports.in_plus, ports.in_minus);
    if (work.role == SupplyRole::dead || is_spoilt(ports.out_plus)) continue;
    converter_input_[i] = shape.ports.size();
    shape.ports.push_back({ports.in_plus.value, ports.in_minus.value});
    if (work.role == SupplyRole::holds) {
      converter_hold_[i] = shape.holds.size();
      shape.transfers.push_back({shape.holds.size(), *converter_input_[i]});
      shape.holds.push_back({ports.out_plus.value, ports.out_minus.value, work.volt.in(volts)});
      converter_of_transfer_.push_back(i);
    } else {
      converter_push_[i] = shape.ports.size();
      shape.ports.push_back({ports.out_plus.value, ports.out_minus.value});
    }
  }
}

void WiredNetwork::add_draws(NetworkShape& shape) {
  for (std::size_t i = 0; i < circuit_.loads.size(); ++i) {
    const TwoPole& load = circuit_.loads[i];
    NodeId plus = load.plus, minus = load.minus;
    load_supply_[i] = state_.across(plus, minus);
    if (!load_supply_[i] && !is_polarised(plan_.items[load.item])) {
      load_supply_[i] = state_.across(minus, plus);
      std::swap(plus, minus);
    }
    if (!load_supply_[i] || is_spoilt(plus)) continue;
    load_port_[i] = shape.ports.size();
    shape.ports.push_back({plus.value, minus.value});
  }
  for (std::size_t i = 0; i < circuit_.coils.size(); ++i) {
    const TwoPole& coil = circuit_.coils[i];
    auto supply = state_.across(coil.plus, coil.minus);
    if (!supply) supply = state_.across(coil.minus, coil.plus);
    if (!supply || is_spoilt(coil.plus)) continue;
    coil_siemens_[i] = coil_siemens(*plan_.items[coil.item].as<Relay>(), supply->lowest);
    coil_port_[i] = shape.ports.size();
    shape.ports.push_back({coil.plus.value, coil.minus.value});
  }
}

bool WiredNetwork::any_converter_charges() const {
  return std::ranges::any_of(converter_push_, [](const Place& place) { return place.has_value(); });
}

bool WiredNetwork::anything_charges() const {
  return any_converter_charges() ||
         std::ranges::any_of(source_push_, [](const Place& place) { return place.has_value(); });
}

bool WiredNetwork::draws_more_at(const SupplyState& highest, std::size_t load) const {
  const TwoPole& ends = circuit_.loads[load];
  if (!load_port_[load] || plan_.items[ends.item].as<Load>()->kind != Load::Kind::resistive) return false;
  return highest.volt_between(ends) > load_supply_[load]->volt;
}

bool WiredNetwork::draws_more_at(const SupplyState& highest) const {
  for (std::size_t i = 0; i < circuit_.loads.size(); ++i)
    if (draws_more_at(highest, i)) return true;
  for (std::size_t i = 0; i < circuit_.coils.size(); ++i)
    if (coil_port_[i] && highest.volt_between(circuit_.coils[i]) > state_.volt_between(circuit_.coils[i])) return true;
  return false;
}

NetworkDemands WiredNetwork::demands_of(const CaseDemands& wanted) const {
  NetworkDemands demands;
  demands.ports.resize(port_count_);
  for (std::size_t i = 0; i < circuit_.loads.size(); ++i)
    if (load_port_[i] && rated_voltages_[i] && wanted.load_share[i] > 0.0)
      demands.ports[*load_port_[i]] =
          demand_of(*plan_.items[circuit_.loads[i].item].as<Load>(), *rated_voltages_[i], wanted.load_share[i]);
  for (std::size_t i = 0; i < circuit_.coils.size(); ++i)
    if (coil_port_[i] && wanted.coils) demands.ports[*coil_port_[i]].siemens = coil_siemens_[i];
  for (std::size_t i = 0; i < circuit_.sources.size(); ++i)
    if (source_push_[i] && wanted.sources_charge)
      demands.ports[*source_push_[i]].ampere = -state_.source(i).limit.in(amperes);
  for (std::size_t i = 0; i < circuit_.converters.size(); ++i) {
    const bool rests = i < wanted.converter_rests.size() && wanted.converter_rests[i];
    if (!converter_push_[i] || !wanted.converters_charge || rests) continue;
    const double pushed = state_.converter(i).limit.in(amperes);
    const Converter& converter = *plan_.items[circuit_.converters[i].item].as<Converter>();
    demands.ports[*converter_push_[i]].ampere = -pushed;
    demands.ports[*converter_input_[i]].watt = input_watt_per_output_ampere(converter, converter.out_voltage) * pushed;
  }
  for (const std::size_t i : converter_of_transfer_) {
    const Converter& converter = *plan_.items[circuit_.converters[i].item].as<Converter>();
    demands.transfers.push_back({input_watt_per_output_ampere(converter, state_.converter(i).volt), 0.0});
  }
  return demands;
}

NetworkSolution WiredNetwork::solve(const CaseDemands& demands) { return network_.solve(demands_of(demands)); }

NetworkSolution WiredNetwork::solve_asked(const CaseDemands& wanted) {
  NetworkDemands demands = demands_of(wanted);
  const auto at_voltage = [&](const Place& port, Voltage voltage) {
    if (!port) return;
    const Demand asked = demands.ports[*port];
    const double volt = voltage.in(volts);
    demands.ports[*port] = {0.0, 0.0, asked.watt / volt + asked.siemens * volt + asked.ampere};
  };
  for (std::size_t i = 0; i < circuit_.loads.size(); ++i)
    if (rated_voltages_[i]) at_voltage(load_port_[i], *rated_voltages_[i]);
  for (std::size_t i = 0; i < circuit_.coils.size(); ++i)
    if (const auto supply = state_.across(circuit_.coils[i].plus, circuit_.coils[i].minus))
      at_voltage(coil_port_[i], supply->volt);
  for (std::size_t i = 0; i < circuit_.converters.size(); ++i)
    if (converter_supply_[i]) at_voltage(converter_input_[i], converter_supply_[i]->volt);
  for (std::size_t t = 0; t < demands.transfers.size(); ++t) {
    TransferGain& gain = demands.transfers[t];
    if (const auto& supply = converter_supply_[converter_of_transfer_[t]])
      gain = {0.0, gain.ampere_per_ampere + gain.watt_per_ampere / supply->volt.in(volts)};
  }
  return network_.solve(demands);
}

NetworkSolution WiredNetwork::solve_from(const NetworkSolution& start, const CaseDemands& demands) {
  return network_.solve_from(start, demands_of(demands));
}

NetworkSolution WiredNetwork::solve_currents(const NetworkSolution& at, const CurrentFactors& factors) {
  NetworkDemands demands;
  demands.ports.resize(port_count_);
  const auto keep = [&](const Place& port, double factor) {
    if (port && std::isfinite(at.port_ampere[*port])) demands.ports[*port].ampere = at.port_ampere[*port] * factor;
  };
  for (std::size_t i = 0; i < circuit_.loads.size(); ++i) keep(load_port_[i], factors.load[i]);
  for (const Place& port : coil_port_) keep(port, 1.0);
  for (const Place& port : source_push_) keep(port, factors.charging);
  for (std::size_t i = 0; i < circuit_.converters.size(); ++i) {
    keep(converter_push_[i], factors.charging);
    if (converter_push_[i]) keep(converter_input_[i], factors.charging);
  }
  for (const std::size_t i : converter_of_transfer_) {
    const double out = at.hold_ampere[*converter_hold_[i]], in = at.port_ampere[*converter_input_[i]];
    demands.transfers.push_back({0.0, out > 0.0 ? in / out : 0.0});
  }
  return network_.solve_currents(at, demands);
}

double WiredNetwork::branch_ampere(const NetworkSolution& solved, BranchId branch) const {
  if (link_of_[branch]) return solved.link_ampere[*link_of_[branch]];
  return conducts_[branch] && is_spoilt(circuit_.branches[branch].a) ? not_a_number : 0.0;
}

double WiredNetwork::load_ampere(const NetworkSolution& solved, std::size_t position) const {
  if (is_spoilt(circuit_.loads[position].plus)) return not_a_number;
  return load_port_[position] ? solved.port_ampere[*load_port_[position]] : 0.0;
}

// Voltages against the lowest terminal of the first supply among the nodes that wires and supplies tie together.
void WiredNetwork::refer_voltages(const NetworkSolution& solved, Solution& solution) const {
  std::vector<bool> is_held(network_.component_count(), false);
  std::vector<std::optional<NodeId>> reference(network_.component_count());
  for (const auto* list : {&source_hold_, &converter_hold_})
    for (std::size_t i = 0; i < list->size(); ++i) {
      if (!(*list)[i]) continue;
      const NodeId minus = list == &source_hold_ ? circuit_.sources[i].minus : circuit_.converters[i].out_minus;
      is_held[network_.component_of(minus.value)] = true;
    }
  for (const Supply& supply : sides_.supplies) {
    auto& at = reference[network_.component_of(supply.minus.value)];
    if (!supply.piece_of && (!at || !std::isfinite(solved.node_volt[at->value]))) at = supply.minus;
  }
  solution.node_voltage = IndexedList<NodeOf, double>(circuit_.nodes.size(), not_a_number);
  solution.solved = IndexedList<NodeOf, bool>(circuit_.nodes.size(), false);
  for (const NodeId node : circuit_.nodes.ids()) {
    const std::size_t component = network_.component_of(node.value);
    if (is_spoilt(node) || !is_held[component] || !reference[component]) continue;
    solution.node_voltage[node] = solved.node_volt[node.value] - solved.node_volt[reference[component]->value];
    solution.solved[node] = std::isfinite(solution.node_voltage[node]);
  }
}

std::optional<ItemId> WiredNetwork::item_at_port(std::size_t port) const {
  for (std::size_t i = 0; i < circuit_.loads.size(); ++i)
    if (load_port_[i] == port) return circuit_.loads[i].item;
  for (std::size_t i = 0; i < circuit_.converters.size(); ++i)
    if (converter_input_[i] == port) return circuit_.converters[i].item;
  return std::nullopt;
}

Solution WiredNetwork::to_solution(const NetworkSolution& solved) const {
  Solution solution;
  refer_voltages(solved, solution);
  solution.branch_current = IndexedList<BranchOf, double>(circuit_.branches.size());
  for (const BranchId id : circuit_.branches.ids()) solution.branch_current[id] = branch_ampere(solved, id);

  const auto value = [&](const std::vector<double>& values, const Place& place, NodeId node, double sign = 1.0) {
    if (is_spoilt(node)) return not_a_number;
    return place ? sign * values[*place] : 0.0;
  };
  for (std::size_t i = 0; i < circuit_.loads.size(); ++i) solution.load_current.push_back(load_ampere(solved, i));
  for (std::size_t i = 0; i < circuit_.coils.size(); ++i)
    solution.coil_current.push_back(value(solved.port_ampere, coil_port_[i], circuit_.coils[i].plus));
  for (std::size_t i = 0; i < circuit_.sources.size(); ++i) {
    const NodeId node = circuit_.sources[i].plus;
    solution.source_current.push_back(source_hold_[i] ? value(solved.hold_ampere, source_hold_[i], node)
                                                      : value(solved.port_ampere, source_push_[i], node, -1.0));
  }
  for (std::size_t i = 0; i < circuit_.converters.size(); ++i) {
    const NodeId node = circuit_.converters[i].out_plus;
    solution.converter_in_current.push_back(value(solved.port_ampere, converter_input_[i], node));
    solution.converter_out_current.push_back(converter_hold_[i]
                                                 ? value(solved.hold_ampere, converter_hold_[i], node)
                                                 : value(solved.port_ampere, converter_push_[i], node, -1.0));
  }
  for (const NetworkSolution::Collapse& collapse : solved.collapses)
    solution.collapses.push_back(
        {static_cast<int>(collapse.island), collapse.port ? item_at_port(*collapse.port) : std::nullopt});
  return solution;
}

}  // namespace loomleaf
