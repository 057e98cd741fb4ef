#include "protection/support/renumbered.h"

#include <algorithm>
#include <numeric>
#include <random>

namespace loomleaf::test {
namespace {

// old_at[new place] = old place
std::vector<std::size_t> shuffled(std::size_t count, std::mt19937& random) {
  std::vector<std::size_t> order(count);
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::shuffle(order.begin(), order.end(), random);
  return order;
}

std::vector<std::size_t> inverse(const std::vector<std::size_t>& order) {
  std::vector<std::size_t> place(order.size());
  for (std::size_t i = 0; i < order.size(); ++i) place[order[i]] = i;
  return place;
}

}  // namespace

TestPlan renumbered(const TestPlan& built, unsigned seed) {
  std::mt19937 random(seed);
  const std::vector<std::size_t> items = shuffled(built.plan.items.size(), random),
                                 terminals = shuffled(built.plan.terminals.size(), random),
                                 wires = shuffled(built.plan.conductors.size(), random);
  const std::vector<std::size_t> item_at = inverse(items), terminal_at = inverse(terminals);
  const auto moved = [&](TerminalId id) { return TerminalId(terminal_at[id.value]); };

  TestPlan other;
  for (const std::size_t old : items) {
    Item item = built.plan.items[ItemId(old)];
    for (TerminalId& terminal : item.terminals) terminal = moved(terminal);
    if (item.on) item.on = moved(*item.on);
    if (item.on_terminal) item.on_terminal = moved(*item.on_terminal);
    other.plan.items.add(item);
  }
  for (const std::size_t old : terminals) {
    Terminal terminal = built.plan.terminals[TerminalId(old)];
    terminal.item = ItemId(item_at[terminal.item.value]);
    other.plan.terminals.add(terminal);
  }
  for (const std::size_t old : wires) {
    Conductor conductor = built.plan.conductors[ConductorId(old)];
    conductor.from = moved(conductor.from);
    conductor.to = moved(conductor.to);
    Run run = built.plan.runs[conductor.run];
    other.routes.runs.add(built.routes.runs[conductor.run]);
    conductor.run = RunId(other.plan.runs.size());
    run.conductors = {ConductorId(other.plan.conductors.size())};
    other.plan.runs.add(run);
    other.plan.conductors.add(conductor);
    other.figures.add(built.figures[ConductorId(old)]);
  }
  return other;
}

}  // namespace loomleaf::test
