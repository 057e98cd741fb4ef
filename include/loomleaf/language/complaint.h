// What is wrong with the text of a plan, and what to write instead.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "loomleaf/language/source_text.h"

namespace loomleaf {

// One thing that cannot be understood. `message` stands alone, in the user's words, lower case, no full stop.
// `write` is what to put there instead; empty only where nothing sensible can be offered.
// A complaint that `refuses` says that the plan is out of the program's bounds (mains, over 60 V DC).
struct Complaint {
  struct Also {
    Span span;
    std::string text;  // "first declared here"
  };

  Span span;
  std::string message;
  std::string write;
  std::optional<Also> also;
  bool refuses = false;
};

// FILE:LINE:COLUMN: message, the line, the span underlined with ^~~~, then "write: ..." (and the second place).
// Control characters of the plan's text are printed as a visible replacement, never as themselves; long lines are
// cut to what surrounds the span.
std::string to_text(const Complaint& complaint, const SourceText& source);

// In order of place; of the complaints that start at one place, the first made stays.
void sort_by_place(std::vector<Complaint>& complaints);

}  // namespace loomleaf
