#include <algorithm>
#include <limits>
#include <map>

#include "loomleaf/layout/layered.h"

namespace loomleaf {
namespace {

std::vector<std::size_t> topological_order(const LayoutGraph& graph, const std::vector<std::vector<std::size_t>>& out) {
  std::vector<std::size_t> waiting(graph.boxes.size(), 0);
  for (const LayoutEdge& edge : graph.edges) ++waiting[edge.to];
  std::vector<std::size_t> order;
  order.reserve(graph.boxes.size());
  for (std::size_t box = 0; box < graph.boxes.size(); ++box)
    if (waiting[box] == 0) order.push_back(box);
  for (std::size_t next = 0; next < order.size(); ++next)
    for (std::size_t edge : out[order[next]])
      if (--waiting[graph.edges[edge].to] == 0) order.push_back(graph.edges[edge].to);
  return order;
}

}  // namespace

// Longest way from the left; then boxes that have more edges to the right than to the left, or that lean that way, move
// as far right as they can, so that long edges get short.
Layering assign_layers(const LayoutGraph& graph) {
  std::vector<std::vector<std::size_t>> out(graph.boxes.size());
  std::vector<std::size_t> in_count(graph.boxes.size(), 0);
  for (std::size_t edge = 0; edge < graph.edges.size(); ++edge) {
    out[graph.edges[edge].from].push_back(edge);
    ++in_count[graph.edges[edge].to];
  }
  const std::vector<std::size_t> order = topological_order(graph, out);
  Layering layering;
  layering.of_box.assign(graph.boxes.size(), 0);
  for (std::size_t box : order)
    for (std::size_t edge : out[box]) {
      int& layer = layering.of_box[graph.edges[edge].to];
      layer = std::max(layer, layering.of_box[box] + 1);
    }
  std::map<int, int> bundle_start;  // the leftmost layer from which another edge of a bundle leaves
  for (const LayoutEdge& edge : graph.edges)
    if (edge.bundle >= 0 && in_count[edge.from] > 0) {
      const auto start = bundle_start.emplace(edge.bundle, layering.of_box[edge.from]).first;
      start->second = std::min(start->second, layering.of_box[edge.from]);
    }
  for (auto box = order.rbegin(); box != order.rend(); ++box) {
    if (out[*box].empty()) continue;
    const LayoutBox::Lean lean = graph.boxes[*box].lean;
    const bool goes_right =
        lean == LayoutBox::Lean::right || (lean == LayoutBox::Lean::none && out[*box].size() > in_count[*box]);
    if (!goes_right) continue;
    int layer = std::numeric_limits<int>::max();
    for (std::size_t edge : out[*box]) layer = std::min(layer, layering.of_box[graph.edges[edge].to] - 1);
    // What only starts an edge of a bundle starts it beside the others.
    if (in_count[*box] == 0 && out[*box].size() == 1)
      if (const auto start = bundle_start.find(graph.edges[out[*box].front()].bundle); start != bundle_start.end())
        layer = std::min(layer, start->second);
    layering.of_box[*box] = layer;
  }
  int first = std::numeric_limits<int>::max();
  for (int layer : layering.of_box) first = std::min(first, layer);
  for (int& layer : layering.of_box) {
    layer -= first;
    layering.count = std::max(layering.count, layer + 1);
  }
  return layering;
}

}  // namespace loomleaf
