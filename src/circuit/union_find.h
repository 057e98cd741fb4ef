// Sets that grow by joining: which of n things hang together.
#pragma once

#include <cstddef>
#include <numeric>
#include <utility>
#include <vector>

namespace loomleaf {

class UnionFind {
 public:
  explicit UnionFind(std::size_t count) : parent_(count), size_(count, 1) {
    std::iota(parent_.begin(), parent_.end(), std::size_t{0});
  }

  std::size_t root(std::size_t at) {
    while (parent_[at] != at) at = parent_[at] = parent_[parent_[at]];
    return at;
  }
  // Whether they were apart before.
  bool join(std::size_t a, std::size_t b) {
    a = root(a);
    b = root(b);
    if (a == b) return false;
    if (size_[a] < size_[b]) std::swap(a, b);
    parent_[b] = a;
    size_[a] += size_[b];
    return true;
  }

 private:
  std::vector<std::size_t> parent_;
  std::vector<std::size_t> size_;
};

}  // namespace loomleaf
