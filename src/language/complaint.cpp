#include "loomleaf/language/complaint.h"

#include <fmt/format.h>

#include <algorithm>

#include "loomleaf/language/utf8.h"

namespace loomleaf {
namespace {

constexpr int widest = 120;  // characters of a line that are shown

// A line as it can be shown: one character each, tabs as spaces, control characters as a visible replacement.
std::u32string shown(std::string_view line) {
  std::u32string text;
  for (std::size_t at = 0; at < line.size();) {
    const Character c = character_at(line, at);
    at += c.size;
    if (c.code == '\t')
      text.push_back(' ');
    else
      text.push_back(c.valid && !is_control(c.code) ? c.code : 0xFFFD);
  }
  return text;
}

std::string utf8(std::u32string_view text) {
  std::string bytes;
  for (const char32_t c : text) append_character(bytes, c);
  return bytes;
}

// The line that holds the span's start, and below it the underline; a span over several lines is underlined up to the
// end of its first.
std::string underlined(Span span, const SourceText& source) {
  const Place2D start = source.start(span), end = source.end(span);
  std::u32string line = shown(source.line_text(start.line));
  const int size = static_cast<int>(line.size());
  int first = start.column - 1;
  int last = end.line == start.line ? std::max(end.column - 1, first + 1) : std::max(size, first + 1);
  if (size > widest) {
    const int from = std::clamp(first - widest / 3, 0, size - widest);
    line = line.substr(static_cast<std::size_t>(from), static_cast<std::size_t>(widest));
    first -= from;
    last = std::clamp(last - from, first + 1, std::max(first + 1, widest));
    if (from > 0) line.replace(0, 3, U"...");
    if (from + widest < size) line.replace(static_cast<std::size_t>(widest - 3), 3, U"...");
  }
  std::string mark(static_cast<std::size_t>(first), ' ');
  mark += '^';
  mark.append(static_cast<std::size_t>(last - first - 1), '~');
  return utf8(line) + '\n' + mark + '\n';
}

std::string header(Span span, const std::string& message, const SourceText& source) {
  const Place2D start = source.start(span);
  return fmt::format("{}:{}:{}: {}\n", utf8(shown(source.name())), start.line, start.column, utf8(shown(message)));
}

}  // namespace

std::string to_text(const Complaint& complaint, const SourceText& source) {
  std::string text = header(complaint.span, complaint.message, source) + underlined(complaint.span, source);
  if (!complaint.write.empty()) text += "write: " + utf8(shown(complaint.write)) + '\n';
  if (complaint.also)
    text += header(complaint.also->span, complaint.also->text, source) + underlined(complaint.also->span, source);
  return text;
}

void sort_by_place(std::vector<Complaint>& complaints) {
  const auto begin = [](const Complaint& c) { return c.span.begin; };
  std::ranges::stable_sort(complaints, {}, begin);
  const auto same = [&](const Complaint& a, const Complaint& b) { return begin(a) == begin(b); };
  complaints.erase(std::unique(complaints.begin(), complaints.end(), same), complaints.end());
}

}  // namespace loomleaf
