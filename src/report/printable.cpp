#include <cstddef>

#include "loomleaf/report/report.h"

namespace loomleaf {

namespace {

constexpr std::string_view replacement = "\xEF\xBF\xBD";  // U+FFFD

struct Character {
  char32_t code = 0;
  std::size_t length = 1;
  bool valid = false;
};

// The character at the start of the text, by the table of well-formed UTF-8 (Unicode 15, table 3-7).
Character read(std::string_view text) {
  const auto byte = [&](std::size_t at) { return static_cast<unsigned char>(text[at]); };
  const unsigned char first = byte(0);
  if (first < 0x80) return {first, 1, true};
  const std::size_t length = first >= 0xC2 && first <= 0xDF   ? 2
                             : first >= 0xE0 && first <= 0xEF ? 3
                             : first >= 0xF0 && first <= 0xF4 ? 4
                                                              : 0;
  if (length == 0 || text.size() < length) return {};
  char32_t code = first & (0xFFu >> (length + 1));
  for (std::size_t at = 1; at < length; ++at) {
    if ((byte(at) & 0xC0u) != 0x80u) return {};
    code = (code << 6) | (byte(at) & 0x3Fu);
  }
  constexpr char32_t least[] = {0, 0, 0x80, 0x800, 0x10000};
  const bool surrogate = code >= 0xD800 && code <= 0xDFFF;
  return {code, length, code >= least[length] && code <= 0x10FFFF && !surrogate};
}

// C0 and C1 controls, and what turns the direction of writing or breaks a line unseen.
bool is_control(char32_t code) {
  return code < 0x20 || (code >= 0x7F && code < 0xA0) || code == 0x061C || code == 0x200E || code == 0x200F ||
         (code >= 0x2028 && code <= 0x202E) || (code >= 0x2066 && code <= 0x2069);
}

}  // namespace

std::string printable(std::string_view text) {
  std::string shown;
  while (!text.empty()) {
    const Character at = read(text);
    const std::size_t length = at.valid ? at.length : 1;
    if (at.code == U'\t' && at.valid)
      shown += ' ';
    else if (!at.valid || is_control(at.code))
      shown += replacement;
    else
      shown += text.substr(0, length);
    text.remove_prefix(length);
  }
  return shown;
}

}  // namespace loomleaf
