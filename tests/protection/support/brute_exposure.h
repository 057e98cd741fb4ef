// Exposure straight from its definition, point by point and conductor by conductor: slow and plain.
#pragma once

#include "protection/support/judge.h"

namespace loomleaf::test {

struct BruteVerdict {
  bool exposed_feed = false;
  Exposure exposure = Exposure::protected_;
  double length_m = -1;  // the exposed length; negative: none
};

// By conductor, as feed alone.
std::vector<BruteVerdict> brute_exposure(const TestPlan& built, const Judged& judged, const Rulebook& book);

}  // namespace loomleaf::test
