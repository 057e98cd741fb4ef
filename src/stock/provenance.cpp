#include "loomleaf/stock/provenance.h"

namespace loomleaf {

std::string to_text(const Provenance& provenance) {
  if (provenance.known == Known::practice) return "common practice";
  if (provenance.known == Known::memory) return provenance.source + " (from memory)";
  return provenance.source;
}

}  // namespace loomleaf
