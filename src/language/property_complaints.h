// What is said of a word or number that is no property of its statement.
#pragma once

#include "cursor.h"
#include "loomleaf/language/statement.h"
#include "measure.h"

namespace loomleaf {

// At a word that begins no property here: complains, and goes on to the next word that begins one.
void complain_unknown_word(Cursor& cursor, const Statement& statement);

// A number without a unit, or whose unit says nothing by itself on this statement.
void complain_bare_measure(Cursor& cursor, const Statement& statement, const Token& number, const Measure& measure);

// AC, mains: out of the program's bounds.
bool is_mains_word(std::string_view word);
void refuse_mains(Cursor& cursor, Span span);

// "a fuse", "`plan`"
std::string what_is(const Statement& statement);

}  // namespace loomleaf
