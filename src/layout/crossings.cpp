#include "crossings.h"

#include <algorithm>
#include <compare>
#include <cstdlib>
#include <tuple>
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
constexpr int most_rounds = 8;  // of exchanges in a layer, each time it is looked at

struct Mean {
  double sum = 0.0, count = 0.0;
  void add(double value) {
    sum += value;
    count += 1.0;
  }
  double or_else(double otherwise) const { return count > 0.0 ? sum / count : otherwise; }
};

// What moves as one: a node; or all the taps of a bar, while they are kept together.
struct Unit {
  std::vector<std::size_t> nodes;
  std::vector<std::size_t> left_ends, right_ends;  // where its lines end in the layers beside, in order
};

// Pairs of lines that cross while the unit of `upper` stands above that of `lower`, less those if it stood below.
Count gain(const std::vector<std::size_t>& upper, const std::vector<std::size_t>& lower) {
  Count gain = 0;
  std::size_t less = 0, not_greater = 0;
  for (const std::size_t end : upper) {
    while (less < lower.size() && lower[less] < end) ++less;
    while (not_greater < lower.size() && lower[not_greater] <= end) ++not_greater;
    gain += static_cast<Count>(less) - static_cast<Count>(lower.size() - not_greater);
  }
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

  // Each tap for itself, as it suits pairs of lines that branch; then, where that pulls bars long, with the taps of
  // each bar together.
  void run() {
    const Ordering walked = ordering_;
    Ordering best = walked;
    begin(walked);
    Cost least = cost();
    if (least.crossings == 0) return;
    for (const bool bound : {false, true}) {
      bound_ = bound;
      begin(walked);
      sweep(best, least);
    }
    ordering_ = std::move(best);
  }

 private:
  struct Bar {
    std::vector<std::size_t> taps;  // from the top
    std::size_t first = 0;          // where its first tap stands
    Mean key;
  };

  bool is_tap(std::size_t node) const { return ordering_.nodes[node].kind == LayerNode::Kind::tap; }
  Bar& bar_of(std::size_t tap) { return bars_[ordering_.nodes[tap].box]; }
  const Bar& bar_of(std::size_t tap) const { return bars_[ordering_.nodes[tap].box]; }

  void begin(const Ordering& from) {
    ordering_ = from;
    const auto& segments = ordering_.segments;
    for (auto* side : {&left_, &right_})
      for (auto& list : *side) list.clear();
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

  void sweep(Ordering& best, Cost& least) {
    int without_gain = 0;
    const std::size_t count = ordering_.layers.size();
    for (int sweep = 0; sweep < most_sweeps && least.crossings > 0 && without_gain < patience; ++sweep) {
      const bool from_left = sweep % 2 == 0;
      for (std::size_t step = 0; step < count; ++step) {
        const std::size_t layer = from_left ? step : count - 1 - step;
        if (step > 0) sort_by_neighbours(layer, from_left);
        exchange_neighbours(layer);
      }
      const Cost now = cost();
      ++without_gain;
      if (now < least) {
        least = now;
        best = ordering_;
        without_gain = 0;
      }
    }
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

  struct SortKey {
    double unit = 0.0;      // of a bar all taps have the same, so that they stay together
    std::size_t first = 0;  // where the unit has started
    double own = 0.0;
    std::size_t node = 0;
    bool operator<(const SortKey& o) const { return std::tie(unit, first, own) < std::tie(o.unit, o.first, o.own); }
  };

  // By the middle of what each is joined to on one side. A node that is joined to nothing there stays behind the one
  // above it.
  void sort_by_neighbours(std::size_t layer, bool from_left) {
    auto& nodes = ordering_.layers[layer];
    for (std::size_t node : nodes)
      if (is_tap(node)) bar_of(node).key = {};
    keys_.clear();
    for (std::size_t node : nodes) {
      Mean mean;
      for (std::size_t s : from_left ? left_[node] : right_[node]) {
        const auto at = static_cast<double>(from_left ? at_left_[s] : at_right_[s]);
        mean.add(at);
        if (is_tap(node)) bar_of(node).key.add(at);
      }
      keys_.push_back({mean.or_else(-1.0), keys_.size(), mean.or_else(-1.0), node});
    }
    double last = -1.0;
    for (SortKey& key : keys_) {
      if (bound_ && is_tap(key.node)) {
        key.unit = bar_of(key.node).key.or_else(-1.0);
        key.first = bar_of(key.node).first;
      }
      if (key.unit < 0.0) key.unit = last;
      last = key.unit;
    }
    std::stable_sort(keys_.begin(), keys_.end());
    for (std::size_t i = 0; i < nodes.size(); ++i) nodes[i] = keys_[i].node;
    number(layer);
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

  std::vector<Unit> units_of(std::size_t layer) const {
    std::vector<Unit> units;
    for (std::size_t node : ordering_.layers[layer]) {
      if (!(bound_ && is_tap(node) && tap_[node] > 0)) units.emplace_back();
      Unit& unit = units.back();
      unit.nodes.push_back(node);
      for (std::size_t s : left_[node]) unit.left_ends.push_back(at_left_[s]);
      for (std::size_t s : right_[node]) unit.right_ends.push_back(at_right_[s]);
    }
    for (Unit& unit : units)
      for (auto* ends : {&unit.left_ends, &unit.right_ends})
        if (!std::is_sorted(ends->begin(), ends->end())) std::sort(ends->begin(), ends->end());
    return units;
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
    std::vector<Unit> units = units_of(layer);
    std::vector<std::size_t> order(units.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
    for (int round = 0; round < most_rounds; ++round) {
      bool moved = false;
      for (std::size_t i = 1; i < order.size(); ++i) {
        const Unit &upper = units[order[i - 1]], &lower = units[order[i]];
        const std::size_t a = upper.nodes.front(), b = lower.nodes.front();
        if (is_tap(a) && is_tap(b) && &bar_of(a) == &bar_of(b)) continue;
        Count by = gain(upper.left_ends, lower.left_ends) + gain(upper.right_ends, lower.right_ends);
        if (!bound_) by += gain_at_bars(a, b);
        if (by <= 0) continue;
        std::swap(order[i - 1], order[i]);
        moved = true;
      }
      if (!moved) break;
    }
    auto& nodes = ordering_.layers[layer];
    nodes.clear();
    for (std::size_t i : order) nodes.insert(nodes.end(), units[i].nodes.begin(), units[i].nodes.end());
    number(layer);
  }

  Ordering& ordering_;
  bool bound_ = false;                                  // taps of a bar stay together
  std::vector<std::vector<std::size_t>> left_, right_;  // segments of each node, by port
  std::vector<std::size_t> at_right_, at_left_;         // of each segment's ends, from the top of its channel
  std::vector<std::size_t> tap_;                        // a tap's place along its bar
  std::vector<Bar> bars_;
  std::vector<Count> sums_;
  std::vector<SortKey> keys_;
  std::vector<const Bar*> open_;
  std::vector<std::size_t> lines_;
};

}  // namespace

void reduce_crossings(const LayoutGraph& graph, Ordering& ordering) { Untangler(graph, ordering).run(); }

}  // namespace loomleaf
