#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "catalogue.h"
#include "found.h"
#include "loomleaf/study/polarity.h"
#include "turned_sources.h"

namespace loomleaf {

namespace {

// In a ring of sources each looks reversed to the others: those that can stay as they are. Where none is to be turned
// the short alone is the finding.
std::set<ItemId> rightly_placed(const Checked& checked) {
  std::set<ItemId> placed;
  if (checked.study.working.reversed.empty()) return placed;
  for (const Sides& sides : checked.study.sides) {
    const TurnedSources turned(checked, sides);
    for (const DeadShort& dead : sides.shorts) {
      const Supply& ring = sides.supplies[dead.supply];
      if (ring.sources.size() < 2 && !ring.converter) continue;
      const std::vector<ItemId> wrong = turned.to_turn(dead);
      for (const ItemId item : ring.sources)
        if (std::ranges::find(wrong, item) == wrong.end()) placed.insert(item);
    }
  }
  return placed;
}

std::set<ItemId> standing_against_their_rows(const Checked& checked) {
  std::set<ItemId> against;
  if (checked.study.working.reversed.empty()) return against;
  for (const Sides& sides : checked.study.sides) {
    const Polarity polarity(checked.plan, checked.circuit, sides);
    for (const ItemId item : checked.study.working.reversed)
      if (polarity.stands_against_its_row(item)) against.insert(item);
  }
  return against;
}

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  const std::set<ItemId> placed = rightly_placed(checked), against = standing_against_their_rows(checked);
  for (const ItemId id : checked.study.working.reversed) {
    if (placed.count(id) > 0) continue;
    const Item& item = checked.plan.items[id];
    Finding finding = found(reversed_polarity, checked.plan, id);
    finding.message = fmt::format("{} is wired the wrong way round: {}", item.id,
                                  against.count(id) > 0
                                      ? "in its row of sources + meets + and - meets -, so that it takes from their sum"
                                      : "its + lies on the return side and its - on the feed side");
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
    "alone. Of sources that lie against each other, the ones to turn: the fewer, or the charger before the battery. "
    "Also of a row of sources one that joins the "
    "others with like poles, + to + and - to -.",
    "Electronics connected the wrong way round fail at once, and often as a short; a charger or a battery the "
    "wrong way round adds its voltage to the others.",
    "Change over the two conductors at the item. Where the item does not mind, such as a motor or a plain lamp, "
    "say so in the plan: `motor` or `resistive`.",
    "Common practice.",
    check};

}  // namespace loomleaf
