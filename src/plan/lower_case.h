// ASCII lower case, for words that a plan may write in any case.
#pragma once

#include <string>
#include <string_view>

namespace loomleaf {

inline std::string lower_case(std::string_view text) {
  std::string lower(text);
  for (char& c : lower)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return lower;
}

}  // namespace loomleaf
