#include "opposed.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include "loomleaf/circuit/joined_sets.h"

namespace loomleaf {
namespace {

constexpr std::size_t kNone = std::numeric_limits<std::size_t>::max();

using Steps = std::vector<Step>;

// A step and whether the way round the ring takes it from - to +.
struct Turn {
  std::size_t step = 0;
  bool onward = true;
};
using Ring = std::vector<Turn>;

bool agrees(const Ring& ring, const Steps& steps) {
  double one_way = 0.0, other_way = 0.0;
  for (const Turn& turn : ring) (turn.onward ? one_way : other_way) += steps[turn.step].volts;
  return std::fabs(one_way - other_way) <= kClashShare * std::min(one_way, other_way);
}

// How many times the direction changes on the way round.
std::size_t changes(const Ring& ring) {
  std::size_t count = 0;
  for (std::size_t i = 0; i < ring.size(); ++i) count += ring[i].onward != ring[(i + 1) % ring.size()].onward;
  return count;
}

Ring the_other_way_round(const Ring& ring) {
  Ring turned(ring.rbegin(), ring.rend());
  for (Turn& turn : turned) turn.onward = !turn.onward;
  return turned;
}

// The ring with its greatest way in one direction first, and that from - to +; how many steps that has.
std::size_t put_greatest_first(Ring& ring, const Steps& steps) {
  const auto begins = [&ring](std::size_t i) {
    return ring[i].onward != ring[(i + ring.size() - 1) % ring.size()].onward;
  };
  std::size_t best = 0, best_length = 0;
  double most = -1.0;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    if (!begins(i)) continue;
    double sum = 0.0;
    std::size_t length = 0;
    do sum += steps[ring[(i + length++) % ring.size()].step].volts;
    while (!begins((i + length) % ring.size()));
    if (sum <= most) continue;
    most = sum;
    best = i;
    best_length = length;
  }
  std::rotate(ring.begin(), ring.begin() + static_cast<std::ptrdiff_t>(best), ring.end());
  if (ring.front().onward) return best_length;
  ring = the_other_way_round(ring);
  std::rotate(ring.begin(), ring.end() - static_cast<std::ptrdiff_t>(best_length), ring.end());
  return best_length;
}

// The two sides of a ring: its greatest way in one direction, and the rest. One step may be known to be turned.
Disagreement split(Ring ring, std::size_t turned, const Steps& steps) {
  for (Turn& turn : ring)
    if (turn.step == turned) turn.onward = !turn.onward;
  const auto length = static_cast<std::ptrdiff_t>(put_greatest_first(ring, steps));
  const Ring backwards = the_other_way_round(ring);
  const Ring sides[] = {Ring(ring.begin(), ring.begin() + length), Ring(backwards.begin(), backwards.end() - length)};
  Path paths[2];
  double volts[2] = {0.0, 0.0};
  Disagreement found;
  for (const std::size_t side : {std::size_t{0}, std::size_t{1}})
    for (const Turn& turn : sides[side]) {
      paths[side].push_back(turn.step);
      const bool adds = turn.onward != (turn.step == turned);
      volts[side] += adds ? steps[turn.step].volts : -steps[turn.step].volts;
      if (!adds) found.turned.push_back(turn.step);
    }
  const std::size_t lower = volts[0] < volts[1] ? 0 : 1;
  found.lower = std::move(paths[lower]);
  found.higher = std::move(paths[1 - lower]);
  return found;
}

// Each part's way to the first part of its network, one of the shortest.
struct Tree {
  std::vector<std::size_t> by, above, depth;  // a step; the part it leads to
  std::vector<double> volts;                  // over the first part
};

Tree grow_tree(const Steps& steps, const std::vector<bool>& left_out, std::size_t part_count) {
  std::vector<Path> at(part_count);
  for (std::size_t s = 0; s < steps.size(); ++s) {
    if (left_out[s]) continue;
    at[steps[s].from].push_back(s);
    at[steps[s].to].push_back(s);
  }
  Tree tree{std::vector<std::size_t>(part_count, kNone), std::vector<std::size_t>(part_count, kNone),
            std::vector<std::size_t>(part_count, 0), std::vector<double>(part_count, 0.0)};
  std::vector<bool> seen(part_count, false);
  for (std::size_t first = 0; first < part_count; ++first) {
    if (seen[first]) continue;
    seen[first] = true;
    std::vector<std::size_t> reached{first};
    for (std::size_t i = 0; i < reached.size(); ++i)
      for (const std::size_t s : at[reached[i]]) {
        const bool onward = steps[s].from == reached[i];
        const std::size_t next = onward ? steps[s].to : steps[s].from;
        if (seen[next]) continue;
        seen[next] = true;
        tree.by[next] = s;
        tree.above[next] = reached[i];
        tree.depth[next] = tree.depth[reached[i]] + 1;
        tree.volts[next] = tree.volts[reached[i]] + (onward ? steps[s].volts : -steps[s].volts);
        reached.push_back(next);
      }
  }
  return tree;
}

// Through one step and back along the tree.
Ring ring_through(std::size_t step, const Tree& tree, const Steps& steps) {
  Ring up{{step, true}}, down;
  std::size_t a = steps[step].to, b = steps[step].from;
  while (a != b) {
    const bool from_a = tree.depth[a] >= tree.depth[b];
    std::size_t& part = from_a ? a : b;
    const std::size_t by = tree.by[part];
    if (from_a)
      up.push_back({by, steps[by].from == part});
    else
      down.push_back({by, steps[by].to == part});
    part = tree.above[part];
  }
  up.insert(up.end(), down.rbegin(), down.rend());
  return up;
}

}  // namespace

std::vector<Disagreement> find_opposed(const Steps& steps, const Series& series, std::size_t part_count,
                                       const std::vector<Disagreement>& known) {
  std::vector<bool> left_out(steps.size(), false);
  for (const Path& circle : series.circles)
    for (const std::size_t step : circle) left_out[step] = true;
  JoinedSets together(part_count);
  for (std::size_t s = 0; s < steps.size(); ++s)
    if (!left_out[s]) together.join(steps[s].from, steps[s].to);
  std::vector<bool> is_known(part_count, false);
  for (const Disagreement& one : known) is_known[together.root(steps[one.lower.front()].from)] = true;

  const Tree tree = grow_tree(steps, left_out, part_count);
  std::vector<Disagreement> found;
  for (std::size_t s = 0; s < steps.size(); ++s) {
    const auto& [from, to, volts, is_source] = steps[s];
    if (left_out[s] || is_known[together.root(from)] || tree.by[from] == s || tree.by[to] == s) continue;
    const double off = std::fabs(tree.volts[from] + volts - tree.volts[to]);
    if (off <= kClashShare * (volts - off)) continue;  // within the allowance of this step alone
    const Ring ring = ring_through(s, tree, steps);
    if (changes(ring) > 2 && !agrees(ring, steps)) found.push_back(split(ring, kNone, steps));
  }
  return found;
}

Disagreement with_turned(const Disagreement& found, const Steps& steps, const LikeEnds& likes) {
  const auto is_turned = [&found](std::size_t step) { return std::ranges::count(found.turned, step) > 0; };
  Ring ring;
  for (const std::size_t step : found.higher) ring.push_back({step, !is_turned(step)});
  for (auto step = found.lower.rbegin(); step != found.lower.rend(); ++step) ring.push_back({*step, is_turned(*step)});
  std::size_t best = kNone;
  int most = 0;
  for (Turn& turn : ring) {
    turn.onward = !turn.onward;
    const bool mends = agrees(ring, steps);
    turn.onward = !turn.onward;
    if (!mends || likes[turn.step] < most) continue;
    best = likes[turn.step] > most ? turn.step : kNone;  // of two alike neither is told
    most = likes[turn.step];
  }
  return best == kNone ? found : split(ring, best, steps);
}

}  // namespace loomleaf
