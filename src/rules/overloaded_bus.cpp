#include "catalogue.h"
#include "overload.h"
#include "steps.h"

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

Steps work_out(const Checked& checked, const Subject& subject) {
  const ItemId* item = std::get_if<ItemId>(&subject);
  const Bus* joint = item ? checked.plan.items[*item].as<Bus>() : nullptr;
  if (!joint) return {};
  return overload_steps(checked, "half the sum of all currents that meet there", checked.study.working.joints[*item],
                        joint->rating);
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
    check,
    "Held against its rating is half the sum of the magnitudes of all currents that meet in it, at its "
    "greatest over all cases.",
    "80 A come in, 50 A and 30 A go out: (80 + 50 + 30) / 2 = 80 A through the bus.",
    work_out};

}  // namespace loomleaf
