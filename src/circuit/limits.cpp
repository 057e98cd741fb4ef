#include "loomleaf/circuit/limits.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <string>

#include "loomleaf/circuit/joined_sets.h"
#include "loomleaf/units/format.h"
#include "source_chains.h"

namespace loomleaf {

namespace {

constexpr std::size_t most_combinations = 64;

// The ways of all changeovers together: every combination while these are few, else all in their first way, all in
// their second, and so on.
std::vector<std::vector<int>> standings(const Circuit& circuit) {
  std::size_t combinations = 1;
  int most_ways_of_one = 1;
  for (const Changer& changer : circuit.changers) {
    combinations = std::min(combinations * static_cast<std::size_t>(changer.positions()), most_combinations + 1);
    most_ways_of_one = std::max(most_ways_of_one, changer.positions());
  }
  std::vector<std::vector<int>> all;
  const bool is_few = combinations <= most_combinations;
  const std::size_t count = is_few ? combinations : static_cast<std::size_t>(most_ways_of_one);
  for (std::size_t n = 0; n < count; ++n) {
    std::size_t rest = n;
    std::vector<int>& ways = all.emplace_back();
    for (const Changer& changer : circuit.changers) {
      const auto of_this = static_cast<std::size_t>(changer.positions());
      ways.push_back(static_cast<int>(is_few ? rest % of_this : std::min(n, of_this - 1)));
      if (is_few) rest /= of_this;
    }
  }
  return all;
}

std::vector<SourceStep> steps_in(const Plan& plan, const Circuit& circuit, const std::vector<int>& ways) {
  JoinedSets parts(circuit.nodes.size());
  for (const Branch& branch : circuit.branches)
    if (!branch.changer || circuit.changers[*branch.changer].closes(branch.way, ways[branch.changer->value]))
      parts.join(branch.a.value, branch.b.value);
  std::vector<SourceStep> steps;
  const auto add = [&](ItemId item, NodeId minus, NodeId plus, Voltage voltage) {
    steps.push_back({item, parts.root(minus.value), parts.root(plus.value), voltage.in(volts)});
  };
  for (const TwoPole& source : circuit.sources)
    add(source.item, source.minus, source.plus, plan.items[source.item].as<Source>()->high_or_nominal());
  for (const ConverterPorts& ports : circuit.converters)
    add(ports.item, ports.out_minus, ports.out_plus, plan.items[ports.item].as<Converter>()->out_voltage);
  std::erase_if(steps, [](const SourceStep& step) { return step.from == step.to; });
  return steps;
}

}  // namespace

std::vector<Complaint> check_voltage_limits(const Plan& plan, const Circuit& circuit) {
  std::map<ItemId, Complaint> at_item;  // one for each topmost source
  for (const std::vector<int>& ways : standings(circuit)) {
    for (const SourceChain& chain : highest_chains(steps_in(plan, circuit, ways))) {
      if (chain.steps.size() < 2 || chain.voltage_V <= highest_voltage.in(volts) + rounding_V) continue;
      std::string names;
      for (const SourceStep& step : chain.steps)
        names += fmt::format("{}{}",
                             names.empty()                  ? ""
                             : &step == &chain.steps.back() ? " and "
                                                            : ", ",
                             plan.items[step.item].id);
      const ItemId top = chain.steps.back().item;
      at_item.try_emplace(top, Complaint{plan.items[top].id_span,
                                         fmt::format("{} together put {} between two points, above 60 V DC: that work "
                                                     "belongs to licensed practice, and no plan can hold it",
                                                     names, to_text(volts(chain.voltage_V))),
                                         "", std::nullopt, true});
    }
  }
  std::vector<Complaint> complaints;
  for (auto& [item, complaint] : at_item) complaints.push_back(std::move(complaint));
  return complaints;
}

}  // namespace loomleaf
