// What stands on a wire: its name and colour, and above the line its size and length.
#pragma once

#include <string>
#include <vector>

#include "diagram_block.h"

namespace loomleaf {

struct LineTag {
  std::vector<BlockText> texts;  // from where the tag starts on its line
  double width = 0.0, height = 0.0;
};

// `named`: with the name of its wire or cable.
LineTag tag_of(const BlockSource& source, const FigureLine& line, bool named);

}  // namespace loomleaf
