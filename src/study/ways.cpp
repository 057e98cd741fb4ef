#include "loomleaf/study/ways.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <utility>

#include "covering_rows.h"
#include "loomleaf/circuit/joined_sets.h"

namespace loomleaf {
namespace {

constexpr std::size_t most_combinations = 64;  // that are all taken, of a group or of all that hangs together
// Every standing is a study of the whole plan: so many branches are studied at the most, all standings counted, beyond
// what each group takes for itself.
constexpr std::size_t most_work = 50000;

// The ways one changeover is taken through, the first in front.
using Choices = std::vector<int>;

bool is_joined(const Circuit& circuit, NodeId node) {
  return circuit.nodes[node].terminals.size() > 1 || circuit.at[node].size() > 1;
}

// A relay with nothing at one of its contacts is a one-way contact: it stands closed on the other.
Choices choices_of(const Plan& plan, const Circuit& circuit, const Changer& changer) {
  Choices all(static_cast<std::size_t>(std::max(changer.positions(), 1)));
  std::iota(all.begin(), all.end(), 0);
  if (!plan.items[changer.item].is<Relay>()) return all;
  Choices joined;
  for (const int way : all)
    for (const BranchId branch : changer.branches)
      if (circuit.branches[branch].way == way && is_joined(circuit, circuit.branches[branch].b)) joined.push_back(way);
  if (joined.empty()) joined.push_back(changer.ways - 1);
  return joined;
}

// Changeovers, each set in the order of its IDs: what is tried does not depend on where a plan declares them.
using ChangerSet = std::vector<ChangerId>;

// Poles that move together are one changeover, whatever they join.
void join_poles(const Circuit& circuit, JoinedSets& nodes) {
  for (const Changer& changer : circuit.changers)
    for (const BranchId branch : changer.branches)
      nodes.join(circuit.branches[branch].a.value, circuit.branches[changer.branches.front()].a.value);
}

// What meets through conductors and contacts.
JoinedSets join_without_devices(const Circuit& circuit) {
  JoinedSets nodes(circuit.nodes.size());
  for (const Branch& branch : circuit.branches)
    if (branch.kind != BranchKind::device) nodes.join(branch.a.value, branch.b.value);
  join_poles(circuit, nodes);
  return nodes;
}

// What hangs together through anything.
JoinedSets join_all(const Circuit& circuit) {
  JoinedSets nodes(circuit.nodes.size());
  for (const Branch& branch : circuit.branches) nodes.join(branch.a.value, branch.b.value);
  for (const auto* list : {&circuit.sources, &circuit.loads, &circuit.coils})
    for (const TwoPole& item : *list) nodes.join(item.plus.value, item.minus.value);
  for (const ConverterPorts& ports : circuit.converters) {
    nodes.join(ports.in_plus.value, ports.in_minus.value);
    nodes.join(ports.out_plus.value, ports.out_minus.value);
    nodes.join(ports.in_plus.value, ports.out_plus.value);
  }
  join_poles(circuit, nodes);
  return nodes;
}

std::vector<ChangerSet> sets_of(const Circuit& circuit, const ChangerSet& changers, JoinedSets nodes) {
  std::vector<ChangerSet> sets;
  std::map<std::size_t, std::size_t> set_at;
  for (const ChangerId id : changers) {
    const BranchId branch = circuit.changers[id].branches.front();
    const auto [place, fresh] = set_at.try_emplace(nodes.root(circuit.branches[branch].a.value), sets.size());
    if (fresh) sets.emplace_back();
    sets[place->second].push_back(id);
  }
  return sets;
}

ChangerSet changers_by_id(const Plan& plan, const Circuit& circuit, const IndexedList<ChangerOf, Choices>& choices) {
  ChangerSet all;
  for (const ChangerId id : circuit.changers.ids())
    if (choices[id].size() > 1) all.push_back(id);
  std::ranges::sort(all, {},
                    [&](ChangerId id) -> const std::string& { return plan.items[circuit.changers[id].item].id; });
  return all;
}

std::string position_text(const Item& item, const Changer& changer, int way) {
  if (item.is<Relay>()) return std::to_string(way);
  return way == changer.ways ? "both" : std::to_string(way + 1);
}

std::string text_of(const Plan& plan, const Circuit& circuit, const IndexedList<ChangerOf, int>& way_of,
                    const IndexedList<ChangerOf, int>& first_way) {
  std::string text;
  for (const ChangerId id : circuit.changers.ids()) {
    if (way_of[id] == first_way[id]) continue;
    const Item& item = plan.items[circuit.changers[id].item];
    if (!text.empty()) text += ' ';
    text += item.id + '=' + position_text(item, circuit.changers[id], way_of[id]);
  }
  return text;
}

// What the changeovers of one set are taken through, each row by their positions in the set.
class RowsOfSet {
 public:
  RowsOfSet(const Circuit& circuit, const IndexedList<ChangerOf, Choices>& choices)
      : circuit_(circuit),
        choices_(choices),
        meeting_(join_without_devices(circuit)),
        most_rows_(most_work / std::max<std::size_t>(circuit.branches.size(), 1)) {}

  // Whether these rows, of which none is there twice, are every combination.
  bool are_all(const std::vector<FactorRow>& rows, const ChangerSet& set) const {
    return count_combinations(levels_of(set), rows.size()) == rows.size();
  }

  std::vector<FactorRow> rows(const ChangerSet& set) const {
    const std::size_t combinations = count_combinations(levels_of(set), most_combinations);
    if (combinations <= std::min(most_combinations, most_rows_)) return every_combination(levels_of(set));
    FactorSet factors{levels_of(set), {}, {}};
    std::map<ChangerId, std::size_t> position_of;
    for (std::size_t i = 0; i < set.size(); ++i) position_of[set[i]] = i;
    for (const ChangerSet& group : sets_of(circuit_, set, meeting_)) {
      const bool is_many = count_combinations(levels_of(group), most_combinations) > most_combinations;
      for (const ChangerId id : group) {
        if (is_many || id == group.front()) factors.groups.emplace_back();
        factors.groups.back().push_back(position_of.at(id));
        if (is_many) factors.alone.push_back(position_of.at(id));
      }
    }
    return covering_rows(factors, most_rows_);
  }

 private:
  std::vector<std::size_t> levels_of(const ChangerSet& set) const {
    std::vector<std::size_t> levels;
    for (const ChangerId id : set) levels.push_back(choices_[id].size());
    return levels;
  }

  const Circuit& circuit_;
  const IndexedList<ChangerOf, Choices>& choices_;
  JoinedSets meeting_;
  std::size_t most_rows_;
};

}  // namespace

WaysReading enumerate_ways(const Plan& plan, const Circuit& circuit) {
  IndexedList<ChangerOf, Choices> choices;
  IndexedList<ChangerOf, int> first_way;
  for (const Changer& changer : circuit.changers) {
    choices.add(choices_of(plan, circuit, changer));
    first_way.add(choices[ChangerId(choices.size() - 1)].front());
  }

  WaysReading reading;
  const RowsOfSet rows_of_set(circuit, choices);
  const std::vector<ChangerSet> sets = sets_of(circuit, changers_by_id(plan, circuit, choices), join_all(circuit));
  std::vector<std::vector<FactorRow>> rows;
  std::size_t most_rows = 1;
  for (const ChangerSet& set : sets) {
    rows.push_back(rows_of_set.rows(set));
    most_rows = std::max(most_rows, rows.back().size());
    if (rows_of_set.are_all(rows.back(), set)) continue;
    auto& items = reading.not_combined.emplace_back();
    for (const ChangerId id : set) items.push_back(circuit.changers[id].item);
  }

  for (std::size_t i = 0; i < most_rows; ++i) {
    Ways ways{first_way, {}};
    for (std::size_t s = 0; s < sets.size(); ++s)
      for (std::size_t at = 0; i < rows[s].size() && at < sets[s].size(); ++at)
        ways.way_of[sets[s][at]] = choices[sets[s][at]][rows[s][i][at]];
    ways.text = text_of(plan, circuit, ways.way_of, first_way);
    reading.all.push_back(std::move(ways));
  }
  return reading;
}

bool conducts(const Circuit& circuit, BranchId branch, const Ways& ways) {
  const Branch& b = circuit.branches[branch];
  return !b.changer || circuit.changers[*b.changer].closes(b.way, ways.way_of[*b.changer]);
}

}  // namespace loomleaf
