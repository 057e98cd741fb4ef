// The same installation with everything in another order.
#pragma once

#include "protection/support/test_plan.h"

namespace loomleaf::test {

TestPlan renumbered(const TestPlan& built, unsigned seed);

}  // namespace loomleaf::test
