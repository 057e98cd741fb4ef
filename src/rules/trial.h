// The plan as a mend would leave it, studied anew: so that a mend line promises nothing that was not tried.
#pragma once

#include <set>
#include <string>
#include <utility>

#include "loomleaf/rules/rule.h"

namespace loomleaf {

class Trial {
 public:
  explicit Trial(const Checked& checked);
  Trial(const Trial&) = delete;
  Trial& operator=(const Trial&) = delete;

  void set_rating(ItemId device, Current rating);
  void set_size(RunId run, const WireSize& size);
  const Checked& study();

 private:
  Plan plan_;
  Study study_;
  Checked checked_;
};

// The findings of WARNING and above, by rule and what they are on. Whether devices open in normal work is left out:
// whose mend is tried asks that himself.
using GraveFindings = std::set<std::pair<std::string, std::string>>;
GraveFindings grave_findings(const Checked& checked);

// How much may be worked out again for the findings of one rule, so that a large plan full of them stays quick.
class TrialBudget {
 public:
  // In conductors, each counted once for every standing of the changeovers.
  TrialBudget(const Checked& checked, std::size_t conductors);
  bool has(std::size_t times) const { return times <= left_; }
  void spend_one() { left_ -= left_ > 0 ? 1 : 0; }

 private:
  std::size_t left_;
};
inline constexpr std::size_t most_studied_again = 5'000;  // of whole studies
inline constexpr std::size_t most_solved_again = 50'000;  // of single cases, which take far less

}  // namespace loomleaf
