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

// How much may be tried for the findings of one rule, so that a large plan full of them stays quick.
class TrialBudget {
 public:
  explicit TrialBudget(const Checked& checked);
  // Whether so many more studies are within it; if so they count as spent.
  bool spend(std::size_t studies);

 private:
  std::size_t left_;
};

}  // namespace loomleaf
