#include <fmt/format.h>

#include "catalogue.h"
#include "found.h"

namespace loomleaf {

namespace {

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  const auto& longest = checked.rulebook.longest_tail;
  if (!longest) return findings;
  for (const ItemId id : checked.plan.items.ids()) {
    const Load* load = checked.plan.items[id].as<Load>();
    if (!load || !load->tails || !exceeds(load->tails->length.in(metres), longest->value.in(metres))) continue;
    Finding finding = found(long_tail, checked.plan, id);
    const FigureTexts texts = set_values(finding, load->tails->length, longest->value);
    finding.message =
        fmt::format("the leads of {} are {} long, they may hang for {}", finding.subjects[0], texts.is, texts.may_be);
    finding.mend = fmt::format("shorten them to {}", texts.may_be);
    finding.source = to_text(longest->from);
    findings.push_back(std::move(finding));
  }
  return findings;
}

}  // namespace

constexpr Rule long_tail = {"long-tail",
                            Severity::notice,
                            "The leads that an appliance comes with are longer than the rulebook lets them hang.",
                            "Thin loose leads chafe and are pulled off their joint.",
                            "Shorten them and join them nearer to the appliance.",
                            "The rulebook's longest leads, where it has a figure.",
                            check};

}  // namespace loomleaf
