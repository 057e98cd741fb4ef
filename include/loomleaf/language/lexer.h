// Splits the text of a plan into statements, and those into tokens.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "loomleaf/language/complaint.h"
#include "loomleaf/language/source_text.h"

namespace loomleaf {

// A number and the unit written against it are two tokens, the second `glued` to the first: "5A" is 5 and A, "6'4"" is
// 6, ', 4 and ". Everything else that is written together is one word: "LA4+", "D1.in+", "red/white", "class-t".
struct Token {
  enum class Kind { word, number, text, comma, dots };
  Kind kind = Kind::word;
  std::string text;  // dashes, crosses and marks in their plain form; of a quoted text, what stands within
  Span span;
  bool glued = false;  // no space before it
};

// The tokens of one statement: a line at the margin and the indented ones below it.
struct RawStatement {
  std::vector<Token> tokens;  // at least one
  bool damaged = false;       // holds characters that a plan cannot hold; a complaint says so
  bool troubled = false;      // has a complaint already
};

class Lexer {
 public:
  static constexpr std::size_t longest_line = 10'000;        // bytes
  static constexpr std::size_t longest_statement = 100'000;  // tokens
  static constexpr std::size_t most_complaints = 1'000;      // where there are more, reading stops

  Lexer(const SourceText& source, std::vector<Complaint>& complaints) : source_(source), complaints_(complaints) {}
  std::optional<RawStatement> next();  // nothing at the end of the text

 private:
  struct Line {
    Span span;
    bool indented = false;
  };
  std::optional<Line> peek_line() const;
  void read_line(const Line& line, RawStatement& into);
  bool has_bad_characters(Span line);
  void complain(Span span, std::string message, std::string write);

  const SourceText& source_;
  std::vector<Complaint>& complaints_;
  std::uint32_t at_ = 0;
};

}  // namespace loomleaf
