#include "loomleaf/language/words.h"
#include "properties.h"
#include "steps.h"

namespace loomleaf {

namespace {

void read_plan(Draft& draft, const Statement& s) {
  draft.plan.heading.title = s.description.value_or("");
  draft.plan.heading.revision = text_under(s, PropertyKind::revision);
  draft.plan.heading.date = text_under(s, PropertyKind::date);
  draft.plan.heading.by = text_under(s, PropertyKind::by);
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
}

}  // namespace

void read_heading(Draft& draft) {
  draft.plan.heading.file = draft.source.name();
  for (const Statement& statement : draft.document.statements) {
    if (statement.keyword == Keyword::plan) read_plan(draft, statement);
    if (statement.keyword == Keyword::system) read_system(draft, statement);
  }
}

}  // namespace loomleaf
