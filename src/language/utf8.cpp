#include "loomleaf/language/utf8.h"

namespace loomleaf {
namespace {

constexpr char32_t least_code_of_size[] = {0, 0, 0x80, 0x800, 0x10000};

std::size_t size_from_first_byte(unsigned char byte) {
  if (byte < 0x80) return 1;
  if ((byte & 0xE0) == 0xC0) return 2;
  if ((byte & 0xF0) == 0xE0) return 3;
  if ((byte & 0xF8) == 0xF0) return 4;
  return 0;
}

}  // namespace

Character character_at(std::string_view text, std::size_t at) {
  const Character invalid{0xFFFD, 1, false};
  const auto first = static_cast<unsigned char>(text[at]);
  const std::size_t size = size_from_first_byte(first);
  if (size == 1) return {first, 1, true};
  if (size == 0 || at + size > text.size()) return invalid;
  char32_t code = first & (0xFFu >> (size + 1));
  for (std::size_t k = 1; k < size; ++k) {
    const auto byte = static_cast<unsigned char>(text[at + k]);
    if ((byte & 0xC0) != 0x80) return invalid;
    code = (code << 6) | (byte & 0x3F);
  }
  const bool surrogate = code >= 0xD800 && code <= 0xDFFF;
  if (code < least_code_of_size[size] || code > 0x10FFFF || surrogate) return invalid;
  return {code, size, true};
}

void append_character(std::string& text, char32_t code) {
  const auto byte = [&](char32_t value) { text.push_back(static_cast<char>(value)); };
  if (code < 0x80) {
    byte(code);
  } else if (code < 0x800) {
    byte(0xC0 | (code >> 6));
    byte(0x80 | (code & 0x3F));
  } else if (code < 0x10000) {
    byte(0xE0 | (code >> 12));
    byte(0x80 | ((code >> 6) & 0x3F));
    byte(0x80 | (code & 0x3F));
  } else {
    byte(0xF0 | (code >> 18));
    byte(0x80 | ((code >> 12) & 0x3F));
    byte(0x80 | ((code >> 6) & 0x3F));
    byte(0x80 | (code & 0x3F));
  }
}

bool is_control(char32_t code) {
  if (code < 0x20) return code != '\t' && code != '\n';
  if (code >= 0x7F && code <= 0x9F) return true;
  const bool joiner = code == 0x200C || code == 0x200D;
  if (code >= 0x200B && code <= 0x200F) return !joiner;
  return (code >= 0x2028 && code <= 0x202E) || (code >= 0x2060 && code <= 0x206F) || code == 0xFEFF || code == 0xFFFE ||
         code == 0xFFFF;
}

bool is_space(char32_t code) {
  return code == ' ' || code == '\t' || code == 0xA0 || code == 0x1680 || (code >= 0x2000 && code <= 0x200A) ||
         code == 0x202F || code == 0x205F || code == 0x3000;
}

bool is_letter(char32_t code) {
  if ((code >= 'A' && code <= 'Z') || (code >= 'a' && code <= 'z')) return true;
  if (code >= 0xC0 && code <= 0x24F) return code != 0xD7 && code != 0xF7;
  return (code >= 0x386 && code <= 0x3FF && code != 0x387) || (code >= 0x400 && code <= 0x52F);
}

bool is_double_quote(char32_t code) {
  return code == '"' || (code >= 0x201C && code <= 0x201F) || code == 0xAB || code == 0xBB || code == 0x2033;
}

bool is_single_quote(char32_t code) { return code == '\'' || (code >= 0x2018 && code <= 0x201B) || code == 0x2032; }

bool is_dash(char32_t code) { return code == '-' || (code >= 0x2010 && code <= 0x2015) || code == 0x2212; }

}  // namespace loomleaf
