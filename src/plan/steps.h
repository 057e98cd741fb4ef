// The steps of building a plan, in the order in which they are taken.
#pragma once

#include "draft.h"
#include "terminals.h"

namespace loomleaf {

void read_heading(Draft& draft);          // `plan` and `system`
void check_names_of_stock(Draft& draft);  // sizes, families, rulebooks, rule names, `auto`
void declare_places_and_legs(Draft& draft);
void declare_items(Draft& draft, TerminalIndex& terminals);
void place_items(Draft& draft, const TerminalIndex& terminals);  // `at` and `on`
void declare_conductors(Draft& draft, const TerminalIndex& terminals);
void read_spools_and_acceptances(Draft& draft);

}  // namespace loomleaf
