#include <fmt/format.h>

#include "catalogue.h"
#include "found.h"

namespace loomleaf {

namespace {

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  for (const ItemId id : checked.study.working.reversed) {
    const Item& item = checked.plan.items[id];
    Finding finding = found(reversed_polarity, checked.plan, id);
    finding.message = fmt::format(
        "{} is wired the wrong way round: its + lies on the return side and its - on the feed side", item.id);
    finding.mend = fmt::format("change over the two conductors at {}", item.id);
    finding.source = "common practice";
    findings.push_back(std::move(finding));
  }
  return findings;
}

}  // namespace

constexpr Rule reversed_polarity = {
    "reversed-polarity",
    Severity::warning,
    "A source, dimmer, converter or electronic load has its + on the return side alone and its - on the feed side "
    "alone.",
    "Electronics connected the wrong way round fail at once, and often as a short; a charger or a battery the "
    "wrong way round adds its voltage to the others.",
    "Change over the two conductors at the item. Where the item does not mind, such as a motor or a plain lamp, "
    "say so in the plan: `motor` or `resistive`.",
    "It follows from the circuit itself: common practice.",
    check};

}  // namespace loomleaf
