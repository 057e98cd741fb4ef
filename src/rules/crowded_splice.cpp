#include <fmt/format.h>

#include <algorithm>

#include "catalogue.h"
#include "found.h"
#include "loomleaf/rules/joints.h"
#include "loomleaf/units/format.h"
#include "splices_sold.h"
#include "steps.h"

namespace loomleaf {

namespace {

struct Room {
  std::optional<int> ways;
  std::optional<SizeRange> takes;
};

Room room_of(const Item& item) {
  if (const Splice* splice = item.as<Splice>()) return {splice->ways, splice->takes};
  if (const Bus* bus = item.as<Bus>()) return {bus->ways, std::nullopt};
  if (const Connector* connector = item.as<Connector>()) return {std::nullopt, connector->takes};
  return {};
}

std::string count_text(int count, std::string_view what) {
  return fmt::format("{} {}{}", count, what, count == 1 ? "" : "s");
}

// What the stock has of splices, behind what to fit.
std::string sold_text(const Checked& checked, ItemId item, const ItemEnds& ends) {
  if (!checked.plan.items[item].is<Splice>()) return "";
  return "; " + splice_sold_text(checked, item, ends);
}

Finding too_many(const Checked& checked, ItemId item, const ItemEnds& all_ends, int ways) {
  const int ends = all_ends.count();
  Finding finding = found(crowded_splice, checked.plan, item);
  finding.values = FindingValues{static_cast<double>(ends), static_cast<double>(ways), "ends"};
  const std::string& id = finding.subjects[0];
  finding.message = fmt::format("{} joins {} conductor ends, but has {}", id, ends, count_text(ways, "way"));
  finding.mend = fmt::format("fit a {} of {} ways or more as {}{}", checked.plan.items[item].keyword, ends, id,
                             sold_text(checked, item, all_ends));
  finding.source = fmt::format("the plan's ways of {}", id);
  return finding;
}

// So many times too thick or too thin.
double ratio_outside(const WireSize& size, const SizeRange& takes) {
  const double area = area_against(size, takes).in(square_millimetres);
  return std::max(area / nominal_area(takes.most).in(square_millimetres),
                  nominal_area(takes.least).in(square_millimetres) / area);
}

// "10 AWG", "14 AWG to 4 AWG": what a part has to take where all of these end.
std::string sizes_text(const Checked& checked, const std::vector<ConductorId>& conductors) {
  std::optional<SizeRange> all;
  for (const ConductorId conductor : conductors) {
    const auto& size = run_of(checked.plan, conductor).size;
    if (!size) continue;
    if (!all) all = SizeRange{*size, *size};
    if (nominal_area(*size) < nominal_area(all->least)) all->least = *size;
    if (nominal_area(*size) > nominal_area(all->most)) all->most = *size;
  }
  if (nominal_area(all->least) == nominal_area(all->most)) return to_text(all->most);
  return fmt::format("{} to {}", to_text(all->least), to_text(all->most));
}

// The conductor the furthest outside, by ratio to the limit, stands for all that do not fit.
std::optional<Finding> wrong_size(const Checked& checked, ItemId item, const SizeRange& takes, const ItemEnds& ends) {
  std::vector<ConductorId> outside;
  for (const ConductorId conductor : ends.conductors) {
    const auto& size = run_of(checked.plan, conductor).size;
    if (size && !goes_into(*size, takes)) outside.push_back(conductor);
  }
  if (outside.empty()) return std::nullopt;
  const auto furthest = std::ranges::max_element(
      outside, {}, [&](ConductorId conductor) { return ratio_outside(*run_of(checked.plan, conductor).size, takes); });
  std::rotate(outside.begin(), furthest, furthest + 1);
  const WireSize& worst = *run_of(checked.plan, outside.front()).size;
  const std::vector<std::string> names = names_of(checked.plan, outside);

  Finding finding = found(crowded_splice, checked.plan, item);
  const std::string& id = finding.subjects[0];
  const double area = area_against(worst, takes).in(square_millimetres);
  const WireSize& limit = area > nominal_area(takes.most).in(square_millimetres) ? takes.most : takes.least;
  finding.values = FindingValues{area, nominal_area(limit).in(square_millimetres), "mm2"};
  finding.message = fmt::format("{} takes {} to {}, {} is {}", id, to_text(takes.least), to_text(takes.most),
                                names.front(), to_text(worst));
  if (names.size() > 1) {
    finding.message += fmt::format(", and {} not fit either",
                                   listed({names.begin() + 1, names.end()}) + (names.size() == 2 ? " does" : " do"));
  }
  finding.mend = fmt::format("fit a {} as {} that takes {}{}", checked.plan.items[item].keyword, id,
                             sizes_text(checked, ends.conductors), sold_text(checked, item, ends));
  finding.source = fmt::format("the plan's sizes that {} takes", id);
  finding.subjects.insert(finding.subjects.end(), names.begin(), names.end());
  return finding;
}

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  const IndexedList<ItemOf, ItemEnds> ends = ends_at_items(checked.plan);
  for (const ItemId id : checked.plan.items.ids()) {
    const auto [ways, takes] = room_of(checked.plan.items[id]);
    if (ways && ends[id].count() > *ways) findings.push_back(too_many(checked, id, ends[id], *ways));
    if (!takes) continue;
    if (auto finding = wrong_size(checked, id, *takes, ends[id])) findings.push_back(std::move(*finding));
  }
  return findings;
}

Steps work_out(const Checked& checked, const Subject& subject) {
  const ItemId* item = std::get_if<ItemId>(&subject);
  if (!item) return {};
  const auto [ways, takes] = room_of(checked.plan.items[*item]);
  const ItemEnds ends = ends_at_items(checked.plan)[*item];
  Steps steps;
  if (ways) {
    const bool over = ends.count() > *ways;
    steps.push_back(fmt::format("it joins {} and has {}: {} finding", count_text(ends.count(), "end"),
                                count_text(*ways, "way"), over ? "a" : "no"));
  }
  if (!takes) return steps;
  steps.push_back(fmt::format("it takes {} to {}, with 3 % to spare: {} to {} mm2", to_text(takes->least),
                              to_text(takes->most), to_text(least_that_goes_in(*takes).in(square_millimetres), 3),
                              to_text(most_that_goes_in(*takes).in(square_millimetres), 3)));
  for (const ConductorId conductor : ends.conductors) {
    const Run& run = run_of(checked.plan, conductor);
    if (!run.size) continue;
    const double area = area_against(*run.size, *takes).in(square_millimetres);
    steps.push_back(fmt::format("{} is {}, {} mm2: {} finding", id_of(checked.plan, conductor), to_text(*run.size),
                                to_text(area, 3), goes_into(*run.size, *takes) ? "no" : "a"));
  }
  return steps;
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
    "gauge and its metric neighbour count as one (common practice), and vehicle wire counts by its number where the "
    "part "
    "states AWG. The splices of the stock are named where one takes all that ends there, and the current.",
    check,
    "Conductor ends, and on a bus what sits on it, are counted against its ways; the nominal area of each "
    "conductor against the sizes that it takes, with 3 % to spare.",
    "A splice of 3 ways joins one feed and two lamps: no finding. A third lamp makes 4 ends: a finding.",
    work_out};

}  // namespace loomleaf
