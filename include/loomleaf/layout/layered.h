// Places boxes in layers from left to right and leads the edges between them in horizontal and vertical lines.
//
// Four stages, each a value in and a value out, after Sugiyama, Tagawa and Toda (1981): layers, order, heights, routes.
// Nothing here knows what a box or an edge stands for. Same graph, same placement: no random numbers, no clock.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "loomleaf/layout/geometry.h"

namespace loomleaf {

// What a box takes on paper. Heights are measured from its rail, the line on which its first port lies (y = 0).
//
// A bar is a vertical line instead: each edge joins it at a tap of its own, and it is as tall as its taps lie apart.
// Its `width`, `above` and `below` are those of its label, above the first tap or below the last one.
struct LayoutBox {
  enum class Lean { none, left, right };  // where it goes when it has a choice of layers
  double width = 0.0;
  double above = 0.0;
  double below = 0.0;
  std::vector<Point> ports;  // from the box's left edge, from its rail
  bool is_bar = false;
  bool label_below = false;  // a bar's
  Lean lean = Lean::none;
};

// From the right of one box to the left of another. Of one port at most one edge leaves and one arrives.
struct LayoutEdge {
  std::size_t from = 0, from_port = 0;
  std::size_t to = 0, to_port = 0;
  double tag_width = 0.0, tag_height = 0.0;  // of the text on the line, and how far it reaches above; none where 0 wide
  int bundle = -1;                           // edges of one bundle are tied near each end
};

struct LayoutGraph {
  std::vector<LayoutBox> boxes;
  std::vector<LayoutEdge> edges;  // without a directed circle
};

struct LayoutSpacing {
  double row_gap = 0.8;  // between what lies one above the other
  double track = 2.2;    // between vertical lines
  double ring = 2.8;     // room for the tie of a bundle at each end of a channel
  double tag_gap = 0.5;  // beside a tag
};

// --- the products of the stages ---

// The layer of each box, from 0.
struct Layering {
  std::vector<int> of_box;
  int count = 0;
};
Layering assign_layers(const LayoutGraph& graph);

// What stands in a layer: a box, one tap of a bar, or the place where an edge passes.
struct LayerNode {
  enum class Kind { box, tap, pass } kind = Kind::box;
  std::size_t box = 0;   // box, tap
  std::size_t edge = 0;  // pass
  int layer = 0;
  double above = 0.0, below = 0.0;  // free height it asks for
};

// The part of an edge between two neighbouring layers.
struct Segment {
  std::size_t edge = 0;
  std::size_t from = 0, to = 0;     // nodes
  double from_y = 0.0, to_y = 0.0;  // port heights in their nodes
};

struct Ordering {
  std::vector<LayerNode> nodes;
  std::vector<Segment> segments;
  std::vector<std::vector<std::size_t>> layers;    // nodes from top to bottom
  std::vector<std::vector<std::size_t>> channels;  // segments between layer i and i + 1
};
Ordering order_layers(const LayoutGraph& graph, const Layering& layering);
std::size_t count_crossings(const Ordering& ordering);

// The height of each node's rail. Straight lines first, then as close to the top as may be.
std::vector<double> assign_heights(const Ordering& ordering, const LayoutSpacing& spacing);

// Everything on paper, from (0, 0).
struct PlacedBar {
  double x = 0.0, top = 0.0, bottom = 0.0;
};
struct PlacedEdge {
  std::vector<Point> points;
  std::optional<Point> tag;  // the tag's left end on its line
};
struct PlacedTie {  // a ring round the edges of a bundle
  int bundle = -1;
  double x = 0.0;
  std::vector<double> heights;   // of its edges, from the top
  std::vector<bool> neighbours;  // for each height but the last: nothing else passes before the next one
};
struct LayoutPlacement {
  double width = 0.0, height = 0.0;
  std::vector<Point> boxes;  // left edge and rail; a bar's is where its label starts, on the tap it belongs to
  std::vector<std::optional<PlacedBar>> bars;  // by box
  std::vector<PlacedEdge> edges;
  std::vector<PlacedTie> ties;
  std::vector<int> layer_of_box;
  std::size_t crossings = 0;  // between layers, before routing
};
LayoutPlacement route_edges(const LayoutGraph& graph, const Layering& layering, const Ordering& ordering,
                            const std::vector<double>& heights, const LayoutSpacing& spacing);

// All four in turn.
LayoutPlacement place_layered(const LayoutGraph& graph, const LayoutSpacing& spacing = {});

}  // namespace loomleaf
