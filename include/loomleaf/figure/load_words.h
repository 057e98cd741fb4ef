// Which symbol a load gets, by the words of its description.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "loomleaf/stock/stock.h"

namespace loomleaf {

struct LoadWord {
  std::string word;  // lower case; also met with a plural s
  std::string symbol;
};

struct LoadWords {
  std::vector<LoadWord> words;  // the first that a description holds counts
  std::string otherwise;        // symbol of a load that none describes

  const std::string& symbol_for(std::string_view description) const;
};

// Reads symbols/loads.xml.
Loaded<LoadWords> load_words(const TemplateFolders& folders);

}  // namespace loomleaf
