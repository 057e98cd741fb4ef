#include "wrapped.h"

#include <algorithm>

namespace loomleaf {

namespace {

constexpr std::size_t width = 78;

}  // namespace

std::string wrapped(std::string_view text, std::string_view first, std::string_view indent) {
  std::string out(first), line;
  std::size_t before = first.size();
  const auto put = [&](std::string_view word) {
    if (!line.empty() && before + line.size() + 1 + word.size() > width) {
      out += line + "\n" + std::string(indent);
      before = indent.size();
      line.clear();
    }
    if (!line.empty()) line += ' ';
    line += word;
  };
  while (!text.empty()) {
    const std::size_t space = std::min(text.find(' '), text.size());
    put(text.substr(0, space));
    text.remove_prefix(std::min(space + 1, text.size()));
  }
  return out + line + "\n";
}

std::string wrapped(std::string_view text, std::string_view indent) { return wrapped(text, indent, indent); }

}  // namespace loomleaf
