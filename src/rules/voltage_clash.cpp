#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "catalogue.h"
#include "found.h"
#include "loomleaf/units/format.h"

namespace loomleaf {

namespace {

constexpr double tolerated = 1.25;  // of the lower of the two

// All that stands across the same two points with about this supply's voltage, so that which of several the clash was
// found with has no say.
std::vector<ItemId> like(const Sides& sides, const Supply& supply) {
  std::set<ItemId> items;
  for (const SupplyId id : sides.across(supply.plus, supply.minus)) {
    const Supply& beside = sides.supplies[id];
    if (beside.nominal > supply.nominal * tolerated || supply.nominal > beside.nominal * tolerated) continue;
    items.insert(beside.sources.begin(), beside.sources.end());
    if (beside.converter) items.insert(*beside.converter);
  }
  items.insert(supply.sources.begin(), supply.sources.end());
  if (supply.converter) items.insert(*supply.converter);
  return {items.begin(), items.end()};
}

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  std::set<std::pair<ItemId, ItemId>> told;
  for (std::size_t ways = 0; ways < checked.study.sides.size(); ++ways) {
    const Sides& sides = checked.study.sides[ways];
    for (const VoltageClash& clash : sides.clashes) {
      const Supply* higher = &sides.supplies[clash.a];
      const Supply* lower = &sides.supplies[clash.b];
      if (higher->nominal < lower->nominal) std::swap(higher, lower);
      const std::vector<ItemId> high = like(sides, *higher), low = like(sides, *lower);
      if (!told.insert(std::minmax(high.front(), low.front())).second) continue;
      Finding finding = found(voltage_clash, checked.plan, high.front());
      const std::string higher_names = listed(names_of(checked.plan, high)),
                        lower_names = listed(names_of(checked.plan, low));
      finding.subjects.clear();
      for (const auto* items : {&high, &low})
        for (std::string& name : names_of(checked.plan, *items)) finding.subjects.push_back(std::move(name));
      const FigureTexts texts = set_values(finding, higher->nominal, lower->nominal * tolerated);
      finding.message = fmt::format(
          "{} and {} stand across the same two points{}: {} against {}, {} may be; currents and voltages are not "
          "worked out here",
          higher_names, lower_names, in_ways_text(checked.study, ways), texts.is, to_text(lower->nominal),
          texts.may_be);
      finding.mend = fmt::format(
          "take {} off this side, and join the two through a converter if one is to feed the other", higher_names);
      finding.source = "common practice";
      findings.push_back(std::move(finding));
    }
  }
  return findings;
}

}  // namespace

constexpr Rule voltage_clash = {
    "voltage-clash",
    Severity::danger,
    "Two supplies stand across the same two points, + to + and - to -, and their stated voltages differ by more "
    "than a quarter of the lower one.",
    "The higher supply drives a fault-like current into the lower one until something gives: a battery boils, a "
    "cable burns, and every load on the lower side gets too much voltage.",
    "Keep supplies of unlike voltage on separate sides, and join them only through a converter.",
    "A quarter leaves room for charging voltages on the same battery; common practice.",
    check};

}  // namespace loomleaf
