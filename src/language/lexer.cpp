#include "loomleaf/language/lexer.h"

#include <fmt/format.h>

#include <algorithm>

#include "line_tokens.h"
#include "loomleaf/language/utf8.h"

namespace loomleaf {
namespace {

bool is_plain(char c) { return (c >= 0x20 && c < 0x7F) || c == '\t'; }

std::string bad_character_message(const Character& c) {
  if (!c.valid) return "this byte is no UTF-8 text";
  if (c.code < 0x20 || (c.code >= 0x7F && c.code <= 0x9F))
    return fmt::format("control character U+{:04X}", unsigned{c.code});
  return fmt::format("invisible character U+{:04X}", unsigned{c.code});
}

}  // namespace

void Lexer::complain(Span span, std::string message, std::string write) {
  complaints_.push_back({span, std::move(message), std::move(write), {}});
}

std::optional<Lexer::Line> Lexer::peek_line() const {
  const std::string_view text = source_.text();
  if (at_ >= text.size()) return std::nullopt;
  std::size_t end = text.find('\n', at_);
  if (end == std::string_view::npos) end = text.size();
  Line line{{at_, static_cast<std::uint32_t>(end)}};
  if (line.span.end > line.span.begin && text[line.span.end - 1] == '\r') --line.span.end;
  line.indented = line.span.end > line.span.begin && is_space(character_at(text, at_).code);
  return line;
}

// Each run of bad characters is told once; whole lines of them (a picture, a program) once a line.
bool Lexer::has_bad_characters(Span line) {
  const std::string_view text = source_.text();
  for (std::uint32_t at = line.begin; at < line.end;) {
    if (is_plain(text[at])) {
      ++at;
      continue;
    }
    const Character c = character_at(text.substr(0, line.end), at);
    if (!c.valid || is_control(c.code)) {
      complain({at, at + static_cast<std::uint32_t>(c.size)}, bad_character_message(c),
               c.valid ? "the line without it" : "the line again in an editor that saves as UTF-8");
      return true;
    }
    at += static_cast<std::uint32_t>(c.size);
  }
  return false;
}

void Lexer::read_line(const Line& line, RawStatement& into) {
  if (line.span.end - line.span.begin > longest_line) {
    complain({line.span.begin, line.span.begin + 1},
             fmt::format("this line is longer than {} characters", longest_line),
             "several lines: one that begins with a space goes on with the one above");
    into.damaged = true;
    return;
  }
  if (has_bad_characters(line.span)) into.damaged = true;
  read_line_tokens(source_.text(), line.span, into.tokens, complaints_);
}

std::optional<RawStatement> Lexer::next() {
  const std::string_view text = source_.text();
  constexpr std::size_t usual_count = 16;
  RawStatement statement;
  statement.tokens.reserve(usual_count);
  bool too_long = false;
  while (complaints_.size() <= most_complaints) {
    const auto line = peek_line();
    if (!line) break;
    const bool begun = !statement.tokens.empty();
    // A blank line or a comment at the margin ends nothing.
    const bool at_margin = !line->indented && line->span.begin != line->span.end && text[line->span.begin] != '#';
    if (begun && at_margin) break;
    if (!begun) statement.damaged = statement.troubled = false;
    at_ = static_cast<std::uint32_t>(std::min(text.find('\n', at_), text.size() - 1) + 1);
    if (too_long) continue;
    const std::size_t complaints_before = complaints_.size();
    read_line(*line, statement);
    if (!begun && line->indented && !statement.tokens.empty()) {
      complain(statement.tokens.front().span,
               "this line begins with a space, so it goes on with the one above, and there is none",
               std::string(source_.text(join(statement.tokens.front().span, statement.tokens.back().span))));
      statement.damaged = true;
    }
    if (complaints_.size() != complaints_before) statement.troubled = true;
    if (statement.tokens.size() > longest_statement) {
      complain(statement.tokens.front().span, fmt::format("this statement has more than {} words", longest_statement),
               "several statements");
      statement.damaged = too_long = true;
    }
  }
  if (statement.tokens.empty()) return std::nullopt;
  return statement;
}

}  // namespace loomleaf
