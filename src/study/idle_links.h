// Links that can carry nothing, whatever is drawn: those on no ring of links, holds and ports.
#pragma once

#include <vector>

#include "loomleaf/study/network.h"

namespace loomleaf {

// By link. A bond to metalwork, a spare core, a sense lead: its ends stand at one voltage, and what hangs on one end
// knows nothing of what is drawn beyond the other.
std::vector<bool> find_idle_links(const NetworkShape& shape);

}  // namespace loomleaf
