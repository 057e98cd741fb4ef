#include "stretch.h"

#include <algorithm>

namespace loomleaf {
namespace {

// Contacts that carry feed and may be part of a stretch. One that has conductors at both its ends which are not exposed
// is none: it lies in their run, and a tap beside it is fed right there.
std::vector<bool> feed_contacts(const Circuit& circuit, const IndexedList<ConductorOf, bool>& exposed,
                                const std::vector<Ways>& ways, const std::vector<Sides>& sides) {
  const auto goes_on = [&](NodeId node) {
    return std::any_of(circuit.at[node].begin(), circuit.at[node].end(), [&](BranchId id) {
      const auto conductor = circuit.branches[id].conductor;
      return conductor && !exposed[*conductor];
    });
  };
  std::vector<bool> carries(circuit.branches.size(), false);
  for (const BranchId id : circuit.branches.ids()) {
    const Branch& branch = circuit.branches[id];
    if (branch.kind != BranchKind::contact || (goes_on(branch.a) && goes_on(branch.b))) continue;
    for (std::size_t w = 0; w < ways.size() && !carries[id.value]; ++w)
      carries[id.value] = conducts(circuit, id, ways[w]) && sides[w].is_feed(branch.a);
  }
  return carries;
}

void add_once(std::vector<ItemId>& list, ItemId item) {
  if (std::find(list.begin(), list.end(), item) == list.end()) list.push_back(item);
}

NodeId other_end(const Branch& branch, NodeId one) { return branch.a == one ? branch.b : branch.a; }

}  // namespace

ExposedNetwork::ExposedNetwork(const Plan& plan, const Circuit& circuit, const IndexedList<ConductorOf, bool>& exposed,
                               const std::vector<Ways>& ways, const std::vector<Sides>& sides)
    : plan_(plan),
      circuit_(circuit),
      at_(circuit.nodes.size()),
      in_(circuit.branches.size(), false),
      joined_(circuit.nodes.size()),
      seen_branch_(circuit.branches.size(), false),
      seen_node_(circuit.nodes.size(), false) {
  const std::vector<bool> contact = feed_contacts(circuit, exposed, ways, sides);
  std::vector<NodeId> open;
  const auto take = [&](BranchId id) {
    if (in_[id.value]) return;
    in_[id.value] = true;
    open.push_back(circuit.branches[id].a);
    open.push_back(circuit.branches[id].b);
  };
  for (const ConductorId id : exposed.ids())
    if (exposed[id]) take(circuit.branch_of[id]);
  while (!open.empty()) {
    const NodeId node = open.back();
    open.pop_back();
    for (const BranchId id : circuit.at[node])
      if (contact[id.value]) take(id);
  }
  for (const NodeId node : circuit.nodes.ids()) {
    for (const BranchId id : circuit.at[node])
      if (in_[id.value]) at_[node].push_back(id);
    if (at_[node].empty()) continue;
    nodes_.push_back(node);
    joined_[node] = find_joined(node);
  }
}

JoinedThere ExposedNetwork::find_joined(NodeId node) const {
  JoinedThere joined;
  for (const BranchId id : circuit_.at[node]) {
    const Branch& branch = circuit_.branches[id];
    if (branch.kind == BranchKind::device) add_once(joined.devices, *branch.item);
    if (branch.kind == BranchKind::conductor && !in_[id.value]) joined.further.push_back(*branch.conductor);
  }
  for (const TerminalId id : circuit_.nodes[node].terminals) {
    const Terminal& terminal = plan_.terminals[id];
    const Item& item = plan_.items[terminal.item];
    switch (terminal.role) {
      case TerminalRole::plus:
      case TerminalRole::minus:
        if (const Source* source = item.as<Source>()) {
          joined.supply = true;
          joined.post = joined.post || !source->is_limited();
          if (terminal.role == TerminalRole::plus) {
            add_once(source->is_limited() ? joined.limited : joined.batteries, terminal.item);
            joined.charger = joined.charger || (source->is_limited() && source->kind != Source::Kind::supply);
          }
        } else if (const Load* load = item.as<Load>(); load && load->kind == Load::Kind::starter) {
          add_once(joined.starters, terminal.item);
        } else {
          add_once(joined.open, terminal.item);
        }
        break;
      case TerminalRole::in_plus:
      case TerminalRole::in_minus:
        if (item.is<Converter>()) add_once(joined.open, terminal.item);
        break;
      case TerminalRole::out_plus:
      case TerminalRole::out_minus:
        if (!item.is<Converter>()) break;
        joined.supply = true;
        if (terminal.role == TerminalRole::out_plus) add_once(joined.limited, terminal.item);
        break;
      case TerminalRole::coil_85:
      case TerminalRole::coil_86:
      case TerminalRole::also:
        add_once(joined.open, terminal.item);
        break;
      case TerminalRole::node:
        if (item.is<Tail>()) add_once(joined.open, terminal.item);
        break;
      default:
        break;
    }
  }
  return joined;
}

bool ExposedNetwork::is_loose(NodeId node) const {
  return at_[node].size() == 1 && joined_[node].nothing() && !is_free_way(node);
}

bool ExposedNetwork::is_free_way(NodeId node) const {
  const Branch& contact = circuit_.branches[at_[node].front()];
  if (!contact.changer || contact.b != node || circuit_.nodes[node].terminals.size() > 1) return false;
  const std::vector<BranchId>& ways = circuit_.changers[*contact.changer].branches;
  return std::any_of(ways.begin(), ways.end(), [&](BranchId id) {
    const Branch& other = circuit_.branches[id];
    return other.pole == contact.pole && other.b != node &&
           (circuit_.nodes[other.b].terminals.size() > 1 || circuit_.at[other.b].size() > 1);
  });
}

std::vector<ExposedNetwork::Stretch> ExposedNetwork::stretches_at(NodeId fed_at) {
  std::vector<Stretch> stretches;
  for (const BranchId start : at_[fed_at]) {
    if (seen_branch_[start.value]) continue;
    Stretch stretch;
    std::vector<NodeId> open;
    const auto take = [&](BranchId id, NodeId from) {
      if (seen_branch_[id.value]) return;
      seen_branch_[id.value] = true;
      stretch.branches.push_back(id);
      const NodeId to = other_end(circuit_.branches[id], from);
      if (to == fed_at || seen_node_[to.value]) return;
      seen_node_[to.value] = true;
      stretch.nodes.push_back(to);
      open.push_back(to);
    };
    take(start, fed_at);
    while (!open.empty()) {
      const NodeId node = open.back();
      open.pop_back();
      for (const BranchId id : at_[node]) take(id, node);
    }
    std::sort(stretch.branches.begin(), stretch.branches.end());
    std::sort(stretch.nodes.begin(), stretch.nodes.end());
    stretches.push_back(std::move(stretch));
  }
  for (const Stretch& stretch : stretches) {
    for (const BranchId id : stretch.branches) seen_branch_[id.value] = false;
    for (const NodeId node : stretch.nodes) seen_node_[node.value] = false;
  }
  return stretches;
}

}  // namespace loomleaf
