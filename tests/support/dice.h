// Numbers that are the same on every machine: a linear congruential generator.
#pragma once

#include <cstddef>
#include <utility>
#include <vector>

namespace loomleaf::test {

class Dice {
 public:
  explicit Dice(unsigned seed) : state_(seed * 2654435761u + 1u) {}
  int below(int limit) {
    state_ = state_ * 1664525u + 1013904223u;
    return static_cast<int>((state_ >> 16) % static_cast<unsigned>(limit));
  }
  int between(int least, int most) { return least + below(most - least + 1); }
  bool chance(int percent) { return below(100) < percent; }
  template <class T>
  const T& one_of(const std::vector<T>& list) {
    return list[static_cast<std::size_t>(below(static_cast<int>(list.size())))];
  }
  template <class T>
  void shuffle(std::vector<T>& list) {
    for (std::size_t i = list.size(); i > 1; --i)
      std::swap(list[i - 1], list[static_cast<std::size_t>(below(static_cast<int>(i)))]);
  }

 private:
  unsigned state_;
};

}  // namespace loomleaf::test
