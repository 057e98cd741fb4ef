// Routes as text, one line a run, for tests and for looking at.
#pragma once

#include <string>

#include "loomleaf/route/route.h"

namespace loomleaf {

// C1 2.7 m: LOCKER WALL ROOF
std::string dump(const Plan& plan, const Routes& routes);

}  // namespace loomleaf
