#include <fmt/format.h>

#include <algorithm>

#include "catalogue.h"
#include "found.h"
#include "loomleaf/rules/joints.h"
#include "loomleaf/units/format.h"
#include "steps.h"

namespace loomleaf {

namespace {

constexpr double let_outside = 0.03;  // of the area, so that a gauge and its metric neighbour count as one

Finding too_many(const Checked& checked, ItemId item, int ends, int ways) {
  Finding finding = found(crowded_splice, checked.plan, item);
  finding.values = FindingValues{static_cast<double>(ends), static_cast<double>(ways), "ends"};
  const std::string& id = finding.subjects[0];
  finding.message = fmt::format("{} joins {} conductor ends, it has {} ways", id, ends, ways);
  finding.mend = fmt::format("fit a {} of {} ways or more as {}", checked.plan.items[item].keyword, ends, id);
  finding.source = fmt::format("the plan's ways of {}", id);
  return finding;
}

bool is_outside(double area_mm2, const SizeRange& takes) {
  return area_mm2 < nominal_area(takes.least).in(square_millimetres) * (1 - let_outside) - 1e-9 ||
         area_mm2 > nominal_area(takes.most).in(square_millimetres) * (1 + let_outside) + 1e-9;
}

// The conductor the furthest outside stands for all that do not fit.
std::optional<Finding> wrong_size(const Checked& checked, ItemId item, const SizeRange& takes,
                                  const std::vector<ConductorId>& conductors) {
  std::vector<std::string> outside;
  double worst = 0.0;
  std::string worst_size;
  for (const ConductorId conductor : conductors) {
    const Run& run = run_of(checked.plan, conductor);
    if (!run.size) continue;
    const double area = nominal_area(*run.size).in(square_millimetres);
    if (!is_outside(area, takes)) continue;
    outside.push_back(id_of(checked.plan, conductor));
    if (outside.size() == 1) {
      worst = area;
      worst_size = to_text(*run.size);
    }
  }
  if (outside.empty()) return std::nullopt;
  Finding finding = found(crowded_splice, checked.plan, item);
  const std::string& id = finding.subjects[0];
  const bool thick = worst > nominal_area(takes.most).in(square_millimetres);
  const WireSize& limit = thick ? takes.most : takes.least;
  finding.values = FindingValues{worst, nominal_area(limit).in(square_millimetres), "mm2"};
  finding.message = fmt::format("{} takes {} to {}, {} is {}", id, to_text(takes.least), to_text(takes.most),
                                outside.front(), worst_size);
  if (outside.size() > 1) {
    finding.message += fmt::format(", and {} not fit either", listed({outside.begin() + 1, outside.end()}) +
                                                                  (outside.size() == 2 ? " does" : " do"));
  }
  finding.mend = fmt::format("fit a {} as {} that takes {}", checked.plan.items[item].keyword, id, worst_size);
  finding.source = fmt::format("the plan's sizes that {} takes", id);
  finding.subjects.insert(finding.subjects.end(), outside.begin(), outside.end());
  return finding;
}

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  const IndexedList<ItemOf, ItemEnds> ends = ends_at_items(checked.plan);
  for (const ItemId id : checked.plan.items.ids()) {
    const Item& item = checked.plan.items[id];
    std::optional<int> ways;
    std::optional<SizeRange> takes;
    if (const Splice* splice = item.as<Splice>()) {
      ways = splice->ways;
      takes = splice->takes;
    } else if (const Bus* bus = item.as<Bus>()) {
      ways = bus->ways;
    } else if (const Connector* connector = item.as<Connector>()) {
      takes = connector->takes;
    }
    if (ways && ends[id].count() > *ways) findings.push_back(too_many(checked, id, ends[id].count(), *ways));
    if (!takes) continue;
    if (auto finding = wrong_size(checked, id, *takes, ends[id].conductors)) findings.push_back(std::move(*finding));
  }
  return findings;
}

Steps work_out(const Checked& checked, const Subject& subject) {
  const ItemId* item = std::get_if<ItemId>(&subject);
  if (!item) return {};
  const Splice* splice = checked.plan.items[*item].as<Splice>();
  const Bus* bus = checked.plan.items[*item].as<Bus>();
  const std::optional<int> ways = splice ? splice->ways : bus ? bus->ways : std::nullopt;
  const int ends = ends_at_items(checked.plan)[*item].count();
  if (!ways) return {};
  return {fmt::format("{} ends meet there", ends), fmt::format("it has {} ways", *ways),
          held_against(ends, *ways, "ends")};
}

}  // namespace

constexpr Rule crowded_splice = {
    "crowded-splice",
    Severity::warning,
    "More conductor ends meet in a splice or on a bus than it has ways, or a conductor is thinner or thicker than "
    "the splice or plug takes.",
    "Two wires under one clamp, or a wire too thin for it, work loose: the joint heats up and the lamp flickers "
    "long before anybody opens the cover.",
    "A splice with more ways or for other sizes, or a second splice joined to the first.",
    "The ways and sizes that the plan states for the part; a conductor may be 3 % outside in area, so that a "
    "gauge and its metric neighbour count as one (common practice).",
    check,
    "Conductor ends, and on a bus what sits on it, are counted against its ways; the nominal area of each "
    "conductor against the sizes that it takes, with 3 % to spare.",
    "A splice for 3 wires takes one feed and two lamps; a third lamp needs a splice for 4.",
    work_out};

}  // namespace loomleaf
