#include "left_live.h"

#include <algorithm>

namespace loomleaf {

LeftLive::LeftLive(const Checked& checked) : checked_(checked), at_(checked.circuit.nodes.size()) {
  const Circuit& circuit = checked.circuit;
  for (const auto* list : {&circuit.loads, &circuit.coils})
    for (const TwoPole& item : *list) add(item.item, item.plus, item.minus);
  for (const ConverterPorts& ports : circuit.converters) add(ports.item, ports.in_plus, ports.in_minus);
}

void LeftLive::add(ItemId item, NodeId plus, NodeId minus) {
  for (const NodeId node : {plus, minus}) at_[node].push_back(consumers_.size());
  consumers_.push_back({item, plus, minus});
}

LeftLive::Walk LeftLive::begin() const {
  Walk walk;
  walk.seen = IndexedList<NodeOf, bool>(checked_.circuit.nodes.size());
  return walk;
}

void LeftLive::enter(Walk& walk, NodeId node) const {
  if (walk.seen[node]) return;
  walk.seen[node] = true;
  walk.order.push_back(node);
}

void LeftLive::step(Walk& walk, const Opened& opened) const {
  const Circuit& circuit = checked_.circuit;
  const NodeId node = walk.order[walk.next++];
  for (const BranchId id : circuit.at[node]) {
    const Branch& branch = circuit.branches[id];
    if (branch.item == opened.item || !conducts(circuit, id, opened.ways)) continue;
    enter(walk, branch.a == node ? branch.b : branch.a);
  }
}

bool LeftLive::has_minus(const Walk& walk, NodeId in_part_of, const Sides& sides) const {
  return std::ranges::any_of(sides.minus_in[sides.part_of[in_part_of]],
                             [&](SupplyId supply) { return walk.seen[sides.supplies[supply].minus]; });
}

std::optional<ItemId> LeftLive::first_live(const Walk& parted, NodeId pole, const Opened& opened) const {
  // The + of supplies that the pole parts from what is looked at.
  IndexedList<NodeOf, bool> feeds(checked_.circuit.nodes.size());
  for (const SupplyId id : opened.sides.minus_in[opened.sides.part_of[pole]]) {
    const Supply& supply = opened.sides.supplies[id];
    if (!parted.seen[supply.minus]) feeds[supply.plus] = true;
  }
  Walk dead = begin();  // whatever an earlier walk has seen without meeting a +
  for (const NodeId node : parted.order) {
    for (const std::size_t at : at_[node]) {
      const Consumer& consumer = consumers_[at];
      const NodeId other = consumer.plus == node ? consumer.minus : consumer.plus;
      if (parted.seen[other] || opened.sides.plus_in[opened.sides.part_of[other]].empty()) continue;
      enter(dead, other);
      while (!dead.is_done()) {
        if (feeds[dead.order[dead.next]]) return consumer.item;
        step(dead, opened);
      }
    }
  }
  return std::nullopt;
}

std::optional<ItemId> LeftLive::behind(BranchId pole, std::size_t ways) const {
  const Branch& at = checked_.circuit.branches[pole];
  const Opened opened{*at.item, checked_.study.ways.all[ways], checked_.study.sides[ways]};
  // Both sides by turns, so that the way is no longer than the smaller side.
  Walk a = begin(), b = begin();
  enter(a, at.a);
  enter(b, at.b);
  while (!a.is_done() && !b.is_done()) {
    const NodeId from_a = a.order[a.next], from_b = b.order[b.next];
    if (b.seen[from_a] || a.seen[from_b]) return std::nullopt;  // they are joined past the pole too
    step(a, opened);
    step(b, opened);
  }
  Walk& small = a.is_done() ? a : b;
  Walk& large = a.is_done() ? b : a;
  const auto live = first_live(small, at.a, opened);
  if (live || !has_minus(small, at.a, opened.sides)) return live;
  while (!large.is_done()) step(large, opened);
  return first_live(large, at.a, opened);
}

}  // namespace loomleaf
