#include "loomleaf/plan/dump.h"

#include <fmt/format.h>

#include "loomleaf/units/format.h"

namespace loomleaf {

namespace {

std::string text_of(const Plan& plan, const Item& item) {
  std::string text = fmt::format("{} {}", item.keyword, item.id);
  if (item.standing) text += " at " + standing_text(plan, *item.standing);
  std::string terminals;
  for (const TerminalId id : item.terminals) {
    if (plan.terminals[id].name.empty()) continue;
    terminals += fmt::format("{}{}", terminals.empty() ? ": " : ", ", plan.terminals[id].name);
    if (item.on && item.on_terminal == id) terminals += " on " + terminal_text(plan, *item.on);
  }
  return text + terminals;
}

std::string text_of(const Plan& plan, const Run& run) {
  std::string text = fmt::format("{} {}", run.is_cable ? "cable" : "wire", run.id);
  if (run.size) text += " " + to_text(*run.size);
  if (run.auto_size) text += " auto";
  if (!run.insulation_kind.empty()) text += " " + run.insulation_kind;
  if (run.given_length) text += " " + to_text(*run.given_length);
  if (run.plus > Length{}) text += " plus " + to_text(run.plus);
  for (const auto& via : run.via) {
    const PlaceId* place = std::get_if<PlaceId>(&via);
    text += " via " + (place != nullptr ? plan.places[*place].id : plan.legs[std::get<LegId>(via)].id);
  }
  for (const ConductorId id : run.conductors) {
    const Conductor& conductor = plan.conductors[id];
    text += fmt::format("\n  {}: {} to {}", conductor.id, terminal_text(plan, conductor.from),
                        terminal_text(plan, conductor.to));
    if (conductor.colour) text += " " + to_text(*conductor.colour);
  }
  return text;
}

}  // namespace

std::string standing_text(const Plan& plan, const Standing& standing) {
  std::string text = plan.places[standing.place].id;
  if (standing.offset) text += " " + to_text(*standing.offset);
  return text;
}

std::string dump(const Plan& plan) {
  std::string text;
  for (const Place& place : plan.places) {
    text += "place " + place.id;
    if (!place.cover.empty()) text += fmt::format(" ({}{})", place.cover, place.removable ? ", removable" : "");
    text += "\n";
  }
  for (const Leg& leg : plan.legs)
    text += fmt::format("leg {}{}{} to {} {}\n", leg.id, leg.id.empty() ? "" : " ", standing_text(plan, leg.from),
                        standing_text(plan, leg.to), to_text(leg.length));
  for (const Item& item : plan.items) text += text_of(plan, item) + "\n";
  for (const Run& run : plan.runs) text += text_of(plan, run) + "\n";
  return text;
}

}  // namespace loomleaf
