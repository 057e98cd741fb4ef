// Where a figure comes from.
#pragma once

#include <string>

namespace loomleaf {

// seen: read in a published source; memory: known of it, not read for this project; practice: custom of the trade.
enum class Known { seen, memory, practice };

struct Provenance {
  std::string source;             // "NEC 552.10(E)(1)"
  Known known = Known::memory;
};
// "NEC 552.10(E)(1)", "ISO 10133 8.1 (from memory)", "common practice".
std::string to_text(const Provenance& provenance);

template <class T>
struct Figure {
  T value{};
  Provenance from;
};

}  // namespace loomleaf
