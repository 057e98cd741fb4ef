#include "loomleaf/layout/layered.h"

#include <gtest/gtest.h>

#include <map>

namespace loomleaf {
namespace {

LayoutBox single() { return {10.0, 3.0, 3.0, {{0.0, 0.0}, {10.0, 0.0}}, false, false, LayoutBox::Lean::none}; }
LayoutBox pair() { return {10.0, 3.0, 11.0, {{5.0, 0.0}, {5.0, 8.0}}, false, false, LayoutBox::Lean::none}; }
LayoutBox bar() { return {8.0, 4.0, 1.0, {}, true, false, LayoutBox::Lean::none}; }

int bends(const LayoutPlacement& placement) {
  std::size_t count = 0;
  for (const PlacedEdge& edge : placement.edges) count += edge.points.size() - 2;
  return static_cast<int>(count);
}

LayoutGraph chain(std::size_t length) {
  LayoutGraph graph;
  for (std::size_t i = 0; i < length; ++i) graph.boxes.push_back(single());
  for (std::size_t i = 1; i < length; ++i) graph.edges.push_back({i - 1, 1, i, 0, 20.0, 4.0, -1});
  return graph;
}

TEST(Layered, LeadsAChainStraight) {
  const LayoutPlacement placement = place_layered(chain(6));
  EXPECT_EQ(bends(placement), 0);
  EXPECT_EQ(placement.crossings, 0u);
}

// Two lines that start apart and end on one box run beside each other all the way.
LayoutGraph pair_of_lines() {
  LayoutGraph graph;
  graph.boxes = {single(), single(), single(), pair()};
  graph.edges = {{0, 1, 1, 0, 20.0, 4.0, -1}, {1, 1, 3, 0, 20.0, 4.0, 0}, {2, 1, 3, 1, 20.0, 4.0, 0}};
  return graph;
}

TEST(Layered, KeepsAPairOfLinesStraight) {
  const LayoutPlacement placement = place_layered(pair_of_lines());
  EXPECT_EQ(bends(placement), 0);
  EXPECT_DOUBLE_EQ(placement.edges[2].points.back().y - placement.edges[1].points.back().y, 8.0);
}

TEST(Layered, TiesABundleTwice) {
  const LayoutPlacement placement = place_layered(pair_of_lines());
  ASSERT_EQ(placement.ties.size(), 2u);
  EXPECT_EQ(placement.ties[0].heights.size(), 2u);
  EXPECT_TRUE(placement.ties[0].neighbours.at(0));
}

// One feed and one return, each opening into as many branches as there are pairs at the far side.
LayoutGraph branching_pair(std::size_t branches) {
  LayoutGraph graph;
  graph.boxes = {pair(), bar(), bar()};
  graph.edges = {{0, 0, 1, 0, 20.0, 4.0, 0}, {0, 1, 2, 0, 20.0, 4.0, 0}};
  for (std::size_t i = 0; i < branches; ++i) {
    graph.boxes.push_back(pair());
    graph.edges.push_back({1, 0, 3 + i, 0, 20.0, 4.0, -1});
    graph.edges.push_back({2, 0, 3 + i, 1, 20.0, 4.0, -1});
  }
  return graph;
}

TEST(Layered, OpensBranchesDownwardsWithoutABend) {
  const LayoutPlacement placement = place_layered(branching_pair(4));
  EXPECT_EQ(bends(placement), 0);
  EXPECT_EQ(placement.crossings, 0u);
  EXPECT_DOUBLE_EQ(placement.edges[2].points.front().y, placement.edges[0].points.back().y);
  for (std::size_t i = 4; i < placement.boxes.size(); ++i) EXPECT_GT(placement.boxes[i].y, placement.boxes[i - 1].y);
}

TEST(Layered, UntanglesTwoLinesThatStartTheWrongWayRound) {
  LayoutGraph graph;
  graph.boxes = {single(), single(), single(), single()};
  graph.edges = {{0, 1, 3, 0, 20.0, 4.0, -1}, {1, 1, 2, 0, 20.0, 4.0, -1}};
  EXPECT_EQ(place_layered(graph).crossings, 0u);
}

// Two boxes that are each joined to two others: one crossing is the least there is.
TEST(Layered, CrossesOnceWhereItMust) {
  LayoutGraph graph;
  graph.boxes = {pair(), pair(), pair(), pair()};
  for (std::size_t a : {0u, 1u})
    for (std::size_t b : {2u, 3u}) graph.edges.push_back({a, b - 2, b, a, 20.0, 4.0, -1});
  EXPECT_EQ(place_layered(graph).crossings, 1u);
}

// Whatever is straight, the nodes of a layer keep the distance they ask for.
TEST(Layered, KeepsTheDistancesThatNodesAskFor) {
  for (unsigned seed = 1; seed <= 200; ++seed) {
    unsigned state = seed;
    auto next = [&](unsigned below) { return (state = state * 1664525u + 1013904223u) / 65536u % below; };
    LayoutGraph graph;
    const std::size_t count = 6 + next(20);
    for (std::size_t i = 0; i < count; ++i) graph.boxes.push_back(bar());
    for (std::size_t e = 0; e < 2 * count; ++e) {
      const std::size_t a = next(static_cast<unsigned>(count)), b = next(static_cast<unsigned>(count));
      if (a != b) graph.edges.push_back({std::min(a, b), 0, std::max(a, b), 0, 20.0, 4.0 + next(5), -1});
    }
    const LayoutSpacing spacing;
    const Ordering ordering = order_layers(graph, assign_layers(graph));
    const std::vector<double> heights = assign_heights(ordering, spacing);
    for (const auto& layer : ordering.layers)
      for (std::size_t i = 1; i < layer.size(); ++i)
        EXPECT_GE(heights[layer[i]] - heights[layer[i - 1]] + 1e-6,
                  ordering.nodes[layer[i - 1]].below + spacing.row_gap + ordering.nodes[layer[i]].above)
            << "seed " << seed;
  }
}

// Two lines from one bar to boxes that stand the other way round: which tap is whose is free.
TEST(Layered, SharesOutTheTapsOfABarWithoutACrossing) {
  LayoutGraph graph;
  graph.boxes = {bar(), single(), single(), bar()};
  graph.edges = {{0, 0, 1, 0, 20.0, 4.0, -1},
                 {0, 0, 2, 0, 20.0, 4.0, -1},
                 {1, 1, 3, 0, 20.0, 4.0, -1},
                 {2, 1, 3, 0, 20.0, 4.0, -1},
                 {0, 0, 3, 0, 20.0, 4.0, -1}};
  EXPECT_EQ(place_layered(graph).crossings, 0u);
}

// No two edges may run on top of each other, whatever the graph.
void expect_no_overlap(const LayoutPlacement& placement) {
  struct Piece {
    double at, begin, end;
    std::size_t edge;
  };
  std::vector<Piece> level, upright;
  for (std::size_t e = 0; e < placement.edges.size(); ++e) {
    const auto& p = placement.edges[e].points;
    for (std::size_t i = 1; i < p.size(); ++i) {
      if (std::abs(p[i].y - p[i - 1].y) < 1e-9)
        level.push_back({p[i].y, std::min(p[i].x, p[i - 1].x), std::max(p[i].x, p[i - 1].x), e});
      else
        upright.push_back({p[i].x, std::min(p[i].y, p[i - 1].y), std::max(p[i].y, p[i - 1].y), e});
    }
  }
  for (const auto* pieces : {&level, &upright})
    for (std::size_t i = 0; i < pieces->size(); ++i)
      for (std::size_t j = i + 1; j < pieces->size(); ++j) {
        const Piece &a = (*pieces)[i], &b = (*pieces)[j];
        if (a.edge == b.edge || std::abs(a.at - b.at) > 0.3) continue;
        EXPECT_LE(std::min(a.end, b.end) - std::max(a.begin, b.begin), 1e-6) << "edges " << a.edge << " and " << b.edge;
      }
}

TEST(Layered, NeverLaysOneLineOnAnother) {
  for (unsigned seed = 1; seed <= 40; ++seed) {
    unsigned state = seed;
    auto next = [&](unsigned below) { return (state = state * 1664525u + 1013904223u) / 65536u % below; };
    LayoutGraph graph;
    const std::size_t count = 6 + next(20);
    for (std::size_t i = 0; i < count; ++i) graph.boxes.push_back(bar());
    for (std::size_t e = 0; e < 2 * count; ++e) {
      const std::size_t a = next(static_cast<unsigned>(count)), b = next(static_cast<unsigned>(count));
      if (a != b) graph.edges.push_back({std::min(a, b), 0, std::max(a, b), 0, 20.0, 4.0, static_cast<int>(e / 2)});
    }
    SCOPED_TRACE(seed);
    const LayoutPlacement placement = place_layered(graph);
    expect_no_overlap(placement);
    for (const PlacedEdge& edge : placement.edges) EXPECT_TRUE(edge.tag.has_value());
  }
}

TEST(Layered, PlacesTheSameGraphTheSameWay) {
  const LayoutPlacement a = place_layered(branching_pair(7)), b = place_layered(branching_pair(7));
  for (std::size_t e = 0; e < a.edges.size(); ++e) EXPECT_EQ(a.edges[e].points, b.edges[e].points);
}

TEST(Layered, HoldsAnEmptyGraph) { EXPECT_EQ(place_layered({}).edges.size(), 0u); }

}  // namespace
}  // namespace loomleaf
