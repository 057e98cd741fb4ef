// What passes a leg in conduit, held against its bore.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "loomleaf/rules/rule.h"

namespace loomleaf {

struct ConduitFill {
  std::vector<std::string> runs;     // those whose outside diameter is known
  std::vector<double> sections_mm2;  // of each
  std::vector<std::string> unknown;  // those whose diameter the stock lacks: they count in number alone
  double section_mm2 = 0.0, bore_mm2 = 0.0;
  double limit = 1.0;  // share of the bore for so many
  std::size_t count() const { return runs.size() + unknown.size(); }
  double share() const { return section_mm2 / bore_mm2; }
};

// Nothing where the leg is in no conduit, nothing passes it, or the rulebook has no limit.
std::optional<ConduitFill> conduit_fill_of(const Checked& checked, LegId leg);

// Whether what is known of it is too much already.
bool is_too_full(const ConduitFill& fill);

}  // namespace loomleaf
