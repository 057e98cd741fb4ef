#include "catalogue.h"
#include "overload.h"
#include "splices_sold.h"
#include "steps.h"

namespace loomleaf {

namespace {

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  const IndexedList<ItemOf, ItemEnds> ends = ends_at_items(checked.plan);
  for (const ItemId item : checked.plan.items.ids()) {
    const Splice* splice = checked.plan.items[item].as<Splice>();
    if (!splice) continue;
    const std::size_t before = findings.size();
    add_overload(findings, overloaded_splice, checked, item, checked.study.working.joints[item], splice->rating);
    if (findings.size() > before) findings.back().mend += "; " + splice_sold_text(checked, item, ends[item]);
  }
  return findings;
}

Steps work_out(const Checked& checked, const Subject& subject) {
  const ItemId* item = std::get_if<ItemId>(&subject);
  const Splice* joint = item ? checked.plan.items[*item].as<Splice>() : nullptr;
  if (!joint) return {};
  return overload_steps(checked, "half the sum of all currents that meet there", checked.study.working.joints[*item],
                        joint->rating);
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
    "The rating that the plan states for the splice; one of the stock is named where it takes the current and all that "
    "ends there.",
    check,
    "Held against its rating is half the sum of the magnitudes of all currents that meet in it, at its "
    "greatest over all cases.",
    "6 A come in, 4 A and 2 A go out: (6 + 4 + 2) / 2 = 6 A through the splice.",
    work_out};

}  // namespace loomleaf
