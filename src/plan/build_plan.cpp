#include "draft.h"
#include "loomleaf/plan/plan.h"
#include "steps.h"

namespace loomleaf {

PlanReading build_plan(const Document& document, const SourceText& source, const KnownNames& known) {
  Draft draft(document, source, known);
  TerminalIndex terminals;
  read_heading(draft);
  check_names_of_stock(draft);
  declare_places_and_legs(draft);
  declare_items(draft, terminals);
  place_items(draft, terminals);
  declare_conductors(draft, terminals);
  read_spools_and_acceptances(draft);
  sort_by_place(draft.complaints);
  return {std::move(draft.plan), std::move(draft.complaints)};
}

}  // namespace loomleaf
