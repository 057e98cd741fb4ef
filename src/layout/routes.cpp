#include <algorithm>
#include <cmath>
#include <map>

#include "channel.h"
#include "loomleaf/layout/layered.h"

namespace loomleaf {
namespace {

constexpr double least_channel = 3.0;
constexpr double same = 1e-4;

// Left to right: the bars of a layer, its boxes, then the channel: tracks, room for ties, tags, room for ties.
struct LayerColumns {
  double bars = 0.0, boxes = 0.0, boxes_end = 0.0;
  double tracks = 0.0, first_tie = 0.0, tags = 0.0, last_tie = 0.0;
};

class Router {
 public:
  Router(const LayoutGraph& graph, const Layering& layering, const Ordering& ordering,
         const std::vector<double>& heights, const LayoutSpacing& spacing)
      : graph_(graph), layering_(layering), ordering_(ordering), heights_(heights), spacing_(spacing) {}

  LayoutPlacement run() {
    placement_.boxes.resize(graph_.boxes.size());
    placement_.bars.resize(graph_.boxes.size());
    placement_.edges.resize(graph_.edges.size());
    placement_.layer_of_box = layering_.of_box;
    placement_.crossings = count_crossings(ordering_);
    find_sides();
    find_tied_channels();
    measure_bars();
    for (const auto& channel : ordering_.channels) channel_tracks_.push_back(tracks_of(channel));
    place_columns();
    place_boxes();
    for (std::size_t channel = 0; channel < ordering_.channels.size(); ++channel) place_channel(channel);
    for (std::size_t edge = 0; edge < graph_.edges.size(); ++edge) finish_edge(edge);
    for (std::size_t node = 0; node < heights_.size(); ++node)
      placement_.height = std::max(placement_.height, heights_[node] + ordering_.nodes[node].below);
    return std::move(placement_);
  }

 private:
  double from_y(const Segment& s) const { return heights_[s.from] + s.from_y; }
  double to_y(const Segment& s) const { return heights_[s.to] + s.to_y; }

  void find_sides() {
    has_left_.assign(graph_.boxes.size(), false);
    has_right_.assign(graph_.boxes.size(), false);
    for (const LayoutEdge& edge : graph_.edges) {
      has_right_[edge.from] = true;
      has_left_[edge.to] = true;
    }
  }

  // Bars of a layer that pass each other in height stand side by side, the lower one to the left: it then crosses one
  // line less where a pair of lines branches.
  void measure_bars() {
    bar_track_.assign(graph_.boxes.size(), 0);
    bar_tracks_.assign(ordering_.layers.size(), 0);
    label_tap_.assign(graph_.boxes.size(), 0.0);
    for (std::size_t layer = 0; layer < ordering_.layers.size(); ++layer) {
      std::vector<std::size_t> bars;
      for (std::size_t node : ordering_.layers[layer]) {
        const LayerNode& tap = ordering_.nodes[node];
        if (tap.kind != LayerNode::Kind::tap) continue;
        auto& bar = placement_.bars[tap.box];
        if (!bar) {
          bar = PlacedBar{0.0, heights_[node], heights_[node]};
          bars.push_back(tap.box);
        }
        bar->bottom = heights_[node];
        label_tap_[tap.box] = graph_.boxes[tap.box].label_below ? bar->bottom : bar->top;
      }
      std::stable_sort(bars.begin(), bars.end(),
                       [&](std::size_t a, std::size_t b) { return placement_.bars[a]->top > placement_.bars[b]->top; });
      std::vector<std::vector<std::size_t>> tracks;
      for (std::size_t bar : bars) {
        auto meets = [&](std::size_t other) {
          return placement_.bars[other]->top < placement_.bars[bar]->bottom + 2.0 &&
                 placement_.bars[bar]->top < placement_.bars[other]->bottom + 2.0;
        };
        std::size_t track = 0;
        while (track < tracks.size() && std::any_of(tracks[track].begin(), tracks[track].end(), meets)) ++track;
        if (track == tracks.size()) tracks.emplace_back();
        tracks[track].push_back(bar);
        bar_track_[bar] = static_cast<int>(track);
      }
      bar_tracks_[layer] = static_cast<int>(tracks.size());
    }
  }

  ChannelTracks tracks_of(const std::vector<std::size_t>& channel) const {
    std::vector<Turn> turns;
    std::vector<double> passing;
    for (std::size_t s : channel) {
      const double a = from_y(ordering_.segments[s]), b = to_y(ordering_.segments[s]);
      passing.push_back(a);
      passing.push_back(b);
      if (std::fabs(a - b) > same) turns.push_back({s, a, b, 0});
    }
    return assign_tracks(std::move(turns), passing);
  }

  void place_columns() {
    columns_.resize(ordering_.layers.size());
    double x = 0.0;
    for (std::size_t layer = 0; layer < columns_.size(); ++layer) {
      LayerColumns& c = columns_[layer];
      c.bars = x;
      c.boxes = c.bars + bar_tracks_[layer] * spacing_.track;
      double width = 0.0;
      for (std::size_t node : ordering_.layers[layer])
        if (ordering_.nodes[node].kind != LayerNode::Kind::pass)
          width = std::max(width, graph_.boxes[ordering_.nodes[node].box].width);
      c.boxes_end = c.boxes + width;
      x = c.boxes_end;
      if (layer >= ordering_.channels.size()) continue;
      double tag = 0.0;
      bool tied = false;
      for (std::size_t s : ordering_.channels[layer]) {
        const LayoutEdge& edge = graph_.edges[ordering_.segments[s].edge];
        if (starts_here(s)) tag = std::max(tag, edge.tag_width);
        tied = tied || (edge.bundle >= 0 && (ties_start(s) || ties_end(s)));
      }
      c.tracks = c.boxes_end + (channel_tracks_[layer].count > 0 ? spacing_.track : 0.5);
      c.first_tie = c.tracks + std::max(channel_tracks_[layer].count - 1, 0) * spacing_.track + 1.0;
      c.tags = c.first_tie + (tied ? spacing_.ring : 0.0);
      c.last_tie = c.tags + (tag > 0.0 ? tag + 2.0 * spacing_.tag_gap : 0.0);
      x = std::max(c.last_tie + (tied ? spacing_.ring : 0.0) + 0.5, c.boxes_end + least_channel);
    }
    placement_.width = x;
  }

  bool starts_here(std::size_t s) const {
    return ordering_.nodes[ordering_.segments[s].from].kind != LayerNode::Kind::pass;
  }
  bool ends_here(std::size_t s) const {
    return ordering_.nodes[ordering_.segments[s].to].kind != LayerNode::Kind::pass;
  }

  // A bundle is tied where all its edges run: from the channel where the last of them starts to where the first ends.
  // One whose edges never run together is tied edge by edge.
  void find_tied_channels() {
    for (const LayoutEdge& edge : graph_.edges) {
      if (edge.bundle < 0) continue;
      const int start = layering_.of_box[edge.from], end = layering_.of_box[edge.to] - 1;
      const auto [range, is_new] = together_.emplace(edge.bundle, std::pair{start, end});
      if (is_new) continue;
      range->second = {std::max(range->second.first, start), std::min(range->second.second, end)};
    }
  }
  std::optional<std::pair<int, int>> together(std::size_t s) const {
    const auto range = together_.find(graph_.edges[ordering_.segments[s].edge].bundle);
    if (range == together_.end() || range->second.first > range->second.second) return std::nullopt;
    return range->second;
  }
  int channel_of(std::size_t s) const { return ordering_.nodes[ordering_.segments[s].from].layer; }
  bool ties_start(std::size_t s) const {
    const auto range = together(s);
    return range ? channel_of(s) == range->first : starts_here(s);
  }
  bool ties_end(std::size_t s) const {
    const auto range = together(s);
    return range ? channel_of(s) == range->second : ends_here(s);
  }

  // What has nothing to its left stands at the right of its column, what has nothing to its right at the left.
  void place_boxes() {
    for (const LayerNode& node : ordering_.nodes) {
      if (node.kind == LayerNode::Kind::pass) continue;
      const LayerColumns& c = columns_[static_cast<std::size_t>(node.layer)];
      const LayoutBox& box = graph_.boxes[node.box];
      if (node.kind == LayerNode::Kind::tap) {
        placement_.bars[node.box]->x = c.bars + (bar_track_[node.box] + 0.5) * spacing_.track;
        placement_.boxes[node.box] = {c.boxes, label_tap_[node.box]};
        continue;
      }
      const double spare = c.boxes_end - c.boxes - box.width;
      const double share = !has_left_[node.box] && has_right_[node.box] ? 1.0 : has_right_[node.box] ? 0.5 : 0.0;
      placement_.boxes[node.box] = {c.boxes + share * spare,
                                    heights_[static_cast<std::size_t>(&node - ordering_.nodes.data())]};
    }
  }

  void place_channel(std::size_t channel) {
    const LayerColumns& c = columns_[channel];
    std::map<int, std::vector<double>> starting, ending;  // heights by bundle
    std::vector<double> all;
    for (std::size_t s : ordering_.channels[channel]) {
      const Segment& segment = ordering_.segments[s];
      const LayoutEdge& edge = graph_.edges[segment.edge];
      all.push_back(to_y(segment));
      if (starts_here(s) && edge.tag_width > 0.0)
        placement_.edges[segment.edge].tag = Point{c.tags + spacing_.tag_gap, to_y(segment)};
      if (edge.bundle < 0) continue;
      if (ties_start(s)) starting[edge.bundle].push_back(to_y(segment));
      if (ties_end(s)) ending[edge.bundle].push_back(to_y(segment));
    }
    std::sort(all.begin(), all.end());
    add_ties(starting, c.first_tie + spacing_.ring / 2.0, all);
    add_ties(ending, c.last_tie + spacing_.ring / 2.0, all);
    for (const Turn& turn : channel_tracks_[channel].turns) {
      const double x = c.tracks + turn.track * spacing_.track;
      bends_[turn.segment].push_back({x, turn.from_y});
      bends_[turn.segment].push_back({x, turn.to_y});
    }
  }

  // From the top down, whatever the order of the bundles' numbers.
  void add_ties(const std::map<int, std::vector<double>>& heights_of, double x, const std::vector<double>& all) {
    const auto first = static_cast<std::ptrdiff_t>(placement_.ties.size());
    for (const auto& [bundle, heights] : heights_of) {
      PlacedTie tie{bundle, x, heights, {}};
      std::sort(tie.heights.begin(), tie.heights.end());
      for (std::size_t i = 1; i < tie.heights.size(); ++i) {
        const auto a = std::lower_bound(all.begin(), all.end(), tie.heights[i - 1]);
        const auto b = std::lower_bound(all.begin(), all.end(), tie.heights[i]);
        tie.neighbours.push_back(b - a == 1);
      }
      placement_.ties.push_back(std::move(tie));
    }
    std::sort(placement_.ties.begin() + first, placement_.ties.end(),
              [](const PlacedTie& a, const PlacedTie& b) { return a.heights < b.heights; });
  }

  Point end_point(std::size_t box, std::size_t port, double y) const {
    if (placement_.bars[box]) return {placement_.bars[box]->x, y};
    return {placement_.boxes[box].x + graph_.boxes[box].ports[port].x, y};
  }

  void finish_edge(std::size_t edge) {
    if (segments_of_.empty()) {
      segments_of_.resize(graph_.edges.size());
      for (std::size_t s = 0; s < ordering_.segments.size(); ++s) segments_of_[ordering_.segments[s].edge].push_back(s);
    }
    const std::vector<std::size_t>& way = segments_of_[edge];  // made from left to right
    const LayoutEdge& e = graph_.edges[edge];
    std::vector<Point> points{end_point(e.from, e.from_port, from_y(ordering_.segments[way.front()]))};
    for (std::size_t s : way)
      if (const auto bends = bends_.find(s); bends != bends_.end())
        points.insert(points.end(), bends->second.begin(), bends->second.end());
    points.push_back(end_point(e.to, e.to_port, to_y(ordering_.segments[way.back()])));
    placement_.edges[edge].points = std::move(points);
  }

  const LayoutGraph& graph_;
  const Layering& layering_;
  const Ordering& ordering_;
  const std::vector<double>& heights_;
  const LayoutSpacing& spacing_;
  LayoutPlacement placement_;
  std::vector<bool> has_left_, has_right_;
  std::vector<int> bar_track_, bar_tracks_;
  std::vector<double> label_tap_;
  std::map<int, std::pair<int, int>> together_;  // channels in which all edges of a bundle run
  std::vector<ChannelTracks> channel_tracks_;
  std::vector<LayerColumns> columns_;
  std::map<std::size_t, std::vector<Point>> bends_;  // by segment
  std::vector<std::vector<std::size_t>> segments_of_;
};

}  // namespace

LayoutPlacement route_edges(const LayoutGraph& graph, const Layering& layering, const Ordering& ordering,
                            const std::vector<double>& heights, const LayoutSpacing& spacing) {
  return Router(graph, layering, ordering, heights, spacing).run();
}

LayoutPlacement place_layered(const LayoutGraph& graph, const LayoutSpacing& spacing) {
  const Layering layering = assign_layers(graph);
  const Ordering ordering = order_layers(graph, layering);
  const std::vector<double> heights = assign_heights(ordering, spacing);
  return route_edges(graph, layering, ordering, heights, spacing);
}

}  // namespace loomleaf
