#include <algorithm>
#include <numeric>
#include <optional>

#include "crossings.h"
#include "loomleaf/layout/layered.h"

namespace loomleaf {
namespace {

constexpr double least = 1.0;  // free on either side of a line

// The order in which a walk along the edges meets the boxes and edges: neighbours end up beside each other, and a tree
// without a crossing.
struct Visit {
  std::vector<std::size_t> boxes, edges;  // the time at which each was met
};

Visit walk(const LayoutGraph& graph, const Layering& layering) {
  const std::size_t unmet = static_cast<std::size_t>(-1);
  std::vector<std::vector<std::size_t>> left(graph.boxes.size()), right(graph.boxes.size());
  for (std::size_t edge = 0; edge < graph.edges.size(); ++edge) {
    right[graph.edges[edge].from].push_back(edge);
    left[graph.edges[edge].to].push_back(edge);
  }
  auto by_port = [&](std::vector<std::size_t>& edges, bool from) {
    std::stable_sort(edges.begin(), edges.end(), [&](std::size_t a, std::size_t b) {
      return from ? graph.edges[a].from_port < graph.edges[b].from_port
                  : graph.edges[a].to_port < graph.edges[b].to_port;
    });
  };
  std::vector<std::size_t> roots(graph.boxes.size());
  std::iota(roots.begin(), roots.end(), std::size_t{0});
  std::stable_sort(roots.begin(), roots.end(),
                   [&](std::size_t a, std::size_t b) { return layering.of_box[a] < layering.of_box[b]; });
  for (std::size_t box = 0; box < graph.boxes.size(); ++box) {
    by_port(right[box], true);
    by_port(left[box], false);
  }
  Visit visit{std::vector<std::size_t>(graph.boxes.size(), unmet), std::vector<std::size_t>(graph.edges.size(), unmet)};
  std::size_t time = 0;
  const auto meet = [&](std::size_t box) {
    visit.boxes[box] = time++;
    for (const auto* edges : {&left[box], &right[box]})
      for (std::size_t edge : *edges)
        if (visit.edges[edge] == unmet) visit.edges[edge] = time++;
  };
  std::vector<std::size_t> stack;
  const auto go_right_of = [&](std::size_t box) {
    for (auto edge = right[box].rbegin(); edge != right[box].rend(); ++edge) stack.push_back(graph.edges[*edge].to);
  };
  // With each box, all that comes in from the left beside the way taken; then what goes on to its right, from the top;
  // what else goes on from the boxes to its left comes last.
  for (std::size_t root : roots) {
    stack.push_back(root);
    while (!stack.empty()) {
      const std::size_t box = stack.back();
      stack.pop_back();
      if (visit.boxes[box] != unmet) continue;
      std::vector<std::size_t> beside{box};
      meet(box);
      for (std::size_t next = 0; next < beside.size(); ++next)
        for (std::size_t edge : left[beside[next]]) {
          const std::size_t other = graph.edges[edge].from;
          if (visit.boxes[other] != unmet) continue;
          meet(other);
          beside.push_back(other);
        }
      for (auto other = beside.rbegin(); other != beside.rend(); ++other) go_right_of(*other);
    }
  }
  return visit;
}

class Builder {
 public:
  Builder(const LayoutGraph& graph, const Layering& layering)
      : graph_(graph), layering_(layering), visit_(walk(graph, layering)) {}

  Ordering build() {
    ordering_.layers.resize(static_cast<std::size_t>(layering_.count));
    ordering_.channels.resize(static_cast<std::size_t>(std::max(layering_.count - 1, 0)));
    node_from_.resize(graph_.edges.size());
    node_to_.resize(graph_.edges.size());
    add_boxes();
    for (std::size_t edge = 0; edge < graph_.edges.size(); ++edge) add_edge(edge);
    for (auto& layer : ordering_.layers)
      std::stable_sort(layer.begin(), layer.end(), [&](std::size_t a, std::size_t b) { return met_[a] < met_[b]; });
    return std::move(ordering_);
  }

 private:
  std::size_t add_node(LayerNode node, std::size_t met) {
    ordering_.nodes.push_back(node);
    met_.push_back(met);
    ordering_.layers[static_cast<std::size_t>(node.layer)].push_back(ordering_.nodes.size() - 1);
    return ordering_.nodes.size() - 1;
  }

  void add_boxes() {
    std::vector<std::vector<std::size_t>> left(graph_.boxes.size()), right(graph_.boxes.size());
    for (std::size_t edge = 0; edge < graph_.edges.size(); ++edge) {
      right[graph_.edges[edge].from].push_back(edge);
      left[graph_.edges[edge].to].push_back(edge);
    }
    for (std::size_t box = 0; box < graph_.boxes.size(); ++box) {
      const LayoutBox& size = graph_.boxes[box];
      const int layer = layering_.of_box[box];
      if (!size.is_bar) {
        const std::size_t node =
            add_node({LayerNode::Kind::box, box, 0, layer, size.above, size.below}, visit_.boxes[box]);
        for (std::size_t edge : right[box]) node_from_[edge] = node;
        for (std::size_t edge : left[box]) node_to_[edge] = node;
        continue;
      }
      auto by_visit = [&](std::size_t a, std::size_t b) { return visit_.edges[a] < visit_.edges[b]; };
      std::stable_sort(right[box].begin(), right[box].end(), by_visit);
      std::stable_sort(left[box].begin(), left[box].end(), by_visit);
      const std::size_t taps = std::max({left[box].size(), right[box].size(), std::size_t{1}});
      for (std::size_t tap = 0; tap < taps; ++tap) {
        const std::size_t id = add_node({LayerNode::Kind::tap, box, 0, layer, least, least}, visit_.boxes[box]);
        if (tap < right[box].size()) node_from_[right[box][tap]] = id;
        if (tap < left[box].size()) node_to_[left[box][tap]] = id;
      }
    }
  }

  void add_edge(std::size_t edge) {
    const LayoutEdge& e = graph_.edges[edge];
    std::size_t at = node_from_[edge];
    const std::size_t met = std::max(visit_.boxes[e.from], visit_.boxes[e.to]);  // beside what it goes to
    double from_y = port_y(e.from, e.from_port);
    for (int layer = layering_.of_box[e.from] + 1; layer < layering_.of_box[e.to]; ++layer) {
      const std::size_t pass = add_node({LayerNode::Kind::pass, 0, edge, layer, least, least}, met);
      add_segment(edge, at, pass, from_y, 0.0);
      at = pass;
      from_y = 0.0;
    }
    add_segment(edge, at, node_to_[edge], from_y, port_y(e.to, e.to_port));
  }

  void add_segment(std::size_t edge, std::size_t from, std::size_t to, double from_y, double to_y) {
    ordering_.channels[static_cast<std::size_t>(ordering_.nodes[from].layer)].push_back(ordering_.segments.size());
    ordering_.segments.push_back({edge, from, to, from_y, to_y});
  }

  double port_y(std::size_t box, std::size_t port) const {
    return graph_.boxes[box].is_bar ? 0.0 : graph_.boxes[box].ports.at(port).y;
  }

  const LayoutGraph& graph_;
  const Layering& layering_;
  Visit visit_;
  Ordering ordering_;
  std::vector<std::size_t> met_, node_from_, node_to_;
};

// Where each node stands in its layer.
std::vector<std::size_t> positions(const Ordering& ordering) {
  std::vector<std::size_t> position(ordering.nodes.size(), 0);
  for (const auto& layer : ordering.layers)
    for (std::size_t i = 0; i < layer.size(); ++i) position[layer[i]] = i;
  return position;
}

struct EndKey {
  std::size_t position;
  double port;
  auto operator<=>(const EndKey&) const = default;
};

// Inversions between the two ends of the segments of one channel (Barth, Jünger, Mutzel 2002), by merge sort.
std::size_t inversions(std::vector<EndKey>& keys, std::vector<EndKey>& spare, std::size_t begin, std::size_t end) {
  if (end - begin < 2) return 0;
  const std::size_t middle = (begin + end) / 2;
  std::size_t count = inversions(keys, spare, begin, middle) + inversions(keys, spare, middle, end);
  std::size_t a = begin, b = middle, out = begin;
  while (a < middle || b < end) {
    if (b == end || (a < middle && !(keys[b] < keys[a]))) {
      spare[out++] = keys[a++];
    } else {
      count += middle - a;
      spare[out++] = keys[b++];
    }
  }
  std::copy(spare.begin() + static_cast<std::ptrdiff_t>(begin), spare.begin() + static_cast<std::ptrdiff_t>(end),
            keys.begin() + static_cast<std::ptrdiff_t>(begin));
  return count;
}

// The tag stands in the first channel that an edge passes, above the line as it arrives.
void make_room_for_lines(const LayoutGraph& graph, Ordering& ordering) {
  for (const Segment& s : ordering.segments) {
    LayerNode &from = ordering.nodes[s.from], &to = ordering.nodes[s.to];
    const LayoutEdge& edge = graph.edges[s.edge];
    const bool has_tag = from.kind != LayerNode::Kind::pass && edge.tag_width > 0.0;
    from.above = std::max(from.above, least - s.from_y);
    from.below = std::max(from.below, s.from_y + least);
    to.above = std::max(to.above, (has_tag ? edge.tag_height : least) - s.to_y);
    to.below = std::max(to.below, s.to_y + least);
  }
}

// What a bar asks for above, it asks for at the tap that has come to be its first; what below, at its last.
void make_room_for_bar_ends(const LayoutGraph& graph, Ordering& ordering) {
  std::vector<std::optional<std::size_t>> last(graph.boxes.size());
  for (const auto& layer : ordering.layers)
    for (std::size_t node : layer) {
      LayerNode& tap = ordering.nodes[node];
      if (tap.kind != LayerNode::Kind::tap) continue;
      if (!last[tap.box]) tap.above = std::max(tap.above, graph.boxes[tap.box].above);
      last[tap.box] = node;
    }
  for (std::size_t box = 0; box < graph.boxes.size(); ++box)
    if (last[box]) {
      LayerNode& tap = ordering.nodes[*last[box]];
      tap.below = std::max(tap.below, graph.boxes[box].below);
    }
}

}  // namespace

std::size_t count_crossings(const Ordering& ordering) {
  const std::vector<std::size_t> position = positions(ordering);
  std::size_t count = 0;
  for (const auto& channel : ordering.channels) {
    std::vector<std::pair<EndKey, EndKey>> ends;
    for (std::size_t s : channel) {
      const Segment& segment = ordering.segments[s];
      ends.push_back({{position[segment.from], segment.from_y}, {position[segment.to], segment.to_y}});
    }
    std::sort(ends.begin(), ends.end());
    std::vector<EndKey> right;
    for (const auto& end : ends) right.push_back(end.second);
    std::vector<EndKey> spare(right);
    count += inversions(right, spare, 0, right.size());
  }
  return count;
}

Ordering order_layers(const LayoutGraph& graph, const Layering& layering) {
  Ordering ordering = Builder(graph, layering).build();
  reduce_crossings(graph, ordering);
  make_room_for_lines(graph, ordering);
  make_room_for_bar_ends(graph, ordering);
  return ordering;
}

}  // namespace loomleaf
