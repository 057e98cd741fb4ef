#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "catalogue.h"
#include "found.h"
#include "loomleaf/units/format.h"
#include "steps.h"

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

std::string turned_text(const Plan& plan, const VoltageClash& clash) {
  if (clash.turned.empty()) return "";
  return fmt::format("; {} {} against the others and {} from the sum", listed(names_of(plan, clash.turned)),
                     clash.turned.size() > 1 ? "lie" : "lies", clash.turned.size() > 1 ? "take" : "takes");
}

std::string mend_text(const Plan& plan, const VoltageClash& clash, const std::string& higher) {
  if (!clash.turned.empty())
    return fmt::format("change over the two conductors at {}", listed(names_of(plan, clash.turned)));
  return fmt::format("take {} off this side, and join the two through a converter if one is to feed the other", higher);
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
          "{} and {} stand across the same two points{}: {} against {}, at most {} is allowed{}; currents and "
          "voltages are not worked out here",
          higher_names, lower_names, in_ways_text(checked.study, ways), texts.is, to_text(lower->nominal), texts.may_be,
          turned_text(checked.plan, clash));
      finding.mend = mend_text(checked.plan, clash, higher_names);
      finding.source = "common practice";
      findings.push_back(std::move(finding));
    }
  }
  return findings;
}

bool is_of(const Supply& supply, ItemId item) {
  return supply.converter == item || std::ranges::find(supply.sources, item) != supply.sources.end();
}

// Two chains that begin or end in the same source are ways through one bank.
bool share_an_end(const Supply& a, const Supply& b) {
  if (a.sources.empty() || b.sources.empty()) return a.converter == b.converter;
  return a.sources.front() == b.sources.front() || a.sources.back() == b.sources.back();
}

std::string names_of_supply(const Plan& plan, const Supply& supply) {
  return supply.converter ? id_of(plan, *supply.converter) : listed(names_of(plan, supply.sources));
}

// One supply against another across the same two points.
void add_comparison(const Checked& checked, std::size_t ways, const Supply& one, const Supply& other, Steps& steps) {
  const Supply& higher = one.nominal < other.nominal ? other : one;
  const Supply& lower = one.nominal < other.nominal ? one : other;
  const FigureTexts texts = alike(higher.nominal, lower.nominal * tolerated);
  steps.push_back(fmt::format("across the same two points{}: {} of {}, {} of {}", in_ways_text(checked.study, ways),
                              names_of_supply(checked.plan, higher), texts.is, names_of_supply(checked.plan, lower),
                              to_text(lower.nominal)));
  steps.push_back(fmt::format("a quarter more than the lower: {} x {} = {}", to_text(tolerated, 2),
                              to_text(lower.nominal), texts.may_be));
  steps.push_back(held_against(higher.nominal, lower.nominal * tolerated));
}

Steps work_out(const Checked& checked, const Subject& subject) {
  const ItemId* item = std::get_if<ItemId>(&subject);
  if (!item) return {};
  bool is_supply = false;
  Steps steps;
  std::set<std::string> told;
  for (std::size_t ways = 0; ways < checked.study.sides.size(); ++ways) {
    const Sides& sides = checked.study.sides[ways];
    for (const Supply& supply : sides.supplies) {
      if (!is_of(supply, *item)) continue;
      is_supply = true;
      for (const SupplyId id : sides.across(supply.plus, supply.minus)) {
        const Supply& beside = sides.supplies[id];
        if (share_an_end(supply, beside) || !told.insert(names_of_supply(checked.plan, beside)).second) continue;
        add_comparison(checked, ways, supply, beside, steps);
      }
    }
  }
  if (is_supply && steps.empty()) steps.push_back("no other supply stands across its two points: no finding");
  return steps;
}

}  // namespace

constexpr Rule voltage_clash = {
    "voltage-clash",
    Severity::danger,
    "Two supplies stand across the same two points, + to + and - to -, and their stated voltages differ by more "
    "than a quarter of the lower one.",
    "The higher supply drives a fault-like current into the lower one until something gives: a battery boils, a "
    "cable burns, and every load on the lower side gets too much voltage. Of two rows of batteries it is often one "
    "battery that lies the wrong way round, and takes its voltage from the sum of its row.",
    "Turn what lies the wrong way round. Keep supplies of unlike voltage on separate sides, and join them only through "
    "a converter.",
    "A quarter leaves room for charging voltages on the same battery; common practice.",
    check,
    "The stated voltages of the two are compared, a chain's as the sum of its sources, less what lies the wrong way "
    "round in it. The higher may not be more "
    "than 1.25 times the lower.",
    "A battery of 12.8 V and another of 25.6 V on one bus: 1.25 x 12.8 V = 16 V, and 25.6 V is more: a finding. A "
    "charger of 14.4 V beside 12.8 V is not.",
    work_out};

}  // namespace loomleaf
