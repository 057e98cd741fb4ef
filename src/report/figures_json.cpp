#include "figures_json.h"

#include <algorithm>
#include <cmath>

#include "loomleaf/rules/contacts.h"
#include "loomleaf/rules/joints.h"

namespace loomleaf {

namespace {

const char* side_text(ConductorSide side) {
  switch (side) {
    case ConductorSide::none:
      return "none";
    case ConductorSide::feed:
      return "feed";
    case ConductorSide::return_:
      return "return";
    case ConductorSide::bond:
      return "bond";
    case ConductorSide::signal:
      return "signal";
  }
  return "none";
}

template <class T>
Json case_text(const Checked& checked, const std::optional<Worst<T>>& worst) {
  return worst ? Json(checked.study.working.cases[worst->in_case].name) : Json(nullptr);
}

Json magnitude(const std::optional<Worst<Current>>& worst) {
  return worst ? number(std::fabs(worst->value.in(amperes))) : Json(nullptr);
}

Json ids_json(const Plan& plan, const std::vector<ItemId>& items) {
  Json ids = Json::array();
  for (const ItemId item : items) ids.push_back(plan.items[item].id);
  return ids;
}

Json conductor_json(const Checked& checked, ConductorId id) {
  const Conductor& conductor = checked.plan.conductors[id];
  const Run& run = checked.plan.runs[conductor.run];
  const ConductorFigures& figures = checked.study.conductors[id];
  const ConductorProtection& protection = checked.study.protection.conductors[id];
  const auto& worst = checked.study.working.branches[checked.circuit.branch_of[id]];
  Json entry;
  entry["id"] = conductor.id;
  entry["from"] = terminal_text(checked.plan, conductor.from);
  entry["to"] = terminal_text(checked.plan, conductor.to);
  entry["side"] = side_text(protection.side);
  entry["size"] = run.size ? Json(to_text(*run.size)) : Json(nullptr);
  entry["area_mm2"] = number(figures.area.in(square_millimetres));
  entry["length_m"] = number(figures.length.in(metres));
  entry["resistance_ohm"] = number(figures.resistance.in(ohms));
  entry["current_A"] = worst ? number(worst->value.in(amperes)) : Json(nullptr);
  entry["case"] = case_text(checked, worst);
  entry["ampacity_A"] = number(figures.ampacity, amperes);
  entry["may_carry_A"] = figures.ampacity ? number(figures.may_carry, amperes) : Json(nullptr);
  entry["let_through_A"] = protection.unbounded ? Json(nullptr) : number(protection.let_through, amperes);
  entry["unbounded"] = protection.unbounded;
  entry["exposed"] = protection.exposed;
  entry["exposed_length_m"] = number(protection.exposed_length, metres);
  entry["protected_by"] = ids_json(checked.plan, protection.protected_by);
  const auto& far_short = checked.study.shorts.conductors[id];
  entry["short_circuit_A"] = far_short ? number(far_short->current.in(amperes)) : Json(nullptr);
  entry["clearing_s"] = far_short ? number(far_short->clears, seconds) : Json(nullptr);
  return entry;
}

}  // namespace

void list_conductors(const Checked& checked, const TakeEntry& take) {
  for (const ConductorId id : checked.plan.conductors.ids()) take(conductor_json(checked, id));
}

void list_loads(const Checked& checked, const TakeEntry& take) {
  for (std::size_t at = 0; at < checked.circuit.loads.size(); ++at) {
    const LoadResult& result = checked.study.working.loads[at];
    Json entry;
    entry["id"] = checked.plan.items[checked.circuit.loads[at].item].id;
    entry["voltage_V"] = result.voltage ? number(result.voltage->value.in(volts)) : Json(nullptr);
    entry["current_A"] = magnitude(result.current);
    entry["drop_percent"] = result.drop ? number(result.drop->value * 100) : Json(nullptr);
    entry["case"] = case_text(checked, result.drop);
    take(entry);
  }
}

void list_devices(const Checked& checked, const TakeEntry& take) {
  for (const BranchId branch : checked.circuit.branches.ids()) {
    const Branch& at = checked.circuit.branches[branch];
    if (at.kind != BranchKind::device) continue;
    const Device* device = checked.plan.items[*at.item].as<Device>();
    Json entry;
    entry["id"] = checked.plan.items[*at.item].id;
    entry["rating_A"] = device ? number(device->rating, amperes) : Json(nullptr);
    entry["current_A"] = magnitude(checked.study.working.branches[branch]);
    entry["resistance_ohm"] = number(checked.study.working.branch_resistance[branch].in(ohms));
    const auto& prospective = checked.study.shorts.devices[*at.item];
    entry["prospective_A"] = prospective.empty() ? Json(nullptr) : number(prospective.front().current.in(amperes));
    take(entry);
  }
}

void list_contacts(const Checked& checked, const TakeEntry& take) {
  // One entry an item: the contact that carries the most stands for all.
  std::optional<ItemId> item;
  Json entry;
  double most = 0.0;
  for (const Contact& contact : contacts_of(checked.plan, checked.circuit)) {
    const Branch& branch = checked.circuit.branches[contact.branch];
    const auto& worst = checked.study.working.branches[contact.branch];
    const double flows = worst ? std::fabs(worst->value.in(amperes)) : -1.0;
    const bool same = item == branch.item;
    if (same && flows <= most) continue;
    if (item && !same) take(entry);
    item = branch.item;
    most = flows;
    entry["id"] = checked.plan.items[*branch.item].id;
    entry["rating_A"] = number(contact.rating, amperes);
    entry["current_A"] = magnitude(worst);
    entry["resistance_ohm"] = number(checked.study.working.branch_resistance[contact.branch].in(ohms));
  }
  if (item) take(entry);
}

void list_joints(const Checked& checked, const TakeEntry& take) {
  const IndexedList<ItemOf, ItemEnds> ends = ends_at_items(checked.plan);
  for (const ItemId id : checked.plan.items.ids()) {
    const Item& item = checked.plan.items[id];
    const Splice* splice = item.as<Splice>();
    const Bus* bus = item.as<Bus>();
    if (!splice && !bus) continue;
    Json entry;
    entry["id"] = item.id;
    entry["rating_A"] = number(splice ? splice->rating : bus->rating, amperes);
    entry["current_A"] = magnitude(checked.study.working.joints[id]);
    entry["ends"] = bus ? ends[id].count() : static_cast<int>(ends[id].conductors.size());
    take(entry);
  }
}

void list_nodes(const Checked& checked, const TakeEntry& take) {
  const auto& solution = checked.study.working.first_load_case;
  for (const NodeId id : checked.circuit.nodes.ids()) {
    const Node& node = checked.circuit.nodes[id];
    Json terminals = Json::array();
    for (const TerminalId terminal : node.terminals) terminals.push_back(terminal_text(checked.plan, terminal));
    Json entry;
    entry["id"] = terminals.empty() ? Json(nullptr) : terminals.front();
    entry["terminals"] = std::move(terminals);
    entry["voltage_V"] = solution && solution->solved[id] ? number(solution->node_voltage[id]) : Json(nullptr);
    take(entry);
  }
}

}  // namespace loomleaf
