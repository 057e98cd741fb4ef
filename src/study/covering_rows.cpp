#include "covering_rows.h"

#include <algorithm>
#include <bit>
#include <cstdint>
#include <map>
#include <optional>

namespace loomleaf {
namespace {

constexpr std::size_t most_levels = 8192;  // of all factors: a table of every pair of them takes 8 MB

// A set of levels. Those of all factors are numbered through.
class LevelBits {
 public:
  explicit LevelBits(std::size_t count) : words_((count + 63) / 64) {}
  void add(std::size_t level) { words_[level / 64] |= std::uint64_t{1} << (level % 64); }
  void remove(std::size_t level) { words_[level / 64] &= ~(std::uint64_t{1} << (level % 64)); }
  void take_out(const LevelBits& other) {
    for (std::size_t i = 0; i < words_.size(); ++i) words_[i] &= ~other.words_[i];
  }
  std::size_t count_shared(const LevelBits& other) const {
    std::size_t count = 0;
    for (std::size_t i = 0; i < words_.size(); ++i)
      count += static_cast<std::size_t>(std::popcount(words_[i] & other.words_[i]));
    return count;
  }
  std::optional<std::size_t> first() const {
    for (std::size_t i = 0; i < words_.size(); ++i)
      if (words_[i] != 0) return 64 * i + static_cast<std::size_t>(std::countr_zero(words_[i]));
    return std::nullopt;
  }

 private:
  std::vector<std::uint64_t> words_;
};

class Rows {
 public:
  explicit Rows(const FactorSet& set) : set_(set), group_of_(set.levels.size()) {
    for (const std::size_t levels : set.levels) {
      base_.push_back(factor_of_.size());
      factor_of_.insert(factor_of_.end(), levels, base_.size() - 1);
    }
    for (std::size_t g = 0; g < set.groups.size(); ++g) {
      std::vector<std::size_t> levels;
      for (const std::size_t factor : set.groups[g]) {
        levels.push_back(set.levels[factor]);
        group_of_[factor] = g;
      }
      combinations_.push_back(every_combination(levels));
      left_.emplace_back(combinations_.back().size(), true);
      groups_left_ += left_.back().size();
    }
    const std::size_t count = factor_of_.size();
    if (count > most_levels) return;
    unmet_.assign(count, LevelBits(count));
    for (std::size_t level = 0; level < count; ++level)
      for (std::size_t other = 0; other < count; ++other)
        if (group_of_[factor_of_[level]] != group_of_[factor_of_[other]]) unmet_[level].add(other);
  }

  bool groups_are_through() const { return groups_left_ == 0; }
  bool is_done() { return groups_are_through() && !first_unmet(); }

  void take(const FactorRow& row) {
    LevelBits placed(factor_of_.size());
    for (std::size_t factor = 0; factor < row.size(); ++factor) placed.add(base_[factor] + row[factor]);
    if (!unmet_.empty())
      for (std::size_t factor = 0; factor < row.size(); ++factor) unmet_[base_[factor] + row[factor]].take_out(placed);
    for (std::size_t g = 0; g < combinations_.size(); ++g) {
      std::size_t at = 0, step = 1;
      for (const std::size_t factor : set_.groups[g]) {
        at += step * row[factor];
        step *= set_.levels[factor];
      }
      if (left_[g][at]) --groups_left_;
      left_[g][at] = false;
    }
  }

  // Around a pair that has not met, while there is one.
  FactorRow next() {
    FactorRow row(set_.levels.size(), 0);
    LevelBits placed(factor_of_.size());
    open_ = open_levels();
    std::vector<bool> is_placed(set_.groups.size(), false);
    const auto place = [&](std::size_t group, const std::optional<std::size_t>& with) {
      if (is_placed[group]) return;
      is_placed[group] = true;
      const FactorRow& best = combinations_[group][best_of(group, with, placed)];
      for (std::size_t i = 0; i < best.size(); ++i) {
        const std::size_t factor = set_.groups[group][i];
        row[factor] = best[i];
        placed.add(base_[factor] + best[i]);
        LevelBits& open = open_.at(set_.levels[factor]);
        for (std::size_t level = 0; level < set_.levels[factor]; ++level) open.remove(base_[factor] + level);
      }
    };
    if (const auto level = first_unmet()) {
      const std::size_t other = *unmet_[*level].first();
      for (const std::size_t one : {*level, other}) place(group_of_[factor_of_[one]], one);
    }
    for (std::size_t group = 0; group < set_.groups.size(); ++group) place(group, std::nullopt);
    return row;
  }

 private:
  std::optional<std::size_t> first_unmet() {
    for (; first_ < unmet_.size(); ++first_)
      if (unmet_[first_].first()) return first_;
    return std::nullopt;
  }

  bool has(std::size_t group, const FactorRow& combination, std::size_t level) const {
    for (std::size_t i = 0; i < combination.size(); ++i)
      if (base_[set_.groups[group][i]] + combination[i] == level) return true;
    return false;
  }

  // The levels of all factors, by how many their factor has.
  std::map<std::size_t, LevelBits> open_levels() const {
    std::map<std::size_t, LevelBits> open;
    for (std::size_t level = 0; level < factor_of_.size(); ++level)
      open.try_emplace(set_.levels[factor_of_[level]], factor_of_.size()).first->second.add(level);
    return open;
  }

  // How much a level meets anew: of what is placed, and on average of what is still to be placed.
  double density(std::size_t level, const LevelBits& placed) const {
    if (unmet_.empty()) return 0.0;
    auto sum = static_cast<double>(unmet_[level].count_shared(placed));
    for (const auto& [levels, open] : open_)
      sum += static_cast<double>(unmet_[level].count_shared(open)) / static_cast<double>(levels);
    return sum;
  }

  // Of a group's combinations the densest: of those that it has not been in, as long as there are such; of those with a
  // given level, where one is.
  std::size_t best_of(std::size_t group, const std::optional<std::size_t>& with, const LevelBits& placed) const {
    const std::vector<FactorRow>& all = combinations_[group];
    std::vector<std::vector<double>> densities;  // by factor of the group and level
    for (const std::size_t factor : set_.groups[group]) {
      densities.emplace_back();
      for (std::size_t level = 0; level < set_.levels[factor]; ++level)
        densities.back().push_back(density(base_[factor] + level, placed));
    }
    std::optional<std::size_t> best;
    double best_density = 0.0;
    bool best_is_left = false;
    for (std::size_t i = 0; i < all.size(); ++i) {
      if (with && !has(group, all[i], *with)) continue;
      const bool is_left = left_[group][i];
      if (best && best_is_left && !is_left) continue;
      double sum = 0.0;
      for (std::size_t f = 0; f < all[i].size(); ++f) sum += densities[f][all[i][f]];
      if (best && is_left == best_is_left && sum <= best_density) continue;
      best = i;
      best_density = sum;
      best_is_left = is_left;
    }
    return *best;
  }

  const FactorSet& set_;
  std::vector<std::size_t> base_, factor_of_, group_of_;  // of a factor its first level; of a level; of a factor
  std::vector<std::vector<FactorRow>> combinations_;      // by group
  std::vector<std::vector<bool>> left_;                   // by group: combinations that it has not been in
  std::size_t groups_left_ = 0;
  std::vector<LevelBits> unmet_;           // by level: those of other groups that it has not met; empty: left alone
  std::size_t first_ = 0;                  // before it all have met
  std::map<std::size_t, LevelBits> open_;  // by number of levels: those of factors that the row in work lacks
};

}  // namespace

std::vector<FactorRow> every_combination(const std::vector<std::size_t>& levels) {
  std::vector<FactorRow> all{FactorRow(levels.size(), 0)};
  for (std::size_t factor = 0; factor < levels.size(); ++factor) {
    const std::size_t before = all.size();
    for (std::size_t level = 1; level < levels[factor]; ++level)
      for (std::size_t i = 0; i < before; ++i) {
        all.push_back(all[i]);
        all.back()[factor] = level;
      }
  }
  return all;
}

std::size_t count_combinations(const std::vector<std::size_t>& levels, std::size_t most) {
  std::size_t count = 1;
  for (const std::size_t each : levels) {
    count *= each;
    if (count > most) return most + 1;
  }
  return count;
}

std::vector<FactorRow> covering_rows(const FactorSet& set, std::size_t most_rows) {
  Rows rows(set);
  std::vector<FactorRow> all;
  const auto take = [&](FactorRow row) {
    rows.take(row);
    all.push_back(std::move(row));
  };
  const std::size_t most = set.levels.empty() ? 1 : *std::ranges::max_element(set.levels);
  for (std::size_t level = 0; level < most; ++level) {
    FactorRow row;
    for (const std::size_t levels : set.levels) row.push_back(std::min(level, levels - 1));
    take(std::move(row));
  }
  while (!rows.is_done() && (all.size() < most_rows || !rows.groups_are_through())) take(rows.next());
  for (const std::size_t factor : set.alone)
    for (std::size_t level = 1; level < set.levels[factor]; ++level) {
      FactorRow row(set.levels.size(), 0);
      row[factor] = level;
      if (all.size() < most_rows && std::ranges::find(all, row) == all.end()) all.push_back(std::move(row));
    }
  return all;
}

}  // namespace loomleaf
