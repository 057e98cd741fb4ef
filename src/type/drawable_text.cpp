#include "loomleaf/type/drawable_text.h"

#include <glib.h>

namespace loomleaf {
namespace {

constexpr std::string_view kReplacement = "\xEF\xBF\xBD";
constexpr int kMostMarks = 2;

bool has_a_shape(gunichar c) {
  switch (g_unichar_type(c)) {
    case G_UNICODE_CONTROL:
    case G_UNICODE_FORMAT:
    case G_UNICODE_UNASSIGNED:
    case G_UNICODE_PRIVATE_USE:
    case G_UNICODE_SURROGATE:
    case G_UNICODE_LINE_SEPARATOR:
    case G_UNICODE_PARAGRAPH_SEPARATOR:
      return false;
    default:
      return true;
  }
}

}  // namespace

std::string drawable(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  int marks = 0;
  while (!text.empty()) {
    const gunichar c = g_utf8_get_char_validated(text.data(), static_cast<gssize>(text.size()));
    const bool valid = c < 0x110000 && c != 0;
    const std::size_t length = valid ? static_cast<std::size_t>(g_unichar_to_utf8(c, nullptr)) : 1;
    marks = valid && g_unichar_ismark(c) ? marks + 1 : 0;
    if (c == '\t')
      out += ' ';
    else if (!valid || !has_a_shape(c))
      out += kReplacement;
    else if (marks <= kMostMarks)
      out += text.substr(0, length);
    else if (marks == kMostMarks + 1)
      out += kReplacement;
    text.remove_prefix(length);
  }
  return out;
}

}  // namespace loomleaf
