// The body colours of colour-coded fuses.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "loomleaf/stock/provenance.h"
#include "loomleaf/stock/stock.h"

namespace loomleaf {

struct FuseColour {
  std::vector<std::string> families;
  Current rating{};
  std::string name;  // "light blue"
  Provenance from;
};

struct FuseColours {
  std::vector<FuseColour> all;

  // The colour of a rating in a family; empty where that family has no code, or the rating no place in it.
  std::string_view find(std::string_view family, Current rating) const;
};

// Reads stock/fuse_colours.xml.
Loaded<FuseColours> load_fuse_colours(const TemplateFolders& folders);

}  // namespace loomleaf
