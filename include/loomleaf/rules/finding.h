// A finding: what a check has to say, as data.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "loomleaf/language/source_text.h"

namespace loomleaf {

// Ranked, in the words of ANSI Z535 with our meanings.
enum class Severity {
  notice,   // worth knowing
  caution,  // will not work well
  warning,  // can overheat or fail
  danger,   // fire or injury at power-up
};
std::string_view name_of(Severity severity);  // "DANGER"

struct FindingValues {
  double is = 0.0;
  double may_be = 0.0;
  std::string unit;  // "A", "%", "V", "mm2"
};

struct Finding {
  std::string rule;  // "gauge-mismatch"
  Severity severity = Severity::notice;
  std::vector<std::string> subjects;  // IDs, the one to look at first in front
  std::string message;                // both figures, in plain words
  std::string mend;                   // the cheapest cure
  std::string source;                 // standard and table, or "common practice"
  Span span;
  std::optional<FindingValues> values;
  std::optional<std::string> accepted;  // the plan's reason, where it accepts this
};

}  // namespace loomleaf
