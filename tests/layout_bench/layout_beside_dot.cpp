// Our placer beside Graphviz's `dot` on the same graphs: crossings, bends, length, area and time, as a table.
//
// Run by hand, with `dot` installed:  layout_beside_dot [EDGES ...]
//
// The graphs are wiring-like and made up from a seed: a battery, two buses, fuses, joints and loads, now and then
// something shared between circuits. `dot` gets rankdir=LR and splines=polyline: with `ortho` it crosses three times as
// often, with `spline` its curves wiggle over each other. Both drawings are counted by one rule: a crossing is where a
// piece of one line passes from one side of a piece of another to its other side; lines that meet at an end do not
// cross. The line of a bar counts among ours, so that nothing is gained by pulling it long. Time is that of the whole
// layout; of `dot` the time of the process, less that for an empty graph.
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <random>
#include <sstream>
#include <string>
#include <vector>

#include "loomleaf/layout/layered.h"

namespace loomleaf {
namespace {

struct Node {
  double width = 16.0, height = 10.0;
};
struct Link {
  std::size_t from = 0, to = 0;
};
struct Wiring {
  std::vector<Node> nodes;
  std::vector<Link> links;
};

class WiringMaker {
 public:
  explicit WiringMaker(unsigned seed) : dice_(seed) {}

  Wiring run(std::size_t links) {
    const std::size_t battery = node(), bus = node(8.0, 40.0), minus = node(8.0, 40.0);
    link(battery, bus);
    link(battery, minus);
    while (made_.links.size() < links) circuit(bus, minus);
    made_.links.resize(links);
    return std::move(made_);
  }

 private:
  std::size_t below(std::size_t limit) { return dice_() % limit; }
  std::size_t node(double width = 16.0, double height = 10.0) {
    made_.nodes.push_back({width, height});
    return made_.nodes.size() - 1;
  }
  // Always from the one made first, so that both placers get the same graph without a circle.
  void link(std::size_t a, std::size_t b) {
    if (a != b) made_.links.push_back({std::min(a, b), std::max(a, b)});
  }
  void circuit(std::size_t bus, std::size_t minus) {
    const std::size_t fuse = node(), head = node();
    link(bus, fuse);
    link(fuse, head);
    link(minus, head);
    std::vector<std::size_t> joints;
    for (std::size_t i = 0; i < 1 + below(2); ++i) {
      joints.push_back(node(6.0, 6.0));
      link(head, joints.back());
    }
    for (std::size_t i = 0, loads = 2 + below(5); i < loads; ++i) {
      const std::size_t load = node();
      link(joints[below(joints.size())], load);
      if (below(100) < 25) link(minus, load);
      if (below(100) < 15) link(below(made_.nodes.size()), load);
    }
  }

  std::mt19937 dice_;
  Wiring made_;
};

struct Drawing {
  std::vector<std::vector<Point>> lines;
  std::size_t edges = 0;  // the first lines; bars follow
  double width = 0.0, height = 0.0, seconds = 0.0;
};

double cross(Point a, Point b, Point c) { return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x); }

// Lines that touch within a micron only touch.
bool cuts(Point a, Point b, Point c, Point d) {
  const auto side = [](Point from, Point to, Point at) {
    const double off = cross(from, to, at) / std::hypot(to.x - from.x, to.y - from.y);
    return off > 1e-3 ? 1 : off < -1e-3 ? -1 : 0;
  };
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

std::size_t count_cuts(const Drawing& drawing) {
  struct Piece {
    Point a, b;
    std::size_t line;
  };
  std::vector<Piece> pieces;
  for (std::size_t line = 0; line < drawing.lines.size(); ++line)
    for (std::size_t i = 1; i < drawing.lines[line].size(); ++i) {
      Point a = drawing.lines[line][i - 1], b = drawing.lines[line][i];
      if (a.x > b.x) std::swap(a, b);
      if (std::hypot(a.x - b.x, a.y - b.y) > 1e-3) pieces.push_back({a, b, line});
    }
  std::sort(pieces.begin(), pieces.end(), [](const Piece& p, const Piece& q) { return p.a.x < q.a.x; });
  std::size_t count = 0;
  for (std::size_t i = 0; i < pieces.size(); ++i)
    for (std::size_t j = i + 1; j < pieces.size() && pieces[j].a.x <= pieces[i].b.x; ++j)
      if (pieces[i].line != pieces[j].line && cuts(pieces[i].a, pieces[i].b, pieces[j].a, pieces[j].b)) ++count;
  return count;
}

// A node with several lines to one side is a bar for us: each line has an end of its own, as at `dot`'s boxes.
LayoutGraph graph_of(const Wiring& wiring) {
  std::vector<int> in(wiring.nodes.size(), 0), out(wiring.nodes.size(), 0);
  for (const Link& link : wiring.links) {
    ++out[link.from];
    ++in[link.to];
  }
  LayoutGraph graph;
  for (std::size_t i = 0; i < wiring.nodes.size(); ++i) {
    const Node& node = wiring.nodes[i];
    LayoutBox box;
    box.is_bar = in[i] > 1 || out[i] > 1;
    box.width = box.is_bar ? 0.0 : node.width;
    box.above = box.below = box.is_bar ? 1.0 : node.height / 2.0;
    box.ports = {{0.0, 0.0}, {node.width, 0.0}};
    graph.boxes.push_back(box);
  }
  for (const Link& link : wiring.links) {
    const std::size_t from_port = graph.boxes[link.from].is_bar ? 0 : 1;
    graph.edges.push_back({link.from, from_port, link.to, 0, 0.0, 0.0, -1});
  }
  return graph;
}

double seconds_since(std::chrono::steady_clock::time_point start) {
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

Drawing place_ours(const Wiring& wiring) {
  const LayoutGraph graph = graph_of(wiring);
  Drawing drawing;
  LayoutPlacement placement;
  drawing.seconds = 1e9;
  for (int run = 0; run < 5; ++run) {
    const auto start = std::chrono::steady_clock::now();
    placement = place_layered(graph);
    drawing.seconds = std::min(drawing.seconds, seconds_since(start));
  }
  for (const PlacedEdge& edge : placement.edges) drawing.lines.push_back(edge.points);
  drawing.edges = drawing.lines.size();
  for (const auto& bar : placement.bars)
    if (bar) drawing.lines.push_back({{bar->x, bar->top}, {bar->x, bar->bottom}});
  drawing.width = placement.width;
  drawing.height = placement.height;
  return drawing;
}

std::string run_dot(const Wiring& wiring, double& seconds) {
  const std::string path =
      fmt::format("{}/layout_beside_dot.gv", std::getenv("TMPDIR") ? std::getenv("TMPDIR") : "/tmp");
  std::FILE* file = std::fopen(path.c_str(), "w");
  if (file == nullptr) throw std::runtime_error("cannot write " + path);
  fmt::print(file,
             "digraph g {{ rankdir=LR; splines=polyline; nodesep=0.1; ranksep=0.5;\n"
             "node [shape=box, fixedsize=true, label=\"\"]; edge [dir=none];\n");
  for (std::size_t i = 0; i < wiring.nodes.size(); ++i)
    fmt::print(file, "n{} [width={:.4f}, height={:.4f}];\n", i, wiring.nodes[i].width / 25.4,
               wiring.nodes[i].height / 25.4);
  for (const Link& link : wiring.links) fmt::print(file, "n{} -> n{};\n", link.from, link.to);
  fmt::print(file, "}}\n");
  std::fclose(file);
  const auto start = std::chrono::steady_clock::now();
  std::FILE* dot = popen(("dot -Tplain '" + path + "'").c_str(), "r");
  if (dot == nullptr) throw std::runtime_error("cannot run dot");
  std::string text;
  char buffer[65536];
  for (std::size_t read = 0; (read = std::fread(buffer, 1, sizeof buffer, dot)) > 0;) text.append(buffer, read);
  if (pclose(dot) != 0) throw std::runtime_error("dot failed: is Graphviz installed?");
  seconds = seconds_since(start);
  std::remove(path.c_str());
  return text;
}

// "graph scale width height", "edge tail head n x1 y1 ... xn yn": inches. Every third point of a polyline is a corner.
Drawing place_by_dot(const Wiring& wiring) {
  Drawing drawing;
  double start_up = 0.0;
  run_dot({}, start_up);
  std::istringstream text(run_dot(wiring, drawing.seconds));
  drawing.seconds = std::max(drawing.seconds - start_up, 0.0);
  for (std::string row; std::getline(text, row);) {
    std::istringstream words(row);
    std::string kind, tail, head;
    words >> kind;
    if (kind == "graph") {
      double scale = 0.0;
      words >> scale >> drawing.width >> drawing.height;
      drawing.width *= 25.4;
      drawing.height *= 25.4;
    }
    if (kind != "edge") continue;
    std::size_t count = 0;
    words >> tail >> head >> count;
    std::vector<Point> points;
    for (std::size_t i = 0; i < count; ++i) {
      Point p;
      words >> p.x >> p.y;
      if (i % 3 == 0) points.push_back({p.x * 25.4, p.y * 25.4});
    }
    drawing.lines.push_back(std::move(points));
  }
  drawing.edges = drawing.lines.size();
  return drawing;
}

std::size_t print_row(std::size_t edges, const char* placer, const Drawing& drawing, double ratio) {
  std::size_t bends = 0;
  double length = 0.0;
  for (std::size_t line = 0; line < drawing.edges; ++line) {
    bends += drawing.lines[line].size() - 2;
    for (std::size_t i = 1; i < drawing.lines[line].size(); ++i)
      length += std::hypot(drawing.lines[line][i].x - drawing.lines[line][i - 1].x,
                           drawing.lines[line][i].y - drawing.lines[line][i - 1].y);
  }
  const std::size_t crossings = count_cuts(drawing);
  fmt::print("{:>6} {:>9} {:>10} {:>7} {:>10.1f} {:>9.2f} {:>10.2f} {:>7}\n", edges, placer, crossings, bends,
             length / 1000.0, drawing.width * drawing.height / 1e6, drawing.seconds * 1000.0,
             ratio > 0.0 ? fmt::format("{:.0f}x", ratio) : "");
  std::fflush(stdout);
  return crossings;
}

}  // namespace
}  // namespace loomleaf

int main(int argc, char** argv) {
  using namespace loomleaf;
  std::vector<std::size_t> sizes;
  for (int i = 1; i < argc; ++i) sizes.push_back(std::strtoul(argv[i], nullptr, 10));
  if (sizes.empty()) sizes = {30, 100, 300, 1000, 3000};
  fmt::print("{:>6} {:>9} {:>10} {:>7} {:>10} {:>9} {:>10} {:>7}\n", "edges", "placer", "crossings", "bends",
             "length m", "area m2", "time ms", "faster");
  std::size_t crossings = 0, crossings_of_dot = 0;
  for (const std::size_t size : sizes) {
    const Wiring wiring = WiringMaker(1).run(size);
    const Drawing ours = place_ours(wiring), theirs = place_by_dot(wiring);
    crossings += print_row(size, "loomleaf", ours, theirs.seconds / ours.seconds);
    crossings_of_dot += print_row(size, "dot", theirs, 0.0);
  }
  fmt::print("crossings in all: {} beside {}\n", crossings, crossings_of_dot);
}
