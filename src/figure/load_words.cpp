#include "loomleaf/figure/load_words.h"

#include <algorithm>
#include <cctype>

#include "../stock/template_file.h"

namespace loomleaf {
namespace {

std::string lower(std::string_view text) {
  std::string result(text);
  std::transform(result.begin(), result.end(), result.begin(),
                 [](unsigned char c) { return c < 0x80 ? static_cast<char>(std::tolower(c)) : static_cast<char>(c); });
  return result;
}

bool is_letter(char c) { return std::isalpha(static_cast<unsigned char>(c)) != 0; }

// Whether `word` stands in `text` as a word of its own, plural included.
bool holds_word(const std::string& text, const std::string& word) {
  for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) {
    if (at > 0 && is_letter(text[at - 1])) continue;
    std::size_t end = at + word.size();
    if (end < text.size() && text[end] == 's') ++end;
    if (end == text.size() || !is_letter(text[end])) return true;
  }
  return false;
}

}  // namespace

const std::string& LoadWords::symbol_for(std::string_view description) const {
  const std::string text = lower(description);
  const auto found =
      std::find_if(words.begin(), words.end(), [&](const LoadWord& entry) { return holds_word(text, entry.word); });
  return found == words.end() ? otherwise : found->symbol;
}

Loaded<LoadWords> load_words(const TemplateFolders& folders) {
  Loaded<LoadWords> loaded;
  TemplateFile file(folders.find("symbols", "loads.xml"), "loads");
  if (file.root()) {
    file.only_attributes(file.root(), {"format", "otherwise"});
    loaded.value.otherwise = file.text(file.root(), "otherwise").value_or("");
    for (const pugi::xml_node row : file.children(file.root(), {"load"})) {
      file.only_attributes(row, {"word", "symbol"});
      const auto word = file.text(row, "word"), symbol = file.text(row, "symbol");
      if (word && symbol) loaded.value.words.push_back({lower(*word), *symbol});
    }
  }
  loaded.errors = file.take_errors();
  return loaded;
}

}  // namespace loomleaf
