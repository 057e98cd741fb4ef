// A plan as text, one line a thing, for tests and for looking at.
#pragma once

#include <string>

#include "loomleaf/plan/plan.h"

namespace loomleaf {

// place ROOF (Roof lining) / leg LOCKER to WALL 1.6 m / fuse F1 at LOCKER: in on PB, out / C1.red: F1.out to D1.in+
std::string dump(const Plan& plan);

std::string standing_text(const Plan& plan, const Standing& standing);  // "ROOF 0.3 m"

}  // namespace loomleaf
