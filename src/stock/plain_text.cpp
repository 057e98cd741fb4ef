#include "plain_text.h"

#include <algorithm>
#include <cctype>

namespace loomleaf {

namespace {

// Bytes of the well-formed UTF-8 sequence that starts here (Unicode standard, table 3-7); 0 where there is none.
std::size_t sequence_length(std::string_view text) {
  const auto byte = [&](std::size_t i) { return i < text.size() ? static_cast<unsigned char>(text[i]) : 0U; };
  const auto follows = [&](std::size_t i, unsigned low = 0x80, unsigned high = 0xBF) {
    return byte(i) >= low && byte(i) <= high;
  };
  const unsigned first = byte(0);
  if (first < 0x80) return 1;
  if (first >= 0xC2 && first <= 0xDF) return follows(1) ? 2 : 0;
  if (first >= 0xE0 && first <= 0xEF) {
    const unsigned low = first == 0xE0 ? 0xA0 : 0x80, high = first == 0xED ? 0x9F : 0xBF;
    return follows(1, low, high) && follows(2) ? 3 : 0;
  }
  if (first >= 0xF0 && first <= 0xF4) {
    const unsigned low = first == 0xF0 ? 0x90 : 0x80, high = first == 0xF4 ? 0x8F : 0xBF;
    return follows(1, low, high) && follows(2) && follows(3) ? 4 : 0;
  }
  return 0;
}

bool is_control(char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7F; }

}  // namespace

std::optional<std::size_t> first_bad_utf8(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = sequence_length(text.substr(at));
    if (length == 0) return at;
    at += length;
  }
  return std::nullopt;
}

bool has_control_character(std::string_view text) { return std::any_of(text.begin(), text.end(), is_control); }

std::string clipped(std::string_view text) {
  constexpr std::size_t most = 40;
  std::string shown;
  std::size_t characters = 0;
  while (!text.empty() && characters++ < most) {
    const std::size_t length = sequence_length(text);
    if (length == 0 || is_control(text.front())) {
      shown += '?';
    } else {
      shown += text.substr(0, length);
    }
    text.remove_prefix(std::max<std::size_t>(length, 1));
  }
  if (!text.empty()) shown += "...";
  return shown;
}

std::string pugi_words(std::string_view description) {
  std::string words(description);
  if (!words.empty()) words[0] = static_cast<char>(std::tolower(static_cast<unsigned char>(words[0])));
  while (!words.empty() && words.back() == '.') words.pop_back();
  return words;
}

}  // namespace loomleaf
