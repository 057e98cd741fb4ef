#include <fmt/format.h>

#include "catalogue.h"
#include "found.h"
#include "loomleaf/rules/joints.h"

namespace loomleaf {

namespace {

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  for (const ItemId id : checked.plan.items.ids()) {
    const Item& item = checked.plan.items[id];
    if (!must_be_reached(item) || !item.standing) continue;
    const Place& place = checked.plan.places[item.standing->place];
    if (place.cover.empty() || place.removable) continue;
    Finding finding = found(hidden_splice, checked.plan, id);
    finding.message = fmt::format("{} sits in {} behind a fixed cover, `{}`", item.id, place.id, place.cover);
    finding.mend = fmt::format("move {} to a place that can be reached, or make the cover `removable`", item.id);
    finding.source = "common practice";
    finding.subjects.push_back(place.id);
    findings.push_back(std::move(finding));
  }
  return findings;
}

}  // namespace

constexpr Rule hidden_splice = {
    "hidden-splice",
    Severity::caution,
    "A splice, bus, plug, fuse, breaker or relay sits behind a cover that does not come off without taking work "
    "apart.",
    "Joints and fuses are what fails first. What cannot be reached cannot be tested, tightened or changed.",
    "Move it to where it can be reached, run the wire through in one piece, or make the cover `removable`.",
    "Common practice.",
    check};

}  // namespace loomleaf
