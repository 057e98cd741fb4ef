#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "catalogue.h"
#include "found.h"

namespace loomleaf {

namespace {

// The rulebook's word for it.
const char* use_of(ConductorSide side) {
  switch (side) {
    case ConductorSide::feed:
      return "positive";
    case ConductorSide::return_:
      return "negative";
    case ConductorSide::bond:
      return "bond";
    case ConductorSide::none:
    case ConductorSide::signal:
      break;
  }
  return nullptr;
}

const ColourRow* row_of(const Rulebook& book, std::string_view use) {
  const auto row = std::ranges::find(book.colours, use, &ColourRow::use);
  return row == book.colours.end() ? nullptr : &*row;
}

bool holds(const ColourRow& row, const WireColour& colour) {
  return std::ranges::find(row.colours, colour) != row.colours.end();
}

// A tracer goes with any base that may stand for this use, unless the two together are another use's code.
bool may_stand_for(const Rulebook& book, const ColourRow& own, const WireColour& colour) {
  if (holds(own, colour)) return true;
  if (!colour.tracer || !holds(own, {colour.base, std::nullopt})) return false;
  return std::ranges::none_of(book.colours, [&](const ColourRow& row) { return holds(row, colour); });
}

// "red", "red or black", "red, black or yellow".
std::string either_of(const std::vector<std::string>& colours) {
  if (colours.size() == 1) return colours.front();
  return fmt::format("{} or {}", fmt::join(colours.begin(), colours.end() - 1, ", "), colours.back());
}

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  for (const ConductorId id : checked.plan.conductors.ids()) {
    const Conductor& conductor = checked.plan.conductors[id];
    const char* use = use_of(checked.study.protection.conductors[id].side);
    if (!use || !conductor.colour) continue;
    const ColourRow* own = row_of(checked.rulebook, use);
    if (!own || own->colours.empty() || may_stand_for(checked.rulebook, *own, *conductor.colour)) continue;
    Finding finding = found(colour_clash, checked.plan, id);
    std::vector<std::string> colours;
    for (const WireColour& colour : own->colours) colours.push_back(to_text(colour));
    finding.message = fmt::format("{} is a {} and {}, the code for that is {}", conductor.id, use,
                                  to_text(*conductor.colour), either_of(colours));
    finding.mend = fmt::format("take {} for {}", colours.front(), conductor.id);
    finding.source = to_text(own->from);
    findings.push_back(std::move(finding));
  }
  return findings;
}

}  // namespace

constexpr Rule colour_clash = {
    "colour-clash",
    Severity::notice,
    "A conductor has a colour that the rulebook's code does not let stand for a positive, a negative or a bond, "
    "whichever it is.",
    "Whoever opens the cover in ten years believes the colour.",
    "Take a colour of the code for this use.",
    "The rulebook's colour code, where it has one.",
    check};

}  // namespace loomleaf
