#include <fmt/format.h>

#include <map>

#include "loomleaf/plan/bounds.h"
#include "loomleaf/units/format.h"
#include "lower_case.h"
#include "properties.h"
#include "steps.h"

namespace loomleaf {

namespace {

void read_plan(Draft& draft, const Statement& s) {
  draft.plan.heading.title = s.description.value_or("");
  draft.plan.heading.revision = text_under(s, PropertyKind::revision);
  draft.plan.heading.date = text_under(s, PropertyKind::date);
  draft.plan.heading.by = text_under(s, PropertyKind::by);
  const int* language = value_of<int>(s, PropertyKind::language);
  if (language != nullptr && *language != 1)
    draft.complain(find_property(s, PropertyKind::language)->span,
                   fmt::format("this plan is written in language {}, which is not known here", *language),
                   "language 1");
}

void read_system(Draft& draft, const Statement& s) {
  System& system = draft.plan.system;
  if (const auto* voltages = value_of<std::vector<Voltage>>(s, PropertyKind::voltages)) system.voltages = *voltages;
  if (const Name* rules = value_of<Name>(s, PropertyKind::rules)) {
    system.rules = lower_case(rules->id);
    system.rules_span = rules->span;
  }
  system.drop_limit = given<double>(s, PropertyKind::drop);
  system.conductor_temperature = given<Temperature>(s, PropertyKind::conductor_temperature);
  for (const Voltage voltage : system.voltages)
    if (voltage > highest_voltage)
      draft.refuse(find_property(s, PropertyKind::voltages)->span, fmt::format("{} is above 60 V DC", to_text(voltage)),
                   std::string(above_highest_voltage));
}

// The statements that stand once, or once for each of what they name.
std::optional<std::string> once(const Statement& s) {
  switch (s.keyword) {
    case Keyword::plan:
    case Keyword::system:
      return std::string(name_of(s.keyword));
    case Keyword::default_:
      return s.ids.empty() ? std::nullopt : std::optional("default " + s.ids.front().id);
    default:
      return std::nullopt;
  }
}

}  // namespace

void read_heading(Draft& draft) {
  draft.plan.heading.file = draft.source.name();
  std::map<std::string, const Statement*> first_of;
  for (const Statement& statement : draft.document.statements) {
    const auto what = once(statement);
    if (!what) continue;
    const auto [place, is_first] = first_of.try_emplace(*what, &statement);
    if (!is_first) {
      draft.complain(name_span(statement), fmt::format("`{}` stands here a second time", *what),
                     fmt::format("all of it in one `{}`", *what),
                     Complaint::Also{name_span(*place->second), "first given here"});
      continue;
    }
    if (statement.keyword == Keyword::plan) read_plan(draft, statement);
    if (statement.keyword == Keyword::system) read_system(draft, statement);
  }
}

}  // namespace loomleaf
