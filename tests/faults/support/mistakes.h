// Single mistakes as people make them, to be put into sound plans.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "faults/support/sound_plan.h"
#include "support/dice.h"

namespace loomleaf::test {

struct Mistake {
  std::string name;                // "final fuse left out"
  std::string rule;                // what has to find it
  std::vector<std::string> along;  // rules that may rightly speak too; `rule` itself: of other subjects too

  // Puts it into the plan and gives the subject to be named; empty where the plan offers no place for it.
  std::string (*put)(SoundPlan& plan, Dice& dice);
};

std::span<const Mistake> mistakes_of_protection();
std::span<const Mistake> mistakes_of_work();  // too much current, too little voltage
std::span<const Mistake> mistakes_of_wiring();
std::vector<Mistake> all_mistakes();

// A circuit of one of these kinds that `suits` (null: any), the search starting anywhere. Null: none.
SoundCircuit* pick_circuit(SoundPlan& plan, Dice& dice, const std::vector<CircuitKind>& kinds,
                           bool (*suits)(const SoundPlan&, const SoundCircuit&) = nullptr);
const SoundBank& bank_of(const SoundPlan& plan, const SoundCircuit& circuit);

}  // namespace loomleaf::test
