#include <algorithm>
#include <map>
#include <optional>

#include "loomleaf/layout/layered.h"

namespace loomleaf {
namespace {

constexpr double tolerance = 1e-6;

// Nodes that move together, since the lines between them are straight. In each layer they stand next to each other.
struct Strip {
  struct Span {
    std::size_t first = 0, last = 0;  // positions in the layer
  };
  int first_layer = 0;
  std::vector<Span> spans;  // one a layer, without a gap
  std::vector<std::size_t> members;

  int end_layer() const { return first_layer + static_cast<int>(spans.size()); }
  const Span& in(int layer) const { return spans[static_cast<std::size_t>(layer - first_layer)]; }
};

// Straight lines that do not cross each other, and whose nodes leave each other room, can all be had at once: of two
// strips one is the upper in every layer they share, so that no circle of "below" can arise (Brandes, Köpf 2001).
class Straightener {
 public:
  Straightener(const Ordering& ordering, const LayoutSpacing& spacing)
      : ordering_(ordering),
        spacing_(spacing),
        strip_of_(ordering.nodes.size()),
        offset_(ordering.nodes.size(), 0.0),
        position_(ordering.nodes.size(), 0),
        strips_(ordering.nodes.size()),
        straight_(ordering.channels.size()) {
    for (const auto& layer : ordering.layers)
      for (std::size_t i = 0; i < layer.size(); ++i) position_[layer[i]] = i;
    for (std::size_t node = 0; node < strip_of_.size(); ++node) {
      strip_of_[node] = node;
      strips_[node] = {ordering.nodes[node].layer, {{position_[node], position_[node]}}, {node}};
    }
  }

  std::vector<double> run() {
    for (const Segment* wish : wishes()) straighten(*wish);
    drop();
    sink();
    std::vector<double> heights(strip_of_.size());
    for (std::size_t node = 0; node < heights.size(); ++node) heights[node] = y(node);
    return heights;
  }

 private:
  double y(std::size_t node) const { return top_[strip_of_[node]] + offset_[node]; }
  double distance(std::size_t upper, std::size_t lower) const {
    return ordering_.nodes[upper].below + spacing_.row_gap + ordering_.nodes[lower].above;
  }
  std::size_t node_at(int layer, std::size_t position) const {
    return ordering_.layers[static_cast<std::size_t>(layer)][position];
  }

  // Long edges straight through first, then those that arrive at a box's own rail, then the rest.
  std::vector<const Segment*> wishes() const {
    std::vector<const Segment*> by_rank[3];
    for (const auto& channel : ordering_.channels)
      for (std::size_t s : channel) {
        const Segment& segment = ordering_.segments[s];
        const bool passes = ordering_.nodes[segment.from].kind == LayerNode::Kind::pass &&
                            ordering_.nodes[segment.to].kind == LayerNode::Kind::pass;
        by_rank[passes ? 0 : segment.to_y == 0.0 && segment.from_y == 0.0 ? 1 : 2].push_back(&segment);
      }
    std::vector<const Segment*> all;
    for (const auto& rank : by_rank) all.insert(all.end(), rank.begin(), rank.end());
    return all;
  }

  void straighten(const Segment& wish) {
    using End = std::pair<std::size_t, double>;
    auto& accepted = straight_[static_cast<std::size_t>(ordering_.nodes[wish.from].layer)];
    const End from{position_[wish.from], wish.from_y}, to{position_[wish.to], wish.to_y};
    const auto below = accepted.lower_bound(from);
    if (below != accepted.end() && below->second < to) return;
    if (below != accepted.begin() && std::prev(below)->second > to) return;
    const std::size_t a = strip_of_[wish.from], b = strip_of_[wish.to];
    // y(from) + from_y = y(to) + to_y
    const double b_from_a = offset_[wish.from] + wish.from_y - offset_[wish.to] - wish.to_y;
    if (a == b) {
      if (std::abs(b_from_a) > tolerance) return;
    } else {
      if (!have_room(a, b, b_from_a)) return;
      strips_[a].members.size() < strips_[b].members.size() ? join(b, a, -b_from_a) : join(a, b, b_from_a);
    }
    accepted.emplace_hint(below, from, to);
  }

  // Whether two strips stand next to each other, far enough apart, in each layer that they share.
  bool have_room(std::size_t a, std::size_t b, double b_from_a) const {
    const Strip &one = strips_[a], &other = strips_[b];
    const int end = std::min(one.end_layer(), other.end_layer());
    for (int layer = std::max(one.first_layer, other.first_layer); layer < end; ++layer) {
      const auto &s = one.in(layer), &t = other.in(layer);
      const bool a_is_above = s.last + 1 == t.first;
      if (!a_is_above && t.last + 1 != s.first) return false;
      const std::size_t upper = node_at(layer, a_is_above ? s.last : t.last);
      const std::size_t lower = node_at(layer, a_is_above ? t.first : s.first);
      const double apart = offset_[lower] - offset_[upper] + (a_is_above ? b_from_a : -b_from_a);
      if (apart < distance(upper, lower) - tolerance) return false;
    }
    return true;
  }

  void join(std::size_t into, std::size_t from, double from_into) {
    Strip &whole = strips_[into], &part = strips_[from];
    for (std::size_t node : part.members) {
      strip_of_[node] = into;
      offset_[node] += from_into;
      whole.members.push_back(node);
    }
    if (part.first_layer < whole.first_layer) {
      const int more = std::min(part.end_layer(), whole.first_layer) - part.first_layer;
      whole.spans.insert(whole.spans.begin(), part.spans.begin(), part.spans.begin() + more);
      whole.first_layer = part.first_layer;
    }
    for (int layer = part.first_layer; layer < part.end_layer(); ++layer) {
      if (layer >= whole.end_layer()) {
        whole.spans.push_back(part.in(layer));
        continue;
      }
      auto& span = whole.spans[static_cast<std::size_t>(layer - whole.first_layer)];
      span.first = std::min(span.first, part.in(layer).first);
      span.last = std::max(span.last, part.in(layer).last);
    }
    part = {};
  }

  // Strips from the top down: each as high as what is above it lets it be.
  void drop() {
    top_.assign(strips_.size(), 0.0);
    std::vector<int> waits_for(strips_.size(), 0);
    for (std::size_t strip = 0; strip < strips_.size(); ++strip)
      for_lower(strip, [&](std::size_t, std::size_t lower) { ++waits_for[strip_of_[lower]]; });
    for (std::size_t strip = 0; strip < strips_.size(); ++strip)
      if (!strips_[strip].members.empty() && waits_for[strip] == 0) downwards_.push_back(strip);
    for (const auto& layer : ordering_.layers)
      if (!layer.empty()) {
        double& top = top_[strip_of_[layer.front()]];
        top = std::max(top, ordering_.nodes[layer.front()].above - offset_[layer.front()]);
      }
    for (std::size_t next = 0; next < downwards_.size(); ++next)
      for_lower(downwards_[next], [&](std::size_t upper, std::size_t lower) {
        const std::size_t below = strip_of_[lower];
        top_[below] = std::max(top_[below], y(upper) + distance(upper, lower) - offset_[lower]);
        if (--waits_for[below] == 0) downwards_.push_back(below);
      });
  }

  // Then from the bottom up: what the drop has left hanging above its neighbours sinks towards them where there is
  // room.
  void sink() {
    std::vector<std::vector<const Segment*>> bent(strips_.size());
    for (const Segment& segment : ordering_.segments)
      if (strip_of_[segment.from] != strip_of_[segment.to]) {
        bent[strip_of_[segment.from]].push_back(&segment);
        bent[strip_of_[segment.to]].push_back(&segment);
      }
    std::vector<double> wanted;
    for (auto strip = downwards_.rbegin(); strip != downwards_.rend(); ++strip) {
      wanted.clear();
      for (const Segment* segment : bent[*strip]) {
        const double way = y(segment->to) + segment->to_y - y(segment->from) - segment->from_y;
        wanted.push_back(strip_of_[segment->from] == *strip ? way : -way);
      }
      if (wanted.empty()) continue;
      const auto middle = wanted.begin() + static_cast<std::ptrdiff_t>((wanted.size() - 1) / 2);
      std::nth_element(wanted.begin(), middle, wanted.end());
      double sinks = *middle;
      for_lower(*strip, [&](std::size_t upper, std::size_t lower) {
        sinks = std::min(sinks, y(lower) - y(upper) - distance(upper, lower));
      });
      bool is_lowest = false;  // nothing below it in some layer: it may not make the drawing taller
      const Strip& moved = strips_[*strip];
      for (int layer = moved.first_layer; layer < moved.end_layer(); ++layer)
        is_lowest = is_lowest || moved.in(layer).last + 1 == ordering_.layers[static_cast<std::size_t>(layer)].size();
      if (is_lowest) sinks = std::min(sinks, lowest() - bottom_of(moved));
      if (sinks > 0.0) top_[*strip] += sinks;
    }
  }

  double bottom_of(const Strip& strip) const {
    double bottom = 0.0;
    for (std::size_t node : strip.members) bottom = std::max(bottom, y(node) + ordering_.nodes[node].below);
    return bottom;
  }
  double lowest() {
    if (!lowest_)
      for (std::size_t node = 0; node < strip_of_.size(); ++node)
        lowest_ = std::max(lowest_.value_or(0.0), y(node) + ordering_.nodes[node].below);
    return *lowest_;
  }

  // Calls with each node of a strip that has a node of another strip right below it, and with that.
  template <class Call>
  void for_lower(std::size_t strip, Call call) const {
    const Strip& s = strips_[strip];
    for (int layer = s.first_layer; layer < s.end_layer(); ++layer) {
      const std::size_t last = s.in(layer).last;
      if (s.members.empty() || last + 1 == ordering_.layers[static_cast<std::size_t>(layer)].size()) continue;
      call(node_at(layer, last), node_at(layer, last + 1));
    }
  }

  const Ordering& ordering_;
  const LayoutSpacing& spacing_;
  std::vector<std::size_t> strip_of_;  // by node
  std::vector<double> offset_;         // of a node from its strip's height
  std::vector<std::size_t> position_;  // in its layer
  std::vector<Strip> strips_;
  std::vector<std::map<std::pair<std::size_t, double>, std::pair<std::size_t, double>>> straight_;  // by channel
  std::vector<double> top_;                                                                         // a strip's height
  std::vector<std::size_t> downwards_;  // strips, none before what is above it
  std::optional<double> lowest_;
};

}  // namespace

std::vector<double> assign_heights(const Ordering& ordering, const LayoutSpacing& spacing) {
  return Straightener(ordering, spacing).run();
}

}  // namespace loomleaf
