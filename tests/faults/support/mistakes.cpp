#include "faults/support/mistakes.h"

#include <algorithm>
#include <stdexcept>

namespace loomleaf::test {

std::vector<Mistake> all_mistakes() {
  std::vector<Mistake> all;
  for (const auto& some : {mistakes_of_protection(), mistakes_of_work(), mistakes_of_wiring()})
    all.insert(all.end(), some.begin(), some.end());
  return all;
}

SoundCircuit* pick_circuit(SoundPlan& plan, Dice& dice, const std::vector<CircuitKind>& kinds,
                           bool (*suits)(const SoundPlan&, const SoundCircuit&)) {
  const std::size_t count = plan.circuits.size();
  const auto start = static_cast<std::size_t>(dice.below(static_cast<int>(count)));
  for (std::size_t i = 0; i < count; ++i) {
    SoundCircuit& circuit = plan.circuits[(start + i) % count];
    if (std::ranges::find(kinds, circuit.kind) != kinds.end() && (!suits || suits(plan, circuit))) return &circuit;
  }
  return nullptr;
}

const SoundBank& bank_of(const SoundPlan& plan, const SoundCircuit& circuit) {
  const auto found = std::ranges::find(plan.banks, circuit.plus, &SoundBank::bus);
  if (found == plan.banks.end()) throw std::out_of_range("a circuit on a panel, not on its bank");
  return *found;
}

}  // namespace loomleaf::test
