// The plan's `accept` lines, found by rule and subject.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "loomleaf/plan/plan.h"

namespace loomleaf {

class Acceptances {
 public:
  explicit Acceptances(const Plan& plan);
  // Positions in plan.acceptances of those that cover a finding of this rule whose first subject is this one. What is
  // said of a cable goes for its cores too.
  std::vector<std::size_t> covering(std::string_view rule, const std::string& subject) const;

 private:
  std::unordered_map<std::string, std::vector<std::size_t>> by_rule_and_subject_;
};

}  // namespace loomleaf
