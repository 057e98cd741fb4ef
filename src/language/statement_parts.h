// The parts of a statement, each read into it.
#pragma once

#include "cursor.h"
#include "loomleaf/language/statement.h"
#include "loomleaf/language/words.h"

namespace loomleaf {

// The names and other words that stand before the properties, as the keyword asks for them (the keyword is taken).
void read_head(Cursor& cursor, Statement& statement);

// Description, ends and properties in any order, to the end of the statement.
void read_properties(Cursor& cursor, Statement& statement);

// BAT+ to F0, and chains: A to B to C.
void read_ends(Cursor& cursor, Statement& statement);

// Adds a property; a second of a kind that stands once is a complaint.
void add_property(Cursor& cursor, Statement& statement, PropertyKind kind, PropertyValue value, Span span);

// The statements whose properties may stand here: for `default wire` those of a wire.
KeywordSet property_set(const Statement& statement);

// What the statement lacks, and what in it cannot be together, as far as it tells by itself.
void check_statement(Cursor& cursor, const Statement& statement);

// "fuse F1", "system"; of a range its first name.
std::string title_of(const Statement& statement);

}  // namespace loomleaf
