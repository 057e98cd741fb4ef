// Small installations wired at random, right and wrong, with at most eight things that can be cut.
#pragma once

#include <random>

#include "protection/support/test_plan.h"

namespace loomleaf::test {

TestPlan random_plan(unsigned seed);

}  // namespace loomleaf::test
