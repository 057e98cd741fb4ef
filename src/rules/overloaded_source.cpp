#include "catalogue.h"
#include "overload.h"

namespace loomleaf {

namespace {

std::optional<Current> rating_of(const Item& item) {
  if (const Source* source = item.as<Source>()) return source->is_limited() ? source->limit : source->max_current;
  if (const Converter* converter = item.as<Converter>()) return converter->rating;
  return std::nullopt;
}

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  for (const ItemId item : checked.plan.items.ids()) {
    add_overload(findings, overloaded_source, checked, item, checked.study.working.sources[item],
                 rating_of(checked.plan.items[item]));
  }
  return findings;
}

}  // namespace

constexpr Rule overloaded_source = {
    "overloaded-source",
    Severity::warning,
    "In normal work a battery gives more than its `max A`, or a charger, supply or converter more than its limit.",
    "A battery's electronics switch everything off, a converter shuts down or goes into limiting, and a plain "
    "battery ages fast and warms up.",
    "A source of a higher rating, a second one beside it, or fewer loads at once: `use` says what share runs "
    "together.",
    "The rating that the plan states for the source.",
    check};

}  // namespace loomleaf
