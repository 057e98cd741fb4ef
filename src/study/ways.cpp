#include "loomleaf/study/ways.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <utility>

#include "loomleaf/circuit/joined_sets.h"

namespace loomleaf {
namespace {

constexpr std::size_t most_combinations = 64;

// The ways one changeover is taken through, the first in front.
using Choices = std::vector<int>;

bool is_joined(const Circuit& circuit, NodeId node) {
  return circuit.nodes[node].terminals.size() > 1 || circuit.at[node].size() > 1;
}

// A relay with nothing at one of its contacts is a one-way contact: it stands closed on the other.
Choices choices_of(const Plan& plan, const Circuit& circuit, const Changer& changer) {
  Choices all(static_cast<std::size_t>(std::max(changer.ways, 1)));
  std::iota(all.begin(), all.end(), 0);
  if (!plan.items[changer.item].is<Relay>()) return all;
  Choices joined;
  for (const int way : all)
    for (const BranchId branch : changer.branches)
      if (circuit.branches[branch].way == way && is_joined(circuit, circuit.branches[branch].b)) joined.push_back(way);
  if (joined.empty()) joined.push_back(changer.ways - 1);
  return joined;
}

// Changeovers that meet through conductors and contacts, each group in the plan's order.
std::vector<std::vector<ChangerId>> group_changers(const Circuit& circuit) {
  JoinedSets nodes(circuit.nodes.size());
  for (const Branch& branch : circuit.branches)
    if (branch.kind != BranchKind::device) nodes.join(branch.a.value, branch.b.value);
  // Poles that move together are one changeover, whatever they join.
  for (const Changer& changer : circuit.changers)
    for (const BranchId branch : changer.branches)
      nodes.join(circuit.branches[branch].a.value, circuit.branches[changer.branches.front()].a.value);
  std::vector<std::vector<ChangerId>> groups;
  std::map<std::size_t, std::size_t> group_at;
  for (const ChangerId id : circuit.changers.ids()) {
    const Changer& changer = circuit.changers[id];
    if (changer.branches.empty()) continue;
    const std::size_t root = nodes.root(circuit.branches[changer.branches.front()].a.value);
    const auto [place, fresh] = group_at.try_emplace(root, groups.size());
    if (fresh) groups.emplace_back();
    groups[place->second].push_back(id);
  }
  return groups;
}

// What one group runs through: for each step the changeovers that are not in their first way.
using Step = std::vector<std::pair<ChangerId, int>>;

bool is_too_many(const std::vector<ChangerId>& group, const IndexedList<ChangerOf, Choices>& choices) {
  std::size_t count = 1;
  for (const ChangerId id : group) {
    count *= choices[id].size();
    if (count > most_combinations) return true;
  }
  return false;
}

std::vector<Step> every_combination(const std::vector<ChangerId>& group,
                                    const IndexedList<ChangerOf, Choices>& choices) {
  std::vector<Step> steps{Step{}};
  for (const ChangerId id : group) {
    const std::size_t before = steps.size();
    for (std::size_t choice = 1; choice < choices[id].size(); ++choice)
      for (std::size_t i = 0; i < before; ++i) {
        Step step = steps[i];
        step.emplace_back(id, choices[id][choice]);
        steps.push_back(std::move(step));
      }
  }
  return steps;
}

std::vector<Step> each_alone(const std::vector<ChangerId>& group, const IndexedList<ChangerOf, Choices>& choices) {
  std::vector<Step> steps{Step{}};
  for (const ChangerId id : group)
    for (std::size_t choice = 1; choice < choices[id].size(); ++choice) steps.push_back({{id, choices[id][choice]}});
  return steps;
}

std::string text_of(const Plan& plan, const Circuit& circuit, Step moved) {
  std::sort(moved.begin(), moved.end());
  std::string text;
  for (const auto& [id, way] : moved) {
    const Item& item = plan.items[circuit.changers[id].item];
    if (!text.empty()) text += ' ';
    text += item.id + '=' + std::to_string(item.is<Relay>() ? way : way + 1);
  }
  return text;
}

}  // namespace

WaysReading enumerate_ways(const Plan& plan, const Circuit& circuit) {
  IndexedList<ChangerOf, Choices> choices;
  IndexedList<ChangerOf, int> first_way;
  for (const Changer& changer : circuit.changers) {
    choices.add(choices_of(plan, circuit, changer));
    first_way.add(choices[ChangerId(choices.size() - 1)].front());
  }

  WaysReading reading;
  std::vector<std::vector<Step>> groups;
  std::size_t most_steps = 1;
  for (const auto& group : group_changers(circuit)) {
    const bool too_many = is_too_many(group, choices);
    groups.push_back(too_many ? each_alone(group, choices) : every_combination(group, choices));
    most_steps = std::max(most_steps, groups.back().size());
    if (!too_many) continue;
    auto& items = reading.not_combined.emplace_back();
    for (const ChangerId id : group) items.push_back(circuit.changers[id].item);
  }

  for (std::size_t i = 0; i < most_steps; ++i) {
    Ways ways{first_way, {}};
    Step moved;
    for (const auto& steps : groups)
      if (i < steps.size()) moved.insert(moved.end(), steps[i].begin(), steps[i].end());
    for (const auto& [id, way] : moved) ways.way_of[id] = way;
    ways.text = text_of(plan, circuit, std::move(moved));
    reading.all.push_back(std::move(ways));
  }
  return reading;
}

bool conducts(const Circuit& circuit, BranchId branch, const Ways& ways) {
  const Branch& b = circuit.branches[branch];
  return !b.changer || ways.way_of[*b.changer] == b.way;
}

}  // namespace loomleaf
