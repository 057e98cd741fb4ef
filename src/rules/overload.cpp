#include "overload.h"

#include <fmt/format.h>

#include "found.h"

namespace loomleaf {

void add_overload(std::vector<Finding>& findings, const Rule& rule, const Checked& checked, ItemId item,
                  const std::optional<Worst<Current>>& current, const std::optional<Current>& rating) {
  if (!current || !rating) return;
  const Current is = abs(current->value);
  if (!exceeds(is.in(amperes), rating->in(amperes))) return;
  const Item& subject = checked.plan.items[item];
  const bool gives = subject.is<Source>() || subject.is<Converter>();
  Finding finding = found(rule, checked.plan, item);
  const FigureTexts texts = set_values(finding, is, *rating);
  finding.message =
      fmt::format("{} {} {} in normal work{}, but may {} at most {}", subject.id, gives ? "gives" : "carries", texts.is,
                  in_case_text(checked.study, current->in_case), gives ? "give" : "carry", texts.may_be);
  finding.mend = fmt::format("fit a {} of {} or more as {}", subject.keyword, at_least(is), subject.id);
  finding.source = fmt::format("the plan's rating of {}", subject.id);
  findings.push_back(std::move(finding));
}

}  // namespace loomleaf
