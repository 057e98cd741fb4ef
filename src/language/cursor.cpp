#include "cursor.h"

#include "loomleaf/language/words.h"

namespace loomleaf {

bool Cursor::at_word(std::string_view word, std::size_t ahead) const {
  return at(Token::Kind::word, ahead) && lower_case(peek(ahead).text) == word;
}

bool Cursor::at_free_word(std::size_t ahead) const {
  return at(Token::Kind::word, ahead) && !is_property_word(lower_case(peek(ahead).text));
}

bool Cursor::take_word(std::string_view word) {
  if (!at_word(word)) return false;
  skip();
  return true;
}

Token Cursor::take_glued() {
  Token joined = take();
  while (!done() && peek().glued && (at(Token::Kind::word) || at(Token::Kind::number))) {
    joined.text += peek().text;
    joined.span = join(joined.span, take().span);
  }
  return joined;
}

void Cursor::complain(Complaint complaint) {
  troubled_ = true;
  if (!muted_ && reading_.complaints.size() <= Lexer::most_complaints)
    reading_.complaints.push_back(std::move(complaint));
}

void Cursor::complain(Span span, std::string message, std::string write) {
  complain(Complaint{span, std::move(message), std::move(write), {}});
}

void Cursor::refuse(Span span, std::string message) {
  Complaint complaint{span, std::move(message), {}, {}};
  complaint.refuses = true;
  complain(std::move(complaint));
  mute();
}

bool Cursor::may_open(std::size_t count, Span range) {
  if (count <= reading_.may_open) {
    reading_.may_open -= count;
    return true;
  }
  complain(range, "the ranges of this plan stand for more than 200000 names in all", "fewer names");
  return false;
}

}  // namespace loomleaf
