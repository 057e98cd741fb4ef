// What the terminals of a wire's or cable's ends stand for.
#pragma once

#include <optional>
#include <vector>

#include "draft.h"
#include "terminals.h"

namespace loomleaf {

enum class Direction { from, to };  // the side of its `to` on which an end stands

struct EndTerminal {
  TerminalId terminal;
  bool bare = false;  // chosen by direction, not named
  Span span;
};

// One terminal a name, in a cable a pair or more for a bare item. Nothing where there is a complaint.
std::optional<std::vector<EndTerminal>> resolve_end(Draft& draft, const TerminalIndex& terminals, const EndList& end,
                                                    Direction direction, bool in_cable);

// What an item is `on`: a bus or chassis, a named terminal, or the free terminal of an item that is itself `on`
// something.
std::optional<TerminalId> resolve_host(Draft& draft, const TerminalIndex& terminals, const TerminalName& name);

}  // namespace loomleaf
