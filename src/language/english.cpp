#include "loomleaf/language/english.h"

#include <fmt/format.h>

namespace loomleaf {

std::string with_article(std::string_view noun) {
  const bool vowel = !noun.empty() && std::string_view("aeiou").find(noun.front()) != std::string_view::npos;
  return std::string(vowel ? "an " : "a ").append(noun);
}

std::string or_list(const std::vector<std::string>& choices) {
  std::string text;
  for (std::size_t k = 0; k < choices.size(); ++k) {
    if (k > 0) text += k + 1 == choices.size() ? " or " : ", ";
    text += choices[k];
  }
  return text;
}

std::string one_of(const std::vector<std::string>& choices) {
  return fmt::format("one of {}", fmt::join(choices, ", "));
}

std::string counted(std::size_t count, std::string_view noun) {
  return fmt::format("{} {}{}", count, noun, count == 1 ? "" : "s");
}

}  // namespace loomleaf
