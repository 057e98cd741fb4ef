#include "line_tokens.h"

#include "loomleaf/language/utf8.h"

namespace loomleaf {
namespace {

bool is_digit(char32_t code) { return code >= '0' && code <= '9'; }

bool is_ascii(char byte) { return (byte & 0x80) == 0; }

class LineReader {
 public:
  LineReader(std::string_view text, Span line, std::vector<Token>& tokens, std::vector<Complaint>& complaints)
      : text_(text), at_(line.begin), end_(line.end), tokens_(tokens), complaints_(complaints) {}

  void read() {
    bool glued = false;
    while (at_ < end_ && peek() != '#') {
      if (is_space(peek())) {
        advance();
        glued = false;
        continue;
      }
      read_token(glued);
      glued = true;
    }
  }

 private:
  // The character `ahead` ASCII characters further on; 0 behind the end.
  char32_t peek(std::uint32_t ahead = 0) const {
    if (at_ + ahead >= end_) return 0;
    const char byte = text_[at_ + ahead];
    return is_ascii(byte) ? static_cast<char32_t>(byte) : character_at(text_.substr(0, end_), at_ + ahead).code;
  }
  void advance() { at_ += is_ascii(text_[at_]) ? 1 : static_cast<std::uint32_t>(character_at(text_, at_).size); }

  void add(Token::Kind kind, std::string text, std::uint32_t begin, bool glued) {
    tokens_.push_back({kind, std::move(text), {begin, at_}, glued});
  }

  bool after_number(bool glued) const {
    return glued && !tokens_.empty() && tokens_.back().kind == Token::Kind::number;
  }

  void read_token(bool glued) {
    const std::uint32_t begin = at_;
    const char32_t c = peek();
    if (c == ',') {
      advance();
      return add(Token::Kind::comma, ",", begin, glued);
    }
    if (at_dots()) return read_dots(glued);
    if (after_number(glued) && (is_double_quote(c) || is_single_quote(c))) return read_inch_or_foot_marks(glued);
    if (is_double_quote(c)) return read_text(glued);
    if (is_single_quote(c) && !glued) return read_single_quoted(glued);
    if (at_number(glued)) return read_number(glued);
    if (after_number(glued)) return read_unit(glued);
    read_word(glued);
  }

  bool at_dots() const { return peek() == 0x2026 || (peek() == '.' && peek(1) == '.'); }

  void read_dots(bool glued) {
    const std::uint32_t begin = at_;
    if (peek() == 0x2026) advance();
    while (peek() == '.' && !is_digit(peek(1))) advance();
    if (at_ < end_ && peek() == '.') advance();
    add(Token::Kind::dots, "..", begin, glued);
  }

  // 6'4" and 6''
  void read_inch_or_foot_marks(bool glued) {
    const std::uint32_t begin = at_;
    const bool inch = is_double_quote(peek());
    advance();
    add(Token::Kind::word, inch ? "\"" : "'", begin, glued);
  }

  // A text in double quotes ends at the next straight one, or, where a curly one opens it, at the next of any form.
  void read_text(bool glued) {
    const std::uint32_t begin = at_;
    const bool straight = peek() == '"';
    advance();
    const std::uint32_t inside = at_;
    while (at_ < end_ && !(straight ? peek() == '"' : is_double_quote(peek()))) advance();
    std::string inner(text_.substr(inside, at_ - inside));
    if (at_ < end_) {
      advance();
    } else {
      while (!inner.empty() && (inner.back() == ' ' || inner.back() == '\t')) inner.pop_back();
      complaints_.push_back(
          {{begin, end_}, "the quote that opens here is not closed on its line", '"' + inner + '"', {}});
    }
    for (char& c : inner)
      if (c == '\t') c = ' ';
    add(Token::Kind::text, std::move(inner), begin, glued);
  }

  void read_single_quoted(bool glued) {
    const std::uint32_t begin = at_;
    advance();
    const std::uint32_t inside = at_;
    while (at_ < end_ && !is_single_quote(peek())) advance();
    std::string inner(text_.substr(inside, at_ - inside));
    if (at_ < end_) advance();
    complaints_.push_back({{begin, at_}, "a text stands in double quotes", '"' + inner + '"', {}});
    add(Token::Kind::text, std::move(inner), begin, glued);
  }

  // At a sign or a digit that begins a number. Within a word (LA4, R1.87) there is no number.
  bool at_number(bool glued) const {
    if (is_digit(peek())) return true;
    if (peek() == '.') return is_digit(peek(1));
    if (after_number(glued)) return false;
    if (peek() == '+') return is_digit(peek(1)) || (peek(1) == '.' && is_digit(peek(2)));
    if (!is_dash(peek())) return false;
    const auto size = static_cast<std::uint32_t>(character_at(text_, at_).size);
    return is_digit(peek(size)) || (peek(size) == '.' && is_digit(peek(size + 1)));
  }

  void take_into(std::string& word) {
    if (is_ascii(text_[at_])) return word.push_back(text_[at_++]);
    const char32_t c = peek();
    if (is_dash(c))
      word.push_back('-');
    else if (c == 0xD7)
      word.push_back('x');
    else
      append_character(word, c);
    advance();
  }

  void take_digits(std::string& number) {
    while (is_digit(peek())) take_into(number);
  }

  // 5, -5, 0.2, .5, 1e3, 1/0 (a wire gauge), and 2,5 for a complaint about the comma.
  void read_number(bool glued) {
    const std::uint32_t begin = at_;
    std::string number;
    if (!is_digit(peek()) && peek() != '.') take_into(number);
    take_digits(number);
    while ((peek() == '.' || peek() == ',') && is_digit(peek(1))) {
      take_into(number);
      take_digits(number);
    }
    if (peek() == '.' && peek(1) != '.') take_into(number);
    if (peek() == '/' && peek(1) == '0' && !is_digit(peek(2))) {
      take_into(number);
      take_into(number);
    }
    const char32_t sign = peek(1);
    const bool exponent =
        (peek() == 'e' || peek() == 'E') && (is_digit(sign) || ((sign == '-' || sign == '+') && is_digit(peek(2))));
    if (exponent) {
      take_into(number);
      take_into(number);
      take_digits(number);
    }
    add(Token::Kind::number, std::move(number), begin, glued);
  }

  bool at_word_end() const {
    const char32_t c = peek();
    return at_ >= end_ || c == ',' || c == '#' || is_space(c) || is_double_quote(c) || at_dots();
  }

  bool at_times() const {
    if (peek() == 0xD7) return is_digit(peek(2));
    return (peek() == 'x' || peek() == 'X') && is_digit(peek(1));
  }

  // The unit against a number ends where the next number begins: 6ft4in, 2x1.5mm2, 45mmx22mm.
  void read_unit(bool glued) {
    const std::uint32_t begin = at_;
    std::string unit;
    while (!at_word_end()) {
      const bool square = unit == "mm" || unit == "MM" || unit == "mm^";
      if (is_digit(peek()) && !square) break;
      if (at_times() && !unit.empty()) break;
      take_into(unit);
    }
    add(Token::Kind::word, std::move(unit), begin, glued);
    if (!at_times()) return;
    const std::uint32_t times = at_;
    advance();
    add(Token::Kind::word, "x", times, true);
  }

  void read_word(bool glued) {
    const std::uint32_t begin = at_;
    std::string word;
    do take_into(word);
    while (!at_word_end());
    add(Token::Kind::word, std::move(word), begin, glued);
  }

  std::string_view text_;
  std::uint32_t at_;
  std::uint32_t end_;
  std::vector<Token>& tokens_;
  std::vector<Complaint>& complaints_;
};

}  // namespace

void read_line_tokens(std::string_view text, Span line, std::vector<Token>& tokens,
                      std::vector<Complaint>& complaints) {
  LineReader(text, line, tokens, complaints).read();
}

}  // namespace loomleaf
