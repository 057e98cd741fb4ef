// The tokens of one line.
#pragma once

#include <string_view>
#include <vector>

#include "loomleaf/language/lexer.h"

namespace loomleaf {

// Reads tokens off text[line.begin, line.end), up to a comment. The line holds no bad characters.
void read_line_tokens(std::string_view text, Span line, std::vector<Token>& tokens, std::vector<Complaint>& complaints);

}  // namespace loomleaf
