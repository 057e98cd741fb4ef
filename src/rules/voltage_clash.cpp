#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "catalogue.h"
#include "found.h"
#include "loomleaf/units/format.h"

namespace loomleaf {

namespace {

constexpr double tolerated = 1.25;  // of the lower of the two

std::string name_of(const Checked& checked, const Supply& supply) {
  if (supply.converter) return id_of(checked.plan, *supply.converter);
  return listed(names_of(checked.plan, supply.sources));
}

ItemId first_of(const Supply& supply) { return supply.converter ? *supply.converter : supply.sources.front(); }

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  std::set<std::pair<ItemId, ItemId>> told;
  for (std::size_t ways = 0; ways < checked.study.sides.size(); ++ways) {
    const Sides& sides = checked.study.sides[ways];
    for (const VoltageClash& clash : sides.clashes) {
      const Supply* higher = &sides.supplies[clash.a];
      const Supply* lower = &sides.supplies[clash.b];
      if (higher->nominal < lower->nominal) std::swap(higher, lower);
      if (!told.insert(std::minmax(first_of(*higher), first_of(*lower))).second) continue;
      Finding finding = found(voltage_clash, checked.plan, first_of(*higher));
      for (const Supply* supply : {higher, lower}) {
        std::vector<ItemId> members = supply->sources;
        if (supply->converter) members.push_back(*supply->converter);
        for (std::string& name : names_of(checked.plan, members)) {
          if (name != finding.subjects[0]) finding.subjects.push_back(std::move(name));
        }
      }
      const FigureTexts texts = set_values(finding, higher->nominal, lower->nominal * tolerated);
      finding.message = fmt::format(
          "{} and {} stand across the same two points{}: {} against {}, {} may be; currents and voltages are not "
          "worked out here",
          name_of(checked, *higher), name_of(checked, *lower), in_ways_text(checked.study, ways), texts.is,
          to_text(lower->nominal), texts.may_be);
      finding.mend =
          fmt::format("take {} off this side, and join the two through a converter if one is to feed the other",
                      name_of(checked, *higher));
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
