#include "metalwork.h"

#include <algorithm>
#include <cmath>

#include "loomleaf/circuit/joined_sets.h"

namespace loomleaf {

Metalwork::Metalwork(const Plan& plan, const Circuit& circuit) : plan_(plan), circuit_(circuit) {
  for (const ItemId id : plan.items.ids()) {
    const Item& item = plan.items[id];
    if (!item.is<Chassis>() || item.terminals.empty()) continue;
    Metal metal{id, item.terminals.front(), {}, 0, {}};
    const NodeId node = circuit.node_of[metal.terminal];
    list_joints(metal, circuit.nodes[node]);
    at_[node].push_back(metals_.size());
    position_of_[id] = metals_.size();
    metals_.push_back(std::move(metal));
  }
  if (metals_.empty()) return;
  for (const BranchId id : circuit.branches.ids()) {
    const Branch& branch = circuit.branches[id];
    if (branch.a == branch.b) continue;
    add(branch.terminal_a, Carrier::branch, id.value, -1.0);
    add(branch.terminal_b, Carrier::branch, id.value, 1.0);
  }
  const auto add_all = [&](const std::vector<TwoPole>& items, Carrier carrier, TerminalRole plus, TerminalRole minus,
                           double sign) {
    for (std::size_t i = 0; i < items.size(); ++i) {
      add(plan.items[items[i].item], plus, carrier, i, sign);
      add(plan.items[items[i].item], minus, carrier, i, -sign);
    }
  };
  add_all(circuit.loads, Carrier::load, TerminalRole::plus, TerminalRole::minus, -1.0);
  add_all(circuit.sources, Carrier::source, TerminalRole::plus, TerminalRole::minus, 1.0);
  add_all(circuit.coils, Carrier::coil, TerminalRole::coil_86, TerminalRole::coil_85, -1.0);
  for (std::size_t i = 0; i < circuit.converters.size(); ++i) {
    const Item& item = plan.items[circuit.converters[i].item];
    add(item, TerminalRole::in_plus, Carrier::converter_input, i, -1.0);
    add(item, TerminalRole::in_minus, Carrier::converter_input, i, 1.0);
    add(item, TerminalRole::out_plus, Carrier::converter_output, i, 1.0);
    add(item, TerminalRole::out_minus, Carrier::converter_output, i, -1.0);
  }
  for (Metal& metal : metals_) std::ranges::stable_sort(metal.inflows, {}, &Inflow::joint);
}

// What hangs together at the node without the metalwork is one joint.
void Metalwork::list_joints(Metal& metal, const Node& node) const {
  std::map<TerminalId, std::size_t> position;
  for (const TerminalId terminal : node.terminals) position.emplace(terminal, position.size());
  JoinedSets together(position.size());
  const auto join = [&](TerminalId a, TerminalId b) {
    if (a != metal.terminal && b != metal.terminal) together.join(position.at(a), position.at(b));
  };
  for (const TerminalId terminal : node.terminals) {
    const Item& item = plan_.items[plan_.terminals[terminal].item];
    if (item.on && item.on_terminal == terminal) join(terminal, *item.on);
    const Converter* converter = item.as<Converter>();
    if (!converter || converter->isolated) continue;  // else its two negatives are one
    for (const TerminalId other : item.terminals)
      if (position.count(other) > 0) join(terminal, other);
  }
  for (const auto& [terminal, at] : position)
    if (terminal != metal.terminal) metal.joint_of[terminal] = together.root(at);
  metal.joints = position.size();
}

void Metalwork::add(TerminalId terminal, Carrier carrier, std::size_t position, double sign) {
  const auto found = at_.find(circuit_.node_of[terminal]);
  if (found == at_.end()) return;
  for (const std::size_t at : found->second) {
    Metal& metal = metals_[at];
    const std::size_t joint = terminal == metal.terminal ? metal.joints++ : metal.joint_of.at(terminal);
    metal.inflows.push_back({carrier, position, sign, joint});
  }
}

void Metalwork::add(const Item& item, TerminalRole role, Carrier carrier, std::size_t position, double sign) {
  for (const TerminalId terminal : item.terminals)
    if (plan_.terminals[terminal].role == role) add(terminal, carrier, position, sign);
}

double Metalwork::ampere(const Inflow& inflow, const Solution& solution) const {
  // What works either way round draws a current without a sign: it flows from the higher voltage to the lower.
  const auto drawn = [&](const TwoPole& item, double current) {
    const bool is_turned = solution.node_voltage[item.plus] < solution.node_voltage[item.minus];
    return is_turned ? -current : current;
  };
  const std::size_t at = inflow.position;
  switch (inflow.carrier) {
    case Carrier::branch:
      return solution.branch_current[BranchId(at)];
    case Carrier::load:
      return drawn(circuit_.loads[at], solution.load_current[at]);
    case Carrier::coil:
      return drawn(circuit_.coils[at], solution.coil_current[at]);
    case Carrier::source:
      return solution.source_current[at];
    case Carrier::converter_input:
      return solution.converter_in_current[at];
    case Carrier::converter_output:
      return solution.converter_out_current[at];
  }
  return 0.0;
}

double Metalwork::ampere_through(ItemId chassis, const Solution& solution) const {
  double sum = 0.0, by_joint = 0.0;
  const std::vector<Inflow>& inflows = metals_[position_of_.at(chassis)].inflows;
  for (std::size_t i = 0; i < inflows.size(); ++i) {
    by_joint += inflows[i].sign * ampere(inflows[i], solution);
    if (i + 1 < inflows.size() && inflows[i + 1].joint == inflows[i].joint) continue;
    sum += std::fabs(by_joint);
    by_joint = 0.0;
  }
  return 0.5 * sum;
}

}  // namespace loomleaf
