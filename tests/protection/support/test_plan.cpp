#include "protection/support/test_plan.h"

#include <numeric>

namespace loomleaf::test {

ItemId TestPlan::add(const std::string& id, ItemData data) {
  Item item;
  item.id = id;
  item.data = std::move(data);
  return items_[id] = plan.items.add(std::move(item));
}

TerminalId TestPlan::add_terminal(ItemId item, TerminalRole role, const std::string& name, const std::string& text,
                                  int way) {
  Terminal terminal;
  terminal.item = item;
  terminal.role = role;
  terminal.name = name;
  terminal.way = way;
  const TerminalId id = plan.terminals.add(terminal);
  plan.items[item].terminals.push_back(id);
  return terminals_[text] = id;
}

ItemId TestPlan::battery(const std::string& id, double u) {
  Source source;
  source.nominal = volts(u);
  const ItemId item = add(id, source);
  add_terminal(item, TerminalRole::plus, "+", id + "+");
  add_terminal(item, TerminalRole::minus, "-", id + "-");
  return item;
}

ItemId TestPlan::limited(const std::string& id, double limit_A, double u, Source::Kind kind) {
  const ItemId item = battery(id, u);
  Source source;
  source.kind = kind;
  source.nominal = volts(u);
  source.limit = amperes(limit_A);
  plan.items[item].data = source;
  return item;
}

ItemId TestPlan::fuse(const std::string& id, double rating_A) {
  Device device;
  device.rating = amperes(rating_A);
  const ItemId item = add(id, device);
  add_terminal(item, TerminalRole::in, "in", id + ".in");
  add_terminal(item, TerminalRole::out, "out", id + ".out");
  return item;
}

ItemId TestPlan::isolator(const std::string& id) {
  const ItemId item = add(id, Switch{});
  add_terminal(item, TerminalRole::in, "in", id + ".in");
  add_terminal(item, TerminalRole::out, "out", id + ".out");
  return item;
}

ItemId TestPlan::changeover(const std::string& id, int ways, bool both) {
  Switch data;
  data.ways = ways;
  data.both = both;
  const ItemId item = add(id, data);
  add_terminal(item, TerminalRole::in, "in", id + ".in");
  for (int way = 1; way <= ways; ++way) {
    const std::string name = "out" + std::to_string(way);
    add_terminal(item, TerminalRole::out, name, id + "." + name, way);
  }
  return item;
}

ItemId TestPlan::relay(const std::string& id) {
  const ItemId item = add(id, Relay{});
  add_terminal(item, TerminalRole::coil_85, "85", id + ".85");
  add_terminal(item, TerminalRole::coil_86, "86", id + ".86");
  add_terminal(item, TerminalRole::common_30, "30", id + ".30");
  add_terminal(item, TerminalRole::make_87, "87", id + ".87");
  add_terminal(item, TerminalRole::break_87a, "87a", id + ".87a");
  return item;
}

ItemId TestPlan::load(const std::string& id, Load::Kind kind) {
  Load data;
  data.kind = kind;
  data.power = watts(10);
  const ItemId item = add(id, data);
  add_terminal(item, TerminalRole::plus, "+", id + "+");
  add_terminal(item, TerminalRole::minus, "-", id + "-");
  return item;
}

ItemId TestPlan::bus(const std::string& id) {
  const ItemId item = add(id, Bus{});
  add_terminal(item, TerminalRole::node, "", id);
  return item;
}

ItemId TestPlan::tail(const std::string& id) {
  const ItemId item = add(id, Tail{});
  add_terminal(item, TerminalRole::node, "", id);
  return item;
}

ItemId TestPlan::dimmer(const std::string& id) {
  const ItemId item = add(id, Dimmer{});
  add_terminal(item, TerminalRole::in_plus, "in+", id + ".in+");
  add_terminal(item, TerminalRole::in_minus, "in-", id + ".in-");
  add_terminal(item, TerminalRole::out_plus, "out+", id + ".out+");
  add_terminal(item, TerminalRole::out_minus, "out-", id + ".out-");
  return item;
}

ItemId TestPlan::converter(const std::string& id, double rating_A, double out_volts, bool isolated) {
  const ItemId item = dimmer(id);
  Converter data;
  data.rating = amperes(rating_A);
  data.out_voltage = volts(out_volts);
  data.isolated = isolated;
  plan.items[item].data = data;
  return item;
}

void TestPlan::also(const std::string& id, const std::string& name) {
  add_terminal(item(id), TerminalRole::also, name, id + "." + name);
}

void TestPlan::on(const std::string& id, const std::string& other) {
  Item& joined = plan.items[item(id)];
  joined.on = terminal(other);
  joined.on_terminal = terminal(joined.is<Source>() || joined.is<Load>() ? id + "-" : id + ".in");
}

ConductorId TestPlan::wire(const std::string& id, const std::string& from, const std::string& to, double may_carry_A,
                           double length_m, bool sheathed) {
  Run run;
  run.id = id;
  Route route;
  route.length = metres(length_m);
  route.sheathed_throughout = sheathed;
  routes.runs.add(route);
  ConductorFigures figure;
  figure.length = metres(length_m);
  figure.ampacity = figure.may_carry = amperes(may_carry_A);
  figures.add(figure);
  const RunId run_id = plan.runs.add(run);
  const ConductorId conductor = plan.conductors.add({id, run_id, terminal(from), terminal(to), std::nullopt});
  plan.runs[run_id].conductors.push_back(conductor);
  return conductors_[id] = conductor;
}

namespace {

class CircuitByHand {
 public:
  explicit CircuitByHand(const Plan& plan) : plan_(plan), joined_(plan.terminals.size()) {
    std::iota(joined_.begin(), joined_.end(), std::size_t{0});
  }

  Circuit build() {
    join_without_wire();
    number_nodes();
    for (const ConductorId id : plan_.conductors.ids()) {
      const Conductor& conductor = plan_.conductors[id];
      Branch branch;
      branch.conductor = id;
      circuit_.branch_of.add(add(branch, conductor.from, conductor.to));
    }
    for (const ItemId id : plan_.items.ids()) add_item(id);
    circuit_.at = IndexedList<NodeOf, std::vector<BranchId>>(circuit_.nodes.size());
    for (const BranchId id : circuit_.branches.ids()) {
      const Branch& branch = circuit_.branches[id];
      circuit_.at[branch.a].push_back(id);
      if (branch.b != branch.a) circuit_.at[branch.b].push_back(id);
    }
    return circuit_;
  }

 private:
  std::size_t root(std::size_t at) const {
    while (joined_[at] != at) at = joined_[at];
    return at;
  }
  void join(TerminalId a, TerminalId b) { joined_[root(a.value)] = root(b.value); }

  TerminalId find(const Item& item, TerminalRole role) const {
    for (const TerminalId id : item.terminals)
      if (plan_.terminals[id].role == role) return id;
    return {};
  }
  NodeId node(const Item& item, TerminalRole role) const { return circuit_.node_of[find(item, role)]; }

  void join_without_wire() {
    for (const Item& item : plan_.items) {
      if (item.on) join(*item.on, *item.on_terminal);
      const Converter* converter = item.as<Converter>();
      if (converter && !converter->isolated)
        join(find(item, TerminalRole::in_minus), find(item, TerminalRole::out_minus));
    }
  }

  void number_nodes() {
    std::map<std::size_t, NodeId> node_at;
    for (const TerminalId id : plan_.terminals.ids()) {
      const std::size_t r = root(id.value);
      if (!node_at.count(r)) node_at[r] = circuit_.nodes.add({});
      circuit_.nodes[node_at[r]].terminals.push_back(id);
      circuit_.node_of.add(node_at[r]);
    }
  }

  BranchId add(Branch branch, TerminalId a, TerminalId b) {
    branch.terminal_a = a;
    branch.terminal_b = b;
    branch.a = circuit_.node_of[a];
    branch.b = circuit_.node_of[b];
    return circuit_.branches.add(branch);
  }

  BranchId add_between(ItemId id, BranchKind kind, TerminalRole a, TerminalRole b) {
    Branch branch;
    branch.kind = kind;
    branch.item = id;
    return add(branch, find(plan_.items[id], a), find(plan_.items[id], b));
  }

  void add_changer(ItemId id, int ways, bool both, const std::vector<std::pair<TerminalId, int>>& outs,
                   TerminalId common) {
    Changer changer;
    changer.item = id;
    changer.ways = ways;
    changer.both = both;
    for (const auto& [out, way] : outs) {
      Branch branch;
      branch.kind = BranchKind::contact;
      branch.item = id;
      branch.changer = circuit_.changers.end_id();
      branch.way = way;
      changer.branches.push_back(add(branch, common, out));
    }
    circuit_.changers.add(changer);
  }

  void add_item(ItemId id) {
    using Role = TerminalRole;
    const Item& item = plan_.items[id];
    if (item.is<Device>()) add_between(id, BranchKind::device, Role::in, Role::out);
    if (item.is<Shunt>()) add_between(id, BranchKind::contact, Role::in, Role::out);
    if (item.is<Dimmer>()) {
      add_between(id, BranchKind::contact, Role::in_plus, Role::out_plus);
      add_between(id, BranchKind::contact, Role::in_minus, Role::out_minus);
    }
    if (const Switch* contact = item.as<Switch>()) {
      if (contact->ways == 1) {
        add_between(id, BranchKind::contact, Role::in, Role::out);
      } else {
        std::vector<std::pair<TerminalId, int>> outs;
        for (const TerminalId terminal : item.terminals)
          if (plan_.terminals[terminal].role == Role::out)
            outs.emplace_back(terminal, plan_.terminals[terminal].way - 1);
        add_changer(id, contact->ways, contact->both, outs, find(item, Role::in));
      }
    }
    if (item.is<Relay>()) {
      add_changer(id, 2, false, {{find(item, Role::break_87a), 0}, {find(item, Role::make_87), 1}},
                  find(item, Role::common_30));
      circuit_.coils.push_back({id, node(item, Role::coil_86), node(item, Role::coil_85)});
    }
    if (item.is<Source>()) circuit_.sources.push_back({id, node(item, Role::plus), node(item, Role::minus)});
    if (item.is<Load>()) circuit_.loads.push_back({id, node(item, Role::plus), node(item, Role::minus)});
    if (item.is<Converter>())
      circuit_.converters.push_back({id, node(item, Role::in_plus), node(item, Role::in_minus),
                                     node(item, Role::out_plus), node(item, Role::out_minus)});
  }

  const Plan& plan_;
  std::vector<std::size_t> joined_;
  Circuit circuit_;
};

}  // namespace

Circuit TestPlan::circuit() const { return CircuitByHand(plan).build(); }

std::vector<std::string> names(const Plan& plan, const std::vector<ItemId>& items) {
  std::vector<std::string> found;
  for (const ItemId id : items) found.push_back(plan.items[id].id);
  return found;
}

}  // namespace loomleaf::test
