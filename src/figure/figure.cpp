#include "loomleaf/figure/figure.h"

#include <algorithm>
#include <cctype>

#include "parts.h"

namespace loomleaf {

// Digits compare as numbers, all else as it is; ties by plain order, so that W1 and W01 keep theirs.
bool natural_less(const std::string& a, const std::string& b) {
  const auto is_digit = [](char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; };
  std::size_t i = 0, j = 0;
  while (i < a.size() && j < b.size()) {
    if (!is_digit(a[i]) || !is_digit(b[j])) {
      if (a[i] != b[j]) return a[i] < b[j];
      ++i;
      ++j;
      continue;
    }
    while (i < a.size() && a[i] == '0') ++i;
    while (j < b.size() && b[j] == '0') ++j;
    std::size_t end_a = i, end_b = j;
    while (end_a < a.size() && is_digit(a[end_a])) ++end_a;
    while (end_b < b.size() && is_digit(b[end_b])) ++end_b;
    if (end_a - i != end_b - j) return end_a - i < end_b - j;
    const int order = a.compare(i, end_a - i, b, j, end_b - j);
    if (order != 0) return order < 0;
    i = end_a;
    j = end_b;
  }
  if (a.size() - i != b.size() - j) return a.size() - i < b.size() - j;
  return a < b;
}

bool is_feed_node(const FigureMaking& making, NodeId node) {
  return std::any_of(making.study.sides.begin(), making.study.sides.end(),
                     [&](const Sides& sides) { return sides.is_feed(node); });
}

bool is_return_node(const FigureMaking& making, NodeId node) {
  return std::any_of(making.study.sides.begin(), making.study.sides.end(),
                     [&](const Sides& sides) { return sides.is_return(node); });
}

WiringFigure make_figure(const Plan& plan, const Routes& routes, const Circuit& circuit, const Study& study,
                         const LoadWords& words) {
  FigureMaking making{plan, routes, circuit, study, words, {}, {}, {}, {}, {}};
  find_groups(making);
  make_pieces(making);
  make_lines(making);
  order_pieces(making);
  assign_groups(making);
  choose_repeats(making);
  write_texts(making);
  return std::move(making.figure);
}

}  // namespace loomleaf
