#include "series.h"

#include <algorithm>
#include <limits>

namespace loomleaf {
namespace {

constexpr std::size_t kNone = std::numeric_limits<std::size_t>::max();

using Steps = std::vector<Step>;

std::vector<Path> steps_out_of(const Steps& steps, const std::vector<bool>& left_out, std::size_t part_count) {
  std::vector<Path> out(part_count);
  for (std::size_t s = 0; s < steps.size(); ++s)
    if (!left_out[s]) out[steps[s].from].push_back(s);
  return out;
}

// Walks on and on; whenever the walk meets itself, the loop is taken out and the walk goes on without it. Each step is
// walked once. What remains has no circle.
std::vector<Path> take_out_circles(const Steps& steps, std::size_t part_count) {
  const std::vector<Path> out = steps_out_of(steps, std::vector<bool>(steps.size(), false), part_count);
  std::vector<std::size_t> next(part_count, 0);
  std::vector<bool> on_walk(part_count, false), done(part_count, false);
  std::vector<Path> circles;
  for (std::size_t start = 0; start < part_count; ++start) {
    if (done[start]) continue;
    Path walk;
    std::size_t at = start;
    on_walk[at] = true;
    while (true) {
      if (next[at] < out[at].size()) {
        const std::size_t step = out[at][next[at]++];
        const std::size_t to = steps[step].to;
        if (done[to]) continue;
        walk.push_back(step);
        if (!on_walk[to]) {
          on_walk[to] = true;
          at = to;
          continue;
        }
        auto first = walk.end();
        do {
          --first;
          on_walk[steps[*first].to] = false;
        } while (steps[*first].from != to);
        on_walk[to] = true;
        circles.emplace_back(first, walk.end());
        walk.erase(first, walk.end());
        at = to;
        continue;
      }
      done[at] = true;
      on_walk[at] = false;
      if (walk.empty()) break;
      at = steps[walk.back()].from;
      walk.pop_back();
    }
  }
  return circles;
}

std::vector<bool> members(const std::vector<Path>& paths, std::size_t step_count) {
  std::vector<bool> in(step_count, false);
  for (const Path& path : paths)
    for (const std::size_t step : path) in[step] = true;
  return in;
}

// In each part the first source that arrives goes on with the first that leaves, the second with the second.
std::vector<Path> join_chains(const Steps& steps, const std::vector<bool>& circular, std::size_t part_count) {
  std::vector<Path> arriving(part_count), leaving(part_count);
  for (std::size_t s = 0; s < steps.size(); ++s) {
    if (circular[s] || !steps[s].is_source) continue;
    arriving[steps[s].to].push_back(s);
    leaving[steps[s].from].push_back(s);
  }
  std::vector<std::size_t> after(steps.size(), kNone);
  std::vector<bool> has_before(steps.size(), false);
  for (std::size_t part = 0; part < part_count; ++part)
    for (std::size_t i = 0; i < std::min(arriving[part].size(), leaving[part].size()); ++i) {
      after[arriving[part][i]] = leaving[part][i];
      has_before[leaving[part][i]] = true;
    }
  std::vector<Path> chains;
  for (std::size_t s = 0; s < steps.size(); ++s) {
    if (circular[s] || !steps[s].is_source || has_before[s]) continue;
    Path chain;
    for (std::size_t at = s; at != kNone; at = after[at]) chain.push_back(at);
    chains.push_back(std::move(chain));
  }
  return chains;
}

// Parts in an order in which every step leads onwards.
std::vector<std::size_t> onward_order(const Steps& steps, const std::vector<Path>& out,
                                      const std::vector<bool>& circular, std::size_t part_count) {
  std::vector<std::size_t> waiting(part_count, 0), order;
  for (std::size_t s = 0; s < steps.size(); ++s)
    if (!circular[s]) ++waiting[steps[s].to];
  for (std::size_t part = 0; part < part_count; ++part)
    if (waiting[part] == 0) order.push_back(part);
  for (std::size_t i = 0; i < order.size(); ++i)
    for (const std::size_t step : out[order[i]])
      if (--waiting[steps[step].to] == 0) order.push_back(steps[step].to);
  return order;
}

struct Reach {
  double volts = 0.0;
  std::size_t by = kNone;  // the last step
};

Path path_to(std::size_t part, std::size_t origin, const std::vector<Reach>& reach, const Steps& steps) {
  Path path;
  for (; part != origin; part = steps[path.back()].from) path.push_back(reach[part].by);
  std::reverse(path.begin(), path.end());
  return path;
}

}  // namespace

Series find_series(const std::vector<Step>& steps, std::size_t part_count) {
  Series series;
  series.circles = take_out_circles(steps, part_count);
  series.chains = join_chains(steps, members(series.circles, steps.size()), part_count);
  return series;
}

std::vector<Disagreement> find_disagreements(const std::vector<Step>& steps, const Series& series,
                                             std::size_t part_count) {
  const std::vector<bool> circular = members(series.circles, steps.size());
  const std::vector<Path> out = steps_out_of(steps, circular, part_count);
  const std::vector<std::size_t> order = onward_order(steps, out, circular, part_count);
  std::vector<std::size_t> rank(part_count);
  for (std::size_t i = 0; i < order.size(); ++i) rank[order[i]] = i;

  std::vector<Disagreement> found;
  std::vector<Reach> least(part_count), most(part_count);
  for (std::size_t origin = 0; origin < part_count; ++origin) {
    if (out[origin].size() < 2) continue;      // two ways part only where two steps leave
    std::vector<std::size_t> reached{origin};  // a heap, the lowest rank on top
    const auto later = [&rank](std::size_t a, std::size_t b) { return rank[a] > rank[b]; };
    std::vector<std::size_t> touched{origin};
    least[origin] = most[origin] = {0.0, 0};
    while (!reached.empty()) {
      std::pop_heap(reached.begin(), reached.end(), later);
      const std::size_t at = reached.back();
      reached.pop_back();
      if (at != origin && most[at].volts - least[at].volts > kClashShare * least[at].volts) {
        Path lower = path_to(at, origin, least, steps), higher = path_to(at, origin, most, steps);
        if (lower.front() != higher.front() && lower.back() != higher.back())
          found.push_back({std::move(lower), std::move(higher), {}});
      }
      for (const std::size_t step : out[at]) {
        const std::size_t to = steps[step].to;
        const double low = least[at].volts + steps[step].volts, high = most[at].volts + steps[step].volts;
        if (least[to].by == kNone) {
          least[to] = {low, step};
          most[to] = {high, step};
          touched.push_back(to);
          reached.push_back(to);
          std::push_heap(reached.begin(), reached.end(), later);
          continue;
        }
        if (low < least[to].volts) least[to] = {low, step};
        if (high > most[to].volts) most[to] = {high, step};
      }
    }
    for (const std::size_t part : touched) least[part] = most[part] = Reach{};
  }
  return found;
}

}  // namespace loomleaf
