// What hangs together: sets that are only ever joined.
#pragma once

#include <cstddef>
#include <numeric>
#include <utility>
#include <vector>

namespace loomleaf {

class JoinedSets {
 public:
  explicit JoinedSets(std::size_t count) : parent_(count) { std::iota(parent_.begin(), parent_.end(), std::size_t{0}); }

  std::size_t root(std::size_t of) {
    while (parent_[of] != of) of = parent_[of] = parent_[parent_[of]];
    return of;
  }

  // Whether they were apart before. The lower number becomes the root, so that the result does not hang on the order of
  // joining.
  bool join(std::size_t a, std::size_t b) {
    a = root(a);
    b = root(b);
    if (a == b) return false;
    if (a > b) std::swap(a, b);
    parent_[b] = a;
    return true;
  }

  // Each element's set, numbered from 0 in the order of first appearance.
  std::vector<std::size_t> numbered(std::size_t& count) {
    std::vector<std::size_t> number(parent_.size());
    count = 0;
    for (std::size_t i = 0; i < parent_.size(); ++i) {
      const std::size_t r = root(i);
      number[i] = r == i ? count++ : number[r];
    }
    return number;
  }

 private:
  std::vector<std::size_t> parent_;
};

}  // namespace loomleaf
