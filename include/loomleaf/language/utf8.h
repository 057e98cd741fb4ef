// Characters of UTF-8 text, one at a time.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace loomleaf {

// The character that begins at `at` (which must be inside the text). Bytes that are no UTF-8 (overlong forms,
// surrogates and what lies beyond U+10FFFF among them) are one invalid character each.
struct Character {
  char32_t code = 0;
  std::size_t size = 1;  // bytes
  bool valid = true;
};
Character character_at(std::string_view text, std::size_t at);

void append_character(std::string& text, char32_t code);

// Control and invisible characters that have no business in a plan, tab and line feed excepted. The joiners that some
// scripts need (U+200C, U+200D) are let pass.
bool is_control(char32_t code);

bool is_space(char32_t code);         // a space of whatever width, a tab
bool is_letter(char32_t code);        // Latin, Greek, Cyrillic
bool is_double_quote(char32_t code);  // straight, curly, low, angled
bool is_single_quote(char32_t code);  // straight, curly, prime
bool is_dash(char32_t code);          // hyphen, minus, en and em dash

}  // namespace loomleaf
