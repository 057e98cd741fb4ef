#include "idle_links.h"

#include <algorithm>
#include <limits>

namespace loomleaf {
namespace {

constexpr std::size_t unseen = std::numeric_limits<std::size_t>::max();

struct Edge {
  std::size_t a, b;
};

// The edges at each node, one node's after the other's.
class EdgesAtNodes {
 public:
  EdgesAtNodes(std::size_t nodes, const std::vector<Edge>& edges) : first_(nodes + 2, 0) {
    for (const Edge& edge : edges)
      for (const std::size_t end : {edge.a, edge.b}) ++first_[end + 2];
    for (std::size_t i = 2; i < first_.size(); ++i) first_[i] += first_[i - 1];
    edges_.resize(2 * edges.size());
    for (std::size_t i = 0; i < edges.size(); ++i)
      for (const std::size_t end : {edges[i].a, edges[i].b}) edges_[first_[end + 1]++] = i;
  }
  std::size_t begin(std::size_t node) const { return first_[node]; }
  std::size_t end(std::size_t node) const { return first_[node + 1]; }
  std::size_t edge(std::size_t at) const { return edges_[at]; }

 private:
  std::vector<std::size_t> first_, edges_;
};

struct Visit {
  std::size_t node, by, next;  // reached by this edge; the next of its edges to follow
  std::size_t low;             // the earliest visit that is reached from here without `by`
};

}  // namespace

// Bridges after Tarjan (1974).
std::vector<bool> find_idle_links(const NetworkShape& shape) {
  std::vector<Edge> edges;
  edges.reserve(shape.links.size() + shape.holds.size() + shape.ports.size());
  for (const NetworkLink& link : shape.links) edges.push_back({link.a, link.b});
  for (const NetworkHold& hold : shape.holds) edges.push_back({hold.plus, hold.minus});
  for (const NetworkPort& port : shape.ports) edges.push_back({port.plus, port.minus});
  const EdgesAtNodes at(shape.nodes, edges);

  std::vector<bool> idle(shape.links.size(), false);
  std::vector<std::size_t> visit_of(shape.nodes, unseen);
  std::size_t visits = 0;
  std::vector<Visit> trail;
  const auto enter = [&](std::size_t node, std::size_t by) {
    visit_of[node] = visits;
    trail.push_back({node, by, at.begin(node), visits++});
  };
  for (std::size_t start = 0; start < shape.nodes; ++start) {
    if (visit_of[start] != unseen) continue;
    enter(start, unseen);
    while (!trail.empty()) {
      Visit& here = trail.back();
      if (here.next < at.end(here.node)) {
        const std::size_t edge = at.edge(here.next++);
        if (edge == here.by) continue;
        const std::size_t other = edges[edge].a == here.node ? edges[edge].b : edges[edge].a;
        if (visit_of[other] == unseen)
          enter(other, edge);
        else
          here.low = std::min(here.low, visit_of[other]);
        continue;
      }
      const Visit done = here;
      trail.pop_back();
      if (trail.empty()) break;
      trail.back().low = std::min(trail.back().low, done.low);
      if (done.low == visit_of[done.node] && done.by < idle.size()) idle[done.by] = true;
    }
  }
  return idle;
}

}  // namespace loomleaf
