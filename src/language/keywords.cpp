#include <algorithm>
#include <array>
#include <unordered_map>

#include "loomleaf/language/words.h"

namespace loomleaf {
namespace {

// In the order of the enum.
constexpr std::array<std::string_view, 23> words = {
    "plan", "system",    "default", "place", "leg",    "spool", "accept",    "source",
    "fuse", "breaker",   "switch",  "shunt", "dimmer", "relay", "converter", "splice",
    "bus",  "connector", "chassis", "tail",  "load",   "wire",  "cable",
};

constexpr std::array<std::string_view, 3> for_later = {"include", "log", "diode"};

constexpr std::array<std::string_view, 5> source_kinds = {"battery", "charger", "solar", "alternator", "supply"};
constexpr std::array<std::string_view, 5> load_kinds = {"electronic", "resistive", "motor", "constant-current",
                                                        "starter"};

}  // namespace

std::string lower_case(std::string_view word) {
  std::string lower(word);
  for (char& c : lower)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return lower;
}

std::string_view name_of(Keyword keyword) { return words[static_cast<std::size_t>(keyword)]; }

std::optional<Keyword> find_keyword(std::string_view word) {
  static const auto by_word = [] {
    std::unordered_map<std::string_view, Keyword> map;
    for (std::size_t k = 0; k < words.size(); ++k) map.emplace(words[k], static_cast<Keyword>(k));
    return map;
  }();
  const auto found = by_word.find(word);
  if (found == by_word.end()) return std::nullopt;
  return found->second;
}

std::vector<std::string> keyword_names() { return {words.begin(), words.end()}; }

bool is_reserved_for_later(std::string_view word) { return std::ranges::find(for_later, word) != for_later.end(); }

std::span<const std::string_view> kind_words(Keyword keyword) {
  if (keyword == Keyword::source) return source_kinds;
  if (keyword == Keyword::load) return load_kinds;
  return {};
}

}  // namespace loomleaf
