#include <fmt/format.h>

#include "catalogue.h"
#include "found.h"
#include "loomleaf/units/format.h"
#include "steps.h"

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

Steps work_out(const Checked& checked, const Subject& subject) {
  const ItemId* item = std::get_if<ItemId>(&subject);
  const Load* load = item ? checked.plan.items[*item].as<Load>() : nullptr;
  const auto& longest = checked.rulebook.longest_tail;
  if (!load || !load->tails || !longest) return {};
  return {fmt::format("its leads = {}", to_text(load->tails->length)),
          fmt::format("they may hang for {} ({})", to_text(longest->value), to_text(longest->from)),
          held_against(load->tails->length.in(millimetres), longest->value.in(millimetres), "mm")};
}

}  // namespace

constexpr Rule long_tail = {"long-tail",
                            Severity::notice,
                            "The leads that an appliance comes with are longer than the rulebook lets them hang.",
                            "Thin loose leads chafe and are pulled off their joint.",
                            "Shorten them and join them nearer to the appliance.",
                            "The rulebook's longest leads, where it has a figure.",
                            check,
                            "The length of the leads that it comes with may not be more than the rulebook's.",
                            "Leads of 250 mm hang too long where 177.8 mm (7 in) is the most.",
                            work_out};

}  // namespace loomleaf
