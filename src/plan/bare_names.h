// What bare names must not do unseen: put two conductors on one side of a device, or by-pass it.
#pragma once

#include <vector>

#include "draft.h"
#include "ends.h"

namespace loomleaf {

// A conductor with what its ends were written as.
struct Join {
  ConductorId conductor;
  EndTerminal from, to;
};

// Bare names choose a terminal by direction. Where two conductors thus meet on one side of a device, contact or pole
// and nothing is on its other side, one of them was drawn the wrong way round: the fuse would stand in nothing's way.
// Where a bare item that is `on` something is wired to that very thing, or stands in the middle of a chain, the wires
// would run past the item.
void check_bare_names(Draft& draft, const std::vector<Join>& joins);

}  // namespace loomleaf
