#include "loomleaf/language/source_text.h"

#include <algorithm>

namespace loomleaf {
namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

// Continuation bytes of UTF-8 belong to the character before them.
int count_characters(std::string_view text) {
  return static_cast<int>(std::ranges::count_if(text, [](char c) { return (c & 0xC0) != 0x80; }));
}

}  // namespace

Span join(Span a, Span b) { return {std::min(a.begin, b.begin), std::max(a.end, b.end)}; }

SourceText::SourceText(std::string name, std::string text) : name_(std::move(name)), text_(std::move(text)) {
  if (text_.starts_with(byte_order_mark)) text_.erase(0, byte_order_mark.size());
  line_starts_.push_back(0);
  for (std::size_t at = 0; at < text_.size(); ++at)
    if (text_[at] == '\n') line_starts_.push_back(static_cast<std::uint32_t>(at + 1));
}

std::string_view SourceText::text(Span span) const {
  const std::size_t begin = std::min<std::size_t>(span.begin, text_.size());
  return std::string_view(text_).substr(begin, span.end > begin ? span.end - begin : 0);
}

Place2D SourceText::start(Span span) const {
  const std::uint32_t at = std::min(span.begin, static_cast<std::uint32_t>(text_.size()));
  const auto line = std::ranges::upper_bound(line_starts_, at) - line_starts_.begin();
  const std::uint32_t line_start = line_starts_[static_cast<std::size_t>(line - 1)];
  return {static_cast<int>(line), 1 + count_characters(text({line_start, at}))};
}

Place2D SourceText::end(Span span) const { return start({span.end, span.end}); }

std::string_view SourceText::line_text(int line) const {
  if (line < 1 || static_cast<std::size_t>(line) > line_starts_.size()) return {};
  const std::uint32_t begin = line_starts_[static_cast<std::size_t>(line - 1)];
  std::string_view rest = std::string_view(text_).substr(begin);
  rest = rest.substr(0, rest.find('\n'));
  if (rest.ends_with('\r')) rest.remove_suffix(1);
  return rest;
}

}  // namespace loomleaf
