// How many cores a cable has, and of what colours.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "with_default.h"

namespace loomleaf {

struct Cores {
  std::optional<std::size_t> count;  // as said; absent: as many as its ends ask for
  std::vector<WireColour> colours;   // one a core, or none
  bool from_default = false;
};

Cores read_cores(const WithDefault& cable);

// "C1.red", or "C1.2" of a cable without colours.
std::string core_id(const std::string& cable, const Cores& cores, std::size_t position);

}  // namespace loomleaf
