#include <algorithm>

#include <fmt/format.h>

#include "catalogue.h"
#include "found.h"

namespace loomleaf {

namespace {

const char* use_of(ConductorSide side) {
  switch (side) {
    case ConductorSide::feed: return "positive";
    case ConductorSide::return_: return "negative";
    case ConductorSide::bond: return "bond";
    case ConductorSide::none:
    case ConductorSide::signal: break;
  }
  return nullptr;
}

const ColourRow* row_of(const Rulebook& book, std::string_view use) {
  const auto row = std::ranges::find(book.colours, use, &ColourRow::use);
  return row == book.colours.end() ? nullptr : &*row;
}

bool holds(const ColourRow& row, const WireColour& colour) { return std::ranges::find(row.colours, colour) != row.colours.end(); }

// The use whose code this colour is, where it is not the conductor's own.
const ColourRow* code_of_another_use(const Rulebook& book, std::string_view own, const WireColour& colour) {
  const ColourRow* own_row = row_of(book, own);
  if (own_row && holds(*own_row, colour)) return nullptr;
  for (const ColourRow& row : book.colours) {
    if (row.use != own && holds(row, colour)) return &row;
  }
  return nullptr;
}

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  for (const ConductorId id : checked.plan.conductors.ids()) {
    const Conductor& conductor = checked.plan.conductors[id];
    const char* use = use_of(checked.study.protection.conductors[id].side);
    if (!use || !conductor.colour) continue;
    const ColourRow* other = code_of_another_use(checked.rulebook, use, *conductor.colour);
    if (!other) continue;
    Finding finding = found(colour_clash, checked.plan, id);
    const ColourRow* own = row_of(checked.rulebook, use);
    std::vector<std::string> colours;
    if (own) for (const WireColour& colour : own->colours) colours.push_back(to_text(colour));
    finding.message = fmt::format("{} is a {} and {}, the colour of a {}", conductor.id, use, to_text(*conductor.colour), other->use);
    finding.mend = colours.empty() ? fmt::format("take another colour for {}", conductor.id)
                                   : fmt::format("take {} for {}", fmt::join(colours, " or "), conductor.id);
    finding.source = sources_text({other->from});
    findings.push_back(std::move(finding));
  }
  return findings;
}

}  // namespace

constexpr Rule colour_clash = {
    "colour-clash", Severity::notice,
    "A conductor has the colour that the rulebook's code keeps for another use: a feed in a return's colour, a return or a "
    "feed in a bond's.",
    "Whoever opens the cover in ten years believes the colour.",
    "Take the code's colour, or another that the code keeps for nothing.",
    "The rulebook's colour code, where it has one.", check};

}  // namespace loomleaf
