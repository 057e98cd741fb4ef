// The least copper that brings a load's drop down.
#pragma once

#include <map>
#include <optional>
#include <string>

#include "loomleaf/rules/rule.h"
#include "trial.h"

namespace loomleaf {

// So much is lost in a case, and so much may be.
struct TooMuchLost {
  std::size_t in_case = 0;
  Voltage drop{}, limit{};
};
// What is too much of a load's figures; nothing where all is well.
using JudgeDrop = std::optional<TooMuchLost> (*)(const Plan& plan, ItemId load, const LoadResult& result);

// Works out cures for many loads, each case once.
class DropCures {
 public:
  DropCures(const Checked& checked, JudgeDrop judge);
  // "make W3 12 AWG at least": enough for this load (by position in circuit.loads) in every case, and nothing that is a
  // WARNING or more comes of it. Tried, but for the last ones of very many; of still more nothing is worked out.
  std::string text(std::size_t load);

 private:
  using Sizes = std::map<RunId, WireSize>;
  std::optional<Sizes> sizes_for(std::size_t load);
  const Solution* solution_in(std::size_t in_case);

  const Checked& checked_;
  JudgeDrop judge_;
  TrialBudget studies_, cases_;
  std::map<std::size_t, Solution> solutions_;  // by case of the plan as it is
  std::optional<GraveFindings> grave_;         // of the plan as it is, once they are asked for
};

}  // namespace loomleaf
