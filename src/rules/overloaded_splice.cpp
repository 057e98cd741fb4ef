#include "catalogue.h"
#include "overload.h"

namespace loomleaf {

namespace {

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  for (const ItemId item : checked.plan.items.ids()) {
    const Splice* splice = checked.plan.items[item].as<Splice>();
    if (splice)
      add_overload(findings, overloaded_splice, checked, item, checked.study.working.joints[item], splice->rating);
  }
  return findings;
}

}  // namespace

constexpr Rule overloaded_splice = {
    "overloaded-splice",
    Severity::warning,
    "More current passes a splice in normal work than it is rated for. What passes is half the sum of the "
    "magnitudes of the currents in all that meets there.",
    "A joint is the warmest spot of any circuit. Overloaded it bakes its own contact until it glows, mostly where "
    "nobody looks.",
    "A splice of a higher rating, or a second splice that takes part of the branches.",
    "The rating that the plan states for the splice.",
    check};

}  // namespace loomleaf
