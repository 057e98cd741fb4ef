// Text from a file that nobody vouches for.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace loomleaf {

// The offset of the first byte that is not well-formed UTF-8 (overlong forms and surrogates included).
std::optional<std::size_t> first_bad_utf8(std::string_view text);

bool has_control_character(std::string_view text);

// Safe to show in a message: at most 40 characters, control characters and bad bytes as "?".
std::string clipped(std::string_view text);

// The XML reader's own words as our messages are written: lower-case start, no full stop.
std::string pugi_words(std::string_view description);

}  // namespace loomleaf
