#include "catalogue.h"
#include "overload.h"

namespace loomleaf {

namespace {

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  for (const ItemId item : checked.plan.items.ids()) {
    const Bus* bus = checked.plan.items[item].as<Bus>();
    if (bus) add_overload(findings, overloaded_bus, checked, item, checked.study.working.joints[item], bus->rating);
  }
  return findings;
}

}  // namespace

constexpr Rule overloaded_bus = {
    "overloaded-bus",
    Severity::warning,
    "More current passes a bus bar, a fuse block's feed or a stud in normal work than it is rated for. What "
    "passes is half the sum of the magnitudes of the currents in all that meets there.",
    "The bar and its screws get hot, the screws work loose, and the fuses on it open for heat that is not their "
    "circuit's.",
    "A bus of a higher rating, or a second one that takes part of the circuits.",
    "The rating that the plan states for the bus.",
    check};

}  // namespace loomleaf
