#include "source_chains.h"

#include <algorithm>
#include <map>
#include <utility>

#include "loomleaf/circuit/joined_sets.h"

namespace loomleaf {

namespace {

using Chains = std::map<std::size_t, SourceChain>;  // by the root of their island

// Numbers the parts that steps touch from 0.
std::size_t number_parts(std::vector<SourceStep>& steps) {
  std::map<std::size_t, std::size_t> number_of;
  for (SourceStep& step : steps)
    for (std::size_t* part : {&step.from, &step.to})
      *part = number_of.try_emplace(*part, number_of.size()).first->second;
  return number_of.size();
}

// A ring of sources is a short circuit: there is no voltage between its parts, which are taken as one. What lies
// between two rings counts as in them.
void draw_rings_together(std::vector<SourceStep>& steps, std::size_t parts) {
  std::vector<bool> in_ring(steps.size(), true);
  for (bool again = true; again;) {
    std::vector<bool> comes(parts, false), goes(parts, false);
    for (std::size_t i = 0; i < steps.size(); ++i)
      if (in_ring[i]) goes[steps[i].from] = comes[steps[i].to] = true;
    again = false;
    for (std::size_t i = 0; i < steps.size(); ++i) {
      if (!in_ring[i] || (comes[steps[i].from] && goes[steps[i].to])) continue;
      in_ring[i] = false;
      again = true;
    }
  }
  JoinedSets one(parts);
  for (std::size_t i = 0; i < steps.size(); ++i)
    if (in_ring[i]) one.join(steps[i].from, steps[i].to);
  for (SourceStep& step : steps) {
    step.from = one.root(step.from);
    step.to = one.root(step.to);
  }
  std::erase_if(steps, [](const SourceStep& step) { return step.from == step.to; });
}

// The highest chain that runs from - to + all the way, by the longest way in a network without rings.
Chains highest_series(const std::vector<SourceStep>& steps, std::size_t parts, JoinedSets& islands) {
  std::vector<std::vector<const SourceStep*>> up(parts);
  std::vector<int> waiting(parts, 0);
  for (const SourceStep& step : steps) {
    up[step.from].push_back(&step);
    ++waiting[step.to];
  }
  std::vector<double> height_V(parts, 0.0);
  std::vector<const SourceStep*> best(parts, nullptr);
  std::vector<std::size_t> ready;
  for (std::size_t part = 0; part < parts; ++part)
    if (waiting[part] == 0) ready.push_back(part);
  std::map<std::size_t, std::size_t> top_of;  // of an island
  while (!ready.empty()) {
    const std::size_t part = ready.back();
    ready.pop_back();
    const auto [top, is_first] = top_of.try_emplace(islands.root(part), part);
    if (!is_first && height_V[part] > height_V[top->second]) top->second = part;
    for (const SourceStep* step : up[part]) {
      if (height_V[part] + step->voltage_V > height_V[step->to]) {
        height_V[step->to] = height_V[part] + step->voltage_V;
        best[step->to] = step;
      }
      if (--waiting[step->to] == 0) ready.push_back(step->to);
    }
  }
  Chains chains;
  for (const auto& [island, top] : top_of) {
    SourceChain chain{{}, height_V[top]};
    for (const SourceStep* step = best[top]; step != nullptr; step = best[step->from]) chain.steps.push_back(*step);
    std::reverse(chain.steps.begin(), chain.steps.end());
    chains.emplace(island, std::move(chain));
  }
  return chains;
}

// The greatest difference between any two points of an island, whichever way the sources between them lie. Where
// sources disagree on a point, the higher ones settle it.
Chains widest_spans(const std::vector<SourceStep>& steps, std::size_t parts, JoinedSets& islands) {
  std::vector<const SourceStep*> falling;
  for (const SourceStep& step : steps) falling.push_back(&step);
  std::stable_sort(falling.begin(), falling.end(),
                   [](const SourceStep* a, const SourceStep* b) { return a->voltage_V > b->voltage_V; });
  JoinedSets tree(parts);
  std::vector<std::vector<const SourceStep*>> tree_at(parts);
  for (const SourceStep* step : falling)
    if (tree.join(step->from, step->to))
      for (const std::size_t end : {step->from, step->to}) tree_at[end].push_back(step);

  // Heights along the tree, and the extremes of each island.
  const auto walk = [&](std::size_t start, std::vector<const SourceStep*>& come_by, const auto& visit) {
    std::vector<std::pair<std::size_t, double>> open{{start, 0.0}};
    come_by[start] = nullptr;
    while (!open.empty()) {
      const auto [part, height_V] = open.back();
      open.pop_back();
      visit(part, height_V);
      for (const SourceStep* step : tree_at[part]) {
        if (step == come_by[part]) continue;
        const bool is_up = step->from == part;
        const std::size_t next = is_up ? step->to : step->from;
        come_by[next] = step;
        open.push_back({next, height_V + (is_up ? step->voltage_V : -step->voltage_V)});
      }
    }
  };
  Chains chains;
  std::vector<const SourceStep*> come_by(parts, nullptr);
  for (std::size_t start = 0; start < parts; ++start) {
    if (islands.root(start) != start) continue;
    std::pair<std::size_t, double> lowest{start, 0.0}, highest{start, 0.0};
    walk(start, come_by, [&](std::size_t part, double height_V) {
      if (height_V < lowest.second) lowest = {part, height_V};
      if (height_V > highest.second) highest = {part, height_V};
    });
    SourceChain chain{{}, highest.second - lowest.second};
    walk(lowest.first, come_by, [](std::size_t, double) {});
    for (std::size_t part = highest.first; come_by[part] != nullptr;) {
      const SourceStep* step = come_by[part];
      chain.steps.push_back(*step);
      part = step->to == part ? step->from : step->to;
    }
    std::reverse(chain.steps.begin(), chain.steps.end());
    chains.emplace(start, std::move(chain));
  }
  return chains;
}

}  // namespace

std::vector<SourceChain> highest_chains(std::vector<SourceStep> steps) {
  draw_rings_together(steps, number_parts(steps));
  const std::size_t parts = number_parts(steps);
  JoinedSets islands(parts);
  for (const SourceStep& step : steps) islands.join(step.from, step.to);
  Chains highest = highest_series(steps, parts, islands);
  Chains spans = widest_spans(steps, parts, islands);
  for (auto& [island, span] : spans)
    if (span.voltage_V > highest[island].voltage_V + rounding_V) highest[island] = std::move(span);
  std::vector<SourceChain> chains;
  for (auto& [island, chain] : highest) chains.push_back(std::move(chain));
  return chains;
}

}  // namespace loomleaf
