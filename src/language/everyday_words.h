// Words that people use for what the language calls by another name.
#pragma once

#include <optional>
#include <string_view>

#include "loomleaf/language/statement.h"

namespace loomleaf {

struct EverydayWord {
  std::string_view word;
  Keyword keyword;
  std::string_view write;
};
const EverydayWord* find_everyday_word(std::string_view lower_case_word);  // nullptr: none

}  // namespace loomleaf
