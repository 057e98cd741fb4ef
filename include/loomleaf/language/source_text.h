// The text of a plan, and places in it.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace loomleaf {

// A half-open range of bytes in the source text.
struct Span {
  std::uint32_t begin = 0;
  std::uint32_t end = 0;
  bool operator==(const Span&) const = default;
};

// The smallest span that holds both.
Span join(Span a, Span b);

// A place as a reader counts it: lines and columns from 1, a column being one character (code point), a tab one column.
struct Place2D {
  int line = 1;
  int column = 1;
};

// The text of one file with its name as the user gave it ("-" for standard input).
class SourceText {
 public:
  SourceText(std::string name, std::string text);

  const std::string& name() const { return name_; }
  std::string_view text() const { return text_; }
  std::string_view text(Span span) const;
  Place2D start(Span span) const;
  Place2D end(Span span) const;             // the place just behind the span
  std::string_view line_text(int line) const;  // without its line end

 private:
  std::string name_;
  std::string text_;
  std::vector<std::uint32_t> line_starts_;
};

}  // namespace loomleaf
