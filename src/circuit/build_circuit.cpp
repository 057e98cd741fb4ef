#include "loomleaf/circuit/circuit.h"
#include "loomleaf/circuit/joined_sets.h"

namespace loomleaf {

namespace {

using Role = TerminalRole;

std::optional<TerminalId> find_role(const Plan& plan, const Item& item, Role role) {
  for (const TerminalId id : item.terminals)
    if (plan.terminals[id].role == role) return id;
  return std::nullopt;
}

void make_nodes(const Plan& plan, Circuit& circuit) {
  JoinedSets joined(plan.terminals.size());
  for (const Item& item : plan.items) {
    if (item.on && item.on_terminal) joined.join(item.on->value, item.on_terminal->value);
    const Converter* converter = item.as<Converter>();
    if (converter != nullptr && !converter->isolated)
      joined.join(find_role(plan, item, Role::in_minus)->value, find_role(plan, item, Role::out_minus)->value);
  }
  std::vector<std::optional<NodeId>> node_of_root(plan.terminals.size());
  for (const TerminalId terminal : plan.terminals.ids()) {
    std::optional<NodeId>& node = node_of_root[joined.root(terminal.value)];
    if (!node) node = circuit.nodes.add({});
    circuit.nodes[*node].terminals.push_back(terminal);
    circuit.node_of.add(*node);
  }
}

class BranchMaker {
 public:
  BranchMaker(const Plan& plan, Circuit& circuit) : plan_(plan), circuit_(circuit) {}

  void make() {
    for (const ConductorId id : plan_.conductors.ids()) {
      Branch branch = between(plan_.conductors[id].from, plan_.conductors[id].to, BranchKind::conductor);
      branch.conductor = id;
      circuit_.branch_of.add(add(branch));
    }
    for (const ItemId id : plan_.items.ids()) add_item(id);
  }

 private:
  Branch between(TerminalId a, TerminalId b, BranchKind kind) const {
    Branch branch;
    branch.kind = kind;
    branch.terminal_a = a;
    branch.terminal_b = b;
    branch.a = circuit_.node_of[a];
    branch.b = circuit_.node_of[b];
    return branch;
  }

  BranchId add(const Branch& branch) { return circuit_.branches.add(branch); }

  Branch through(ItemId id, TerminalId a, TerminalId b, int pole = 1, BranchKind kind = BranchKind::contact) const {
    Branch branch = between(a, b, kind);
    branch.item = id;
    branch.pole = pole;
    return branch;
  }

  TerminalId terminal(const Item& item, Role role) const { return *find_role(plan_, item, role); }

  void add_item(ItemId id) {
    const Item& item = plan_.items[id];
    if (item.is<Device>()) {
      add(through(id, terminal(item, Role::in), terminal(item, Role::out), 1, BranchKind::device));
    } else if (item.is<Shunt>()) {
      add(through(id, terminal(item, Role::in), terminal(item, Role::out)));
    } else if (const Switch* contact = item.as<Switch>()) {
      add_switch(id, item, *contact);
    } else if (const Connector* connector = item.as<Connector>()) {
      const auto poles = static_cast<std::size_t>(connector->poles);
      for (std::size_t pole = 0; pole < poles; ++pole)
        add(through(id, item.terminals[pole], item.terminals[poles + pole], static_cast<int>(pole) + 1));
    } else if (item.is<Dimmer>()) {
      add(through(id, terminal(item, Role::in_plus), terminal(item, Role::out_plus), 1));
      add(through(id, terminal(item, Role::in_minus), terminal(item, Role::out_minus), 2));
    } else if (item.is<Relay>()) {
      add_relay(id, item);
    } else if (item.is<Converter>()) {
      circuit_.converters.push_back({id, node(item, Role::in_plus), node(item, Role::in_minus),
                                     node(item, Role::out_plus), node(item, Role::out_minus)});
    } else if (item.is<Source>()) {
      circuit_.sources.push_back({id, node(item, Role::plus), node(item, Role::minus)});
    } else if (item.is<Load>()) {
      circuit_.loads.push_back({id, node(item, Role::plus), node(item, Role::minus)});
    }
  }

  NodeId node(const Item& item, Role role) const { return circuit_.node_of[terminal(item, role)]; }

  void add_switch(ItemId id, const Item& item, const Switch& contact) {
    std::optional<ChangerId> changer;
    if (contact.ways > 1) changer = circuit_.changers.add({id, contact.ways, {}, contact.both});
    TerminalId in;
    for (const TerminalId terminal_id : item.terminals) {
      const Terminal& terminal = plan_.terminals[terminal_id];
      if (terminal.role == Role::in) in = terminal_id;
      if (terminal.role != Role::out) continue;
      Branch branch = through(id, in, terminal_id, terminal.pole);
      add_way(branch, changer, terminal.way - 1);
    }
  }

  void add_way(Branch branch, std::optional<ChangerId> changer, int way) {
    branch.changer = changer;
    branch.way = changer ? way : 0;
    const BranchId id = add(branch);
    if (changer) circuit_.changers[*changer].branches.push_back(id);
  }

  void add_relay(ItemId id, const Item& item) {
    const TerminalId common = terminal(item, Role::common_30);
    circuit_.coils.push_back({id, node(item, Role::coil_86), node(item, Role::coil_85)});
    const ChangerId changer = circuit_.changers.add({id, 2, {}});
    add_way(through(id, common, terminal(item, Role::break_87a)), changer, 0);
    add_way(through(id, common, terminal(item, Role::make_87)), changer, 1);
  }

  const Plan& plan_;
  Circuit& circuit_;
};

}  // namespace

Circuit build_circuit(const Plan& plan) {
  Circuit circuit;
  make_nodes(plan, circuit);
  BranchMaker(plan, circuit).make();
  circuit.at = IndexedList<NodeOf, std::vector<BranchId>>(circuit.nodes.size());
  for (const BranchId id : circuit.branches.ids()) {
    const Branch& branch = circuit.branches[id];
    circuit.at[branch.a].push_back(id);
    if (branch.b != branch.a) circuit.at[branch.b].push_back(id);
  }
  return circuit;
}

}  // namespace loomleaf
