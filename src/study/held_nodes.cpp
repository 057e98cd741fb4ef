#include "held_nodes.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

namespace loomleaf {
namespace {

constexpr std::size_t none = static_cast<std::size_t>(-1);
constexpr double contradiction_volt = 1e-6;

// Union-find in which each node also knows its voltage above its parent.
class OffsetGroups {
 public:
  explicit OffsetGroups(std::size_t count) : parent_(count), above_(count, 0.0), size_(count, 1) {
    std::iota(parent_.begin(), parent_.end(), std::size_t{0});
  }

  // The root, with the node's voltage above it.
  std::pair<std::size_t, double> find(std::size_t node) {
    std::size_t root = node;
    double total = 0.0;
    while (parent_[root] != root) {
      total += above_[root];
      root = parent_[root];
    }
    double left = total;
    while (parent_[node] != root && node != root) {
      const std::size_t next = parent_[node];
      const double step = above_[node];
      parent_[node] = root;
      above_[node] = left;
      left -= step;
      node = next;
    }
    return {root, total};
  }

  // False where the nodes are tied already, and otherwise than by this voltage.
  bool tie(const Tie& t) {
    auto [root_a, above_a] = find(t.a);
    auto [root_b, above_b] = find(t.b);
    const double root_difference = t.volt + above_b - above_a;  // root a above root b
    if (root_a == root_b) return std::fabs(root_difference) < contradiction_volt;
    if (size_[root_a] > size_[root_b]) {
      parent_[root_b] = root_a;
      above_[root_b] = -root_difference;
      size_[root_a] += size_[root_b];
    } else {
      parent_[root_a] = root_b;
      above_[root_a] = root_difference;
      size_[root_b] += size_[root_a];
    }
    return true;
  }

 private:
  std::vector<std::size_t> parent_;
  std::vector<double> above_;
  std::vector<std::size_t> size_;
};

}  // namespace

HeldNodes hold_nodes(std::size_t nodes, const std::vector<Tie>& ties) {
  OffsetGroups groups(nodes);
  std::vector<std::size_t> broken;
  for (const Tie& tie : ties)
    if (!groups.tie(tie)) broken.push_back(tie.a);

  HeldNodes held;
  std::vector<std::size_t> number_of(nodes, none);
  for (std::size_t node = 0; node < nodes; ++node) {
    const auto [root, above] = groups.find(node);
    if (number_of[root] == none) number_of[root] = held.groups++;
    held.group_of.push_back(number_of[root]);
    held.offset.push_back(above);
  }
  for (const std::size_t node : broken) held.contradicted.push_back(held.group_of[node]);
  return held;
}

TieCurrents::TieCurrents(std::size_t nodes, const std::vector<Tie>& ties, const HeldNodes& held)
    : ties_(ties), unknown_of_(nodes, none) {
  std::vector<bool> touched(nodes, false);
  for (const Tie& tie : ties_) touched[tie.a] = touched[tie.b] = true;
  std::vector<bool> has_reference(held.groups, false);
  for (std::size_t node = 0; node < nodes; ++node) {
    if (!touched[node]) continue;
    if (!has_reference[held.group_of[node]]) {
      has_reference[held.group_of[node]] = true;
      continue;
    }
    unknown_of_[node] = nodes_.size();
    nodes_.push_back(node);
  }

  std::vector<Eigen::Triplet<double>> entries;
  const auto add = [&entries](std::size_t row, std::size_t column, double value) {
    if (row != none && column != none) entries.emplace_back(static_cast<int>(row), static_cast<int>(column), value);
  };
  for (const Tie& tie : ties_) {
    const std::size_t a = unknown_of_[tie.a], b = unknown_of_[tie.b];
    if (tie.a == tie.b) continue;
    add(a, a, 1.0);
    add(b, b, 1.0);
    add(std::max(a, b), std::min(a, b), -1.0);
  }
  const auto size = static_cast<Eigen::Index>(nodes_.size());
  Eigen::SparseMatrix<double> matrix(size, size);
  matrix.setFromTriplets(entries.begin(), entries.end());
  factor_.compute(matrix);
}

std::vector<double> TieCurrents::from_leaving(const std::vector<double>& leaving) const {
  Eigen::VectorXd level(static_cast<Eigen::Index>(nodes_.size()));
  for (std::size_t i = 0; i < nodes_.size(); ++i) level[static_cast<Eigen::Index>(i)] = -leaving[nodes_[i]];
  if (!nodes_.empty()) level = factor_.solve(level);
  const auto level_at = [&](std::size_t node) {
    return unknown_of_[node] == none ? 0.0 : level[static_cast<Eigen::Index>(unknown_of_[node])];
  };
  std::vector<double> currents;
  currents.reserve(ties_.size());
  for (const Tie& tie : ties_) currents.push_back(level_at(tie.a) - level_at(tie.b));
  return currents;
}

}  // namespace loomleaf
