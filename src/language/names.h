// IDs, terminals, and lists and ranges of them.
#pragma once

#include <optional>
#include <vector>

#include "cursor.h"
#include "loomleaf/language/statement.h"

namespace loomleaf {

// Whether this could be an ID by its letters; a reserved word could.
bool looks_like_id(std::string_view word);

// One ID. `what` it names is for the complaint: "a fuse", "a place". A word that cannot be an ID is taken and gives
// nothing.
std::optional<Name> read_name(Cursor& cursor, std::string_view what);

// A list of IDs, with ranges opened: LA1..LA4, SP1. A dotted name (a core: C1.red) is taken where `dotted` allows it.
enum class Dotted { no, yes };
std::vector<Name> read_names(Cursor& cursor, std::string_view what, Dotted dotted = Dotted::no);

// The range of so many names that begins with this one: C1..C2, PUMP1..PUMP3.
std::string range_text(const std::string& first, std::size_t count);

// One terminal: BAT+, F1.out, PB.
std::optional<TerminalName> read_terminal(Cursor& cursor);

// A list of terminals with ranges opened: F1, NB and LA1..LA4+.
EndList read_end(Cursor& cursor);

// A list of further terminals: sense, D+, 61.
std::vector<Name> read_extra_names(Cursor& cursor);

}  // namespace loomleaf
