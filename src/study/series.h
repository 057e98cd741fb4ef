// Sources as steps in voltage from part to part: which stand in series, which close on themselves.
#pragma once

#include <cstddef>
#include <vector>

namespace loomleaf {

// A source, or a converter's output, from the part of its - to the part of its +.
struct Step {
  std::size_t from = 0, to = 0;  // parts
  double volts = 0.0;
  bool is_source = true;  // converters' outputs are in no chain
};

using Path = std::vector<std::size_t>;  // steps, each from the part that the one before leads to

struct Series {
  std::vector<Path> circles;  // each leads back to where it began: nothing but wire stops the current
  std::vector<Path> chains;   // every source that is in no circle, once, in chains as long as can be
};
Series find_series(const std::vector<Step>& steps, std::size_t part_count);

inline constexpr double kClashShare = 0.25;

// Two ways of steps between the same two parts that disagree by more than a quarter of the lower, and share neither
// their first nor their last step.
struct Disagreement {
  Path lower, higher;
  Path turned;  // of their steps those that are taken from + to -, and make the sum less
};
std::vector<Disagreement> find_disagreements(const std::vector<Step>& steps, const Series& series,
                                             std::size_t part_count);

}  // namespace loomleaf
