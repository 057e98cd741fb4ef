// Which combinations of several factors are tried where all of them are too many.
#pragma once

#include <cstddef>
#include <vector>

namespace loomleaf {

struct FactorSet {
  std::vector<std::size_t> levels;               // by factor: how many there are, at least one
  std::vector<std::vector<std::size_t>> groups;  // every factor in one of them; of each all combinations are wanted
  std::vector<std::size_t> alone;                // factors wanted at each level with all others at their first
};

using FactorRow = std::vector<std::size_t>;  // by factor: its level

// All factors at their first level, then all at their second, and so on, one that has no more at its last. After that,
// rows until each group has been in each of its combinations and each level of a factor has met each level of each
// other: a covering array of strength 2, built row by row, factor by factor, each at the level that meets the most
// anew, of the factors before it for certain and of those behind it on average. So every row meets at least the average
// share of the pairs that are left, and n factors of two levels take some 2 log2 n rows. Then those of `alone`. Once
// the groups are through no more than `most_rows` are taken in all, and of more than some thousands of levels no pairs
// are looked at. No row is there twice.
std::vector<FactorRow> covering_rows(const FactorSet& set, std::size_t most_rows);

// Every combination, the first factor changing fastest.
std::vector<FactorRow> every_combination(const std::vector<std::size_t>& levels);
// How many there are; `most` + 1 where there are more than that.
std::size_t count_combinations(const std::vector<std::size_t>& levels, std::size_t most);

}  // namespace loomleaf
