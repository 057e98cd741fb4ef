#include <fmt/format.h>

#include "names.h"
#include "statement_parts.h"

namespace loomleaf {
namespace {

using Kind = Token::Kind;

// Behind an end: a word that can only be a slip for `to`, or the other end without it.
bool at_slip(const Cursor& cursor, const Statement& statement) {
  return cursor.at_free_word() && !is_reserved(cursor.peek().text) &&
         find_properties(cursor.peek().text, property_set(statement)).empty();
}

// Steps over `to`, or over what stands in its place; false where the ends are at an end.
bool take_to(Cursor& cursor, const Statement& statement) {
  if (cursor.at(Kind::comma) && cursor.at_word("to", 1)) {
    cursor.complain(cursor.take().span, "nothing stands behind this comma", "`to` without a comma before it");
  }
  if (cursor.take_word("to")) return true;
  if (statement.ends.size() != 1 || !at_slip(cursor, statement)) return false;
  const std::string first(cursor.source(statement.ends.front().span));
  const Token slip = cursor.peek();
  const bool end_follows = cursor.at_free_word(1) && !is_reserved(cursor.peek(1).text);
  if (!end_follows) {
    cursor.complain(slip.span, "`to` is missing between the two ends", fmt::format("{} to {}", first, slip.text));
    return true;
  }
  cursor.skip();
  cursor.complain(slip.span, fmt::format("`{}` stands where `to` belongs", slip.text),
                  fmt::format("{} to {}", first, cursor.peek().text));
  return true;
}

}  // namespace

void read_ends(Cursor& cursor, Statement& statement) {
  const std::string_view keyword = name_of(statement.keyword);
  const Span begin = cursor.peek().span;
  statement.ends.reserve(2);
  statement.ends.push_back(read_end(cursor));
  const auto example = [&] {
    const std::string first(cursor.source(statement.ends.front().span));
    return fmt::format("{} {} to {}", title_of(statement), first, first == "F1" ? "LA1" : "F1");
  };
  while (take_to(cursor, statement)) {
    if (!cursor.at_free_word()) {
      cursor.complain(cursor.last().span, "`to` needs the other end behind it", example());
      return cursor.mute();
    }
    statement.ends.push_back(read_end(cursor));
  }
  if (statement.ends.size() == 1)
    cursor.complain(cursor.from(begin), fmt::format("this {} has one end only", keyword), example());
}

}  // namespace loomleaf
