#include <algorithm>
#include <vector>

#include "loomleaf/language/words.h"

namespace loomleaf {
namespace {

constexpr std::size_t longest_word = 40;  // no word of the language is longer

// Insertions, deletions, changes and swaps of neighbours that lead from one word to the other (optimal string
// alignment: R. A. Wagner and R. Lowrance, "An extension of the string-to-string correction problem", 1975).
std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> before_last, last(b.size() + 1), row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    before_last = last;
    last = row;
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t change = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      row[j] = std::min({change, last[j] + 1, row[j - 1] + 1});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) row[j] = std::min(row[j], before_last[j - 2] + 1);
    }
  }
  return row[b.size()];
}

// One slip in every three letters is near; a word of two letters has no neighbours.
std::size_t near_enough(std::string_view word) {
  return word.size() < 3 ? 0 : std::max<std::size_t>(1, word.size() / 3);
}

}  // namespace

std::optional<std::string> nearest(std::string_view word, const std::vector<std::string>& known) {
  if (word.size() > longest_word) return std::nullopt;
  const std::string lower = lower_case(word);
  std::size_t least = near_enough(lower) + 1;
  const std::string* best = nullptr;
  for (const std::string& candidate : known) {
    if (candidate.size() > longest_word) continue;
    const std::size_t distance = edit_distance(lower, lower_case(candidate));
    if (distance >= least) continue;
    least = distance;
    best = &candidate;
  }
  if (best == nullptr) return std::nullopt;
  return *best;
}

}  // namespace loomleaf
