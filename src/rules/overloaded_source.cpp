#include "catalogue.h"
#include "overload.h"
#include "steps.h"

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
    add_overload(findings, overloaded_source, checked, item, checked.study.working.lasting_sources[item],
                 rating_of(checked.plan.items[item]));
  }
  return findings;
}

Steps work_out(const Checked& checked, const Subject& subject) {
  const ItemId* item = std::get_if<ItemId>(&subject);
  if (!item) return {};
  return overload_steps(checked, "what it gives", checked.study.working.lasting_sources[*item],
                        rating_of(checked.plan.items[*item]));
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
    check,
    "Held against what it may give is what leaves its + in the working point, at its greatest over all cases; what a "
    "`starter` draws for seconds is left out.",
    "A converter with 3 A at its output feeds a computer of 40 W at 19 V: 40 W / 19 V = 2.1 A, which it may "
    "give.",
    work_out};

}  // namespace loomleaf
