// The statements of a document as text, one a line, for tests and for looking at.
#pragma once

#include <string>

#include "loomleaf/language/statement.h"

namespace loomleaf {

// fuse F1 "Reading lamps" rating=5 A family=blade on=PB
std::string to_text(const Statement& statement);
std::string to_text(const Document& document);  // statements alone, each with a line end

std::string_view name_of(PropertyKind kind);

}  // namespace loomleaf
