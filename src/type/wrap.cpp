#include "loomleaf/type/wrap.h"

#include <algorithm>

#include "loomleaf/type/drawable_text.h"

namespace loomleaf {

std::vector<std::string> wrapped(const TextMeasure& type, std::string_view text, TextStyle style, double width_mm,
                                 int most_lines) {
  const std::string whole = drawable(text);
  const std::string_view rest(whole);
  std::vector<std::string> lines;
  std::size_t at = rest.find_first_not_of(' ');
  while (at != std::string_view::npos && static_cast<int>(lines.size()) < most_lines) {
    if (static_cast<int>(lines.size()) + 1 == most_lines) {
      lines.push_back(type.fitted(rest.substr(at), style, width_mm));
      break;
    }
    std::size_t end = std::min(rest.find(' ', at), rest.size());  // the first word goes on this line at any rate
    for (std::size_t next = end; next < rest.size();) {
      next = std::min(rest.find(' ', next + 1), rest.size());
      if (type.width(rest.substr(at, next - at), style) > width_mm) break;
      end = next;
    }
    lines.push_back(type.fitted(rest.substr(at, end - at), style, width_mm));
    at = rest.find_first_not_of(' ', end);
  }
  return lines;
}

}  // namespace loomleaf
