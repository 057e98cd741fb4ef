// The protection study of a hand-made installation.
#pragma once

#include <vector>

#include "protection/support/test_plan.h"

namespace loomleaf::test {

// A book with the rows of the recreational-vehicle rules: one length, 457.2 mm (NEC 552.10(E)(4)), and no starter row.
Rulebook plain_book();

// Sides for every way, and the protection over all of them.
struct Judged {
  Circuit circuit;
  std::vector<Ways> ways;
  std::vector<Sides> sides;
  Protection protection;
};
Judged judge(const TestPlan& built, const Rulebook& book = plain_book());

}  // namespace loomleaf::test
