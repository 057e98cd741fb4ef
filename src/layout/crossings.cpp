#include "crossings.h"

#include <algorithm>
#include <compare>
#include <cstdlib>
#include <utility>

namespace loomleaf {
namespace {

using Count = long long;

struct Cost {
  Count crossings = 0;
  Count crooked = 0;  // how far lines end from where they would if all went straight; decides between equals
  auto operator<=>(const Cost&) const = default;
};

constexpr int most_sweeps = 24;
constexpr int patience = 4;     // sweeps without a gain
constexpr int most_rounds = 4;  // of exchanges in a layer, each time it is looked at

struct Mean {
  double sum = 0.0, count = 0.0;
  void add(double value) {
    sum += value;
    count += 1.0;
  }
  double or_else(double otherwise) const { return count > 0.0 ? sum / count : otherwise; }
};

// Pairs of lines that cross while a node stands above another, less those if it stood below; by where their lines end
// in a layer beside.
Count gain(const std::vector<std::size_t>& upper, const std::vector<std::size_t>& lower,
           const std::vector<std::size_t>& end) {
  Count gain = 0;
  for (const std::size_t a : upper)
    for (const std::size_t b : lower) gain += end[a] > end[b] ? 1 : -1;
  return gain;
}

class Untangler {
 public:
  Untangler(const LayoutGraph& graph, Ordering& ordering)
      : ordering_(ordering),
        left_(ordering.nodes.size()),
        right_(ordering.nodes.size()),
        at_right_(ordering.segments.size(), 0),
        at_left_(ordering.segments.size(), 0),
        tap_(ordering.nodes.size(), 0),
        bars_(graph.boxes.size()) {}

  void run() {
    begin();
    Cost least = cost();
    if (least.crossings == 0) return;
    Ordering best = ordering_;
    int without_gain = 0;
    for (int sweep = 0; sweep < most_sweeps && least.crossings > 0 && without_gain < patience; ++sweep) {
      const std::size_t count = ordering_.layers.size();
      for (std::size_t step = 0; step < count; ++step) {
        const std::size_t layer = sweep % 2 == 0 ? step : count - 1 - step;
        sort_by_neighbours(layer, sweep % 2 == 0);
        exchange_neighbours(layer);
      }
      ++without_gain;
      if (const Cost now = cost(); now < least) {
        least = now;
        best = ordering_;
        without_gain = 0;
      }
    }
    ordering_ = std::move(best);
  }

 private:
  struct Bar {
    std::vector<std::size_t> taps;  // from the top
    std::size_t first = 0;          // where its first tap stands
  };

  bool is_tap(std::size_t node) const { return ordering_.nodes[node].kind == LayerNode::Kind::tap; }
  Bar& bar_of(std::size_t tap) { return bars_[ordering_.nodes[tap].box]; }
  const Bar& bar_of(std::size_t tap) const { return bars_[ordering_.nodes[tap].box]; }

  void begin() {
    const auto& segments = ordering_.segments;
    for (std::size_t s = 0; s < segments.size(); ++s) {
      right_[segments[s].from].push_back(s);
      left_[segments[s].to].push_back(s);
    }
    for (auto& list : right_)
      std::sort(list.begin(), list.end(),
                [&](std::size_t a, std::size_t b) { return segments[a].from_y < segments[b].from_y; });
    for (auto& list : left_)
      std::sort(list.begin(), list.end(),
                [&](std::size_t a, std::size_t b) { return segments[a].to_y < segments[b].to_y; });
    for (std::size_t layer = 0; layer < ordering_.layers.size(); ++layer) number(layer);
  }

  // The order of segments' ends along a layer, and of the taps of each bar in it.
  void number(std::size_t layer) {
    std::size_t from = 0, to = 0, position = 0;
    for (std::size_t node : ordering_.layers[layer])
      if (is_tap(node)) bar_of(node).taps.clear();
    for (std::size_t node : ordering_.layers[layer]) {
      for (std::size_t s : right_[node]) at_left_[s] = from++;
      for (std::size_t s : left_[node]) at_right_[s] = to++;
      if (is_tap(node)) {
        Bar& bar = bar_of(node);
        if (bar.taps.empty()) bar.first = position;
        tap_[node] = bar.taps.size();
        bar.taps.push_back(node);
      }
      ++position;
    }
  }

  Cost cost() {
    Cost cost;
    for (std::size_t layer = 0; layer + 1 < ordering_.layers.size(); ++layer)
      cost.crossings += crossings_right_of(layer);
    for (const auto& layer : ordering_.layers) cost.crossings += crossings_with_bars(layer);
    for (std::size_t s = 0; s < at_left_.size(); ++s)
      cost.crooked += std::abs(static_cast<Count>(at_left_[s]) - static_cast<Count>(at_right_[s]));
    return cost;
  }

  // By a tree of sums over the ends on the right (Barth, Jünger, Mutzel 2002).
  Count crossings_right_of(std::size_t layer) {
    const std::size_t count = ordering_.channels[layer].size();
    sums_.assign(count + 1, 0);
    Count crossings = 0, seen = 0;
    for (std::size_t node : ordering_.layers[layer])
      for (std::size_t s : right_[node]) {
        Count above = 0;
        for (std::size_t i = at_right_[s] + 1; i > 0; i &= i - 1) above += sums_[i];
        for (std::size_t i = at_right_[s] + 1; i <= count; i += i & (~i + 1)) ++sums_[i];
        crossings += seen++ - above;
      }
    return crossings;
  }

  // How many lines of a node cut through a bar that passes it. Boxes stand to the right of all bars of their layer, of
  // two bars the one that starts higher.
  Count cuts(std::size_t node, const Bar& bar) const {
    if (!is_tap(node)) return static_cast<Count>(left_[node].size());
    const bool bar_is_left = bar.first > bar_of(node).first;
    return static_cast<Count>((bar_is_left ? left_ : right_)[node].size());
  }

  Count crossings_with_bars(const std::vector<std::size_t>& layer) {
    Count total = 0;
    open_.clear();
    for (std::size_t node : layer) {
      const Bar* own = is_tap(node) ? &bar_of(node) : nullptr;
      for (const Bar* bar : open_)
        if (bar != own) total += cuts(node, *bar);
      if (!own || own->taps.size() == 1) continue;
      if (tap_[node] == 0) open_.push_back(own);
      if (tap_[node] + 1 == own->taps.size()) open_.erase(std::find(open_.begin(), open_.end(), own));
    }
    return total;
  }

  // By the middle of what each is joined to, on both sides or to the right alone. A node that is joined to nothing
  // there stays behind the one above it.
  void sort_by_neighbours(std::size_t layer, bool both_sides) {
    auto& nodes = ordering_.layers[layer];
    keys_.clear();
    double last = -1.0;
    for (std::size_t node : nodes) {
      Mean mean;
      if (both_sides && layer > 0) add_ends(mean, left_[node], at_left_, ordering_.channels[layer - 1].size());
      if (layer < ordering_.channels.size()) add_ends(mean, right_[node], at_right_, ordering_.channels[layer].size());
      last = mean.or_else(last);
      keys_.emplace_back(last, node);
    }
    std::stable_sort(keys_.begin(), keys_.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    for (std::size_t i = 0; i < nodes.size(); ++i) nodes[i] = keys_[i].second;
    number(layer);
  }
  static void add_ends(Mean& mean, const std::vector<std::size_t>& lines, const std::vector<std::size_t>& at,
                       std::size_t count) {
    for (std::size_t s : lines) mean.add(static_cast<double>(at[s]) / static_cast<double>(count));
  }

  // Which line meets a bar at which of its taps is free: no two of them cross.
  void share_out_taps(std::size_t layer) {
    for (std::size_t node : ordering_.layers[layer])
      if (is_tap(node) && tap_[node] == 0) {
        share_out(bar_of(node).taps, left_, at_left_, &Segment::to);
        share_out(bar_of(node).taps, right_, at_right_, &Segment::from);
      }
  }
  void share_out(const std::vector<std::size_t>& taps, std::vector<std::vector<std::size_t>>& side,
                 const std::vector<std::size_t>& far_end, std::size_t Segment::*end) {
    lines_.clear();
    for (std::size_t tap : taps) lines_.insert(lines_.end(), side[tap].begin(), side[tap].end());
    const auto sooner = [&](std::size_t a, std::size_t b) { return far_end[a] < far_end[b]; };
    if (std::is_sorted(lines_.begin(), lines_.end(), sooner)) return;
    std::sort(lines_.begin(), lines_.end(), sooner);
    auto next = lines_.begin();
    for (std::size_t tap : taps)
      for (std::size_t& s : side[tap]) {
        s = *next++;
        ordering_.segments[s].*end = tap;
      }
  }

  // What two neighbours gain by an exchange at the bars they are taps of, where others may stand between those.
  Count gain_at_bars(std::size_t upper, std::size_t lower) const {
    Count gain = 0;
    if (is_tap(upper) && bar_of(upper).taps.size() > 1) {
      if (tap_[upper] == 0) gain += cuts(lower, bar_of(upper));
      if (tap_[upper] + 1 == bar_of(upper).taps.size()) gain -= cuts(lower, bar_of(upper));
    }
    if (is_tap(lower) && bar_of(lower).taps.size() > 1) {
      if (tap_[lower] == 0) gain -= cuts(upper, bar_of(lower));
      if (tap_[lower] + 1 == bar_of(lower).taps.size()) gain += cuts(upper, bar_of(lower));
    }
    return gain;
  }

  void exchange_neighbours(std::size_t layer) {
    share_out_taps(layer);
    auto& nodes = ordering_.layers[layer];
    for (int round = 0; round < most_rounds; ++round) {
      bool moved = false;
      for (std::size_t i = 1; i < nodes.size(); ++i) {
        const std::size_t upper = nodes[i - 1], lower = nodes[i];
        if (is_tap(upper) && is_tap(lower) && &bar_of(upper) == &bar_of(lower)) continue;
        const Count by = gain(left_[upper], left_[lower], at_left_) + gain(right_[upper], right_[lower], at_right_) +
                         gain_at_bars(upper, lower);
        if (by <= 0) continue;
        std::swap(nodes[i - 1], nodes[i]);
        moved = true;
      }
      if (!moved) break;
    }
    number(layer);
  }

  Ordering& ordering_;
  std::vector<std::vector<std::size_t>> left_, right_;  // segments of each node, by port
  std::vector<std::size_t> at_right_, at_left_;         // of each segment's ends, from the top of its channel
  std::vector<std::size_t> tap_;                        // a tap's place along its bar
  std::vector<Bar> bars_;
  std::vector<Count> sums_;
  std::vector<std::pair<double, std::size_t>> keys_;
  std::vector<const Bar*> open_;
  std::vector<std::size_t> lines_;
};

}  // namespace

void reduce_crossings(const LayoutGraph& graph, Ordering& ordering) { Untangler(graph, ordering).run(); }

}  // namespace loomleaf
