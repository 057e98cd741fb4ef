// What returns over a conductor: the part of the brute force that follows loads and banks home.
#include <algorithm>
#include <map>
#include <optional>

#include "protection/support/brute_force.h"

namespace loomleaf::test {

// "It and the conductors and contacts between the same two points."
BruteForce::Branches BruteForce::bundle_of(const Branch& branch) const {
  Branches found;
  for (const Edge& edge : conducting_)
    if (edge.most_uA == kNoLimit_uA &&
        std::minmax(edge.a, edge.b) == std::minmax<std::size_t>(branch.a.value, branch.b.value))
      found.insert(edge.branch);
  return found;
}

// The + of those supplies whose own - is reached from this end: sources, converters' outputs, and series chains, which
// begin at such a source and end at the + of any that stands on it.
BruteForce::Names BruteForce::supplies_of(std::size_t end, const Branches& without) const {
  const Nodes reached = reached_from({end}, without);
  Names counted;
  for (const Emf& supply : supplies_)
    if (reached.count(supply.minus)) counted.insert(supply.name);
  return with_series(counted);
}

BruteForce::Names BruteForce::with_series(Names counted) const {
  for (bool more = true; more;) {
    more = false;
    for (const Emf& lower : supplies_) {
      if (!lower.is_source || !counted.count(lower.name)) continue;
      const Nodes link = reached_from({lower.plus}, {});
      for (const Emf& upper : supplies_)
        if (upper.is_source && link.count(upper.minus) && counted.insert(upper.name).second) more = true;
    }
  }
  return counted;
}

BruteForce::Back BruteForce::back_into(std::size_t end, std::size_t other, const Branch& branch) const {
  const Branches without = bundle_of(branch);
  Back back = back_from(supplies_of(other, without), end, without, nullptr);
  const bool in_ring = reached_from({end}, without).count(other) > 0;
  const std::optional<BruteFlow> by_ways = in_ring ? back_by_ways(end, other, without) : std::nullopt;
  if (by_ways && back.most > *by_ways) return {*by_ways, *by_ways, true};
  return back;
}

// "Any choice of banks may be what the others feed; those of which nothing counts are."
BruteForce::Back BruteForce::back_from(const Names& counted, std::size_t end, const Branches& without,
                                       const Nodes* returning) const {
  Back back;
  for (std::size_t choice = 0; choice < (std::size_t{1} << banks_.size()); ++choice) {
    Names fed;
    for (std::size_t i = 0; i < banks_.size(); ++i) {
      const bool counts =
          std::any_of(banks_[i].begin(), banks_[i].end(), [&](const std::string& name) { return counted.count(name); });
      if (!counts || (choice >> i & 1U) != 0) fed.insert(banks_[i].begin(), banks_[i].end());
    }
    std::vector<Emf> from;
    std::vector<Edge> loads = shorted_;
    for (const Emf& supply : supplies_) {
      if (fed.count(supply.name)) loads.push_back({supply.plus, supply.minus, kNoLimit_uA, supply.name, 0, true});
      if (!fed.count(supply.name) && counted.count(supply.name)) from.push_back(supply);
    }
    if (returning) std::erase_if(loads, [&](const Edge& load) { return returning->count(load.b) == 0; });
    if (choice == 0) {
      std::vector<Edge> plain = shorted_;
      if (returning) std::erase_if(plain, [&](const Edge& load) { return returning->count(load.b) == 0; });
      back.through_loads_alone = flow(end, from, without, plain);
    }
    const BruteFlow found = flow(end, from, without, loads);
    const bool is_alike = found.most_uA == back.most.most_uA;
    if (choice == 0 || found > back.most || (is_alike && found.held_by < back.most.held_by)) back.most = found;
  }
  return back;
}

std::vector<std::vector<std::size_t>> BruteForce::simple_ways(std::size_t from, std::size_t to,
                                                              const Branches& without) const {
  std::map<std::size_t, Nodes> beside;
  for (const Edge& edge : conducting_) {
    if (without.count(edge.branch)) continue;
    beside[edge.a].insert(edge.b);
    beside[edge.b].insert(edge.a);
  }
  std::vector<std::vector<std::size_t>> open{{from}}, done;
  while (!open.empty()) {
    const std::vector<std::size_t> way = open.back();
    open.pop_back();
    if (way.back() == to) {
      done.push_back(way);
      continue;
    }
    for (const std::size_t next : beside[way.back()]) {
      if (std::find(way.begin(), way.end(), next) != way.end()) continue;
      open.push_back(way);
      open.back().push_back(next);
    }
  }
  return done;
}

// The first node of the ring that is met from here.
std::optional<std::size_t> BruteForce::corner_of(std::size_t node, const Nodes& ring) const {
  for (const std::size_t corner : ring) {
    Branches at_others;
    for (const Edge& edge : conducting_)
      for (const std::size_t other : ring)
        if (other != corner && (edge.a == other || edge.b == other)) at_others.insert(edge.branch);
    if (reached_from({node}, at_others).count(corner) > 0) return corner;
  }
  return std::nullopt;
}

// "Supply and load only count together where some way home passes over it and meets no point twice; where the ring has
// branches across, in either direction. What the supplies joined at each point send over it is added up."
std::optional<BruteFlow> BruteForce::back_by_ways(std::size_t end, std::size_t other, const Branches& without) const {
  const auto rounds = simple_ways(end, other, without);
  Nodes ring;
  for (const auto& way : rounds) ring.insert(way.begin(), way.end());
  const auto passes = [&](std::size_t load, std::size_t supply) {
    const auto is_way = [&](std::size_t first,
                            std::size_t second) {  // load .. first, over the conductor, second .. supply
      for (const auto& before : simple_ways(load, first, without))
        for (const auto& after : simple_ways(second, supply, without))
          if (std::find_first_of(before.begin(), before.end(), after.begin(), after.end()) == before.end()) return true;
      return false;
    };
    return is_way(end, other) || (rounds.size() > 1 && is_way(other, end));
  };
  std::map<std::size_t, Names> supplies_at;
  for (const Emf& supply : supplies_)
    if (const auto corner = corner_of(supply.minus, ring)) supplies_at[*corner].insert(supply.name);
  BruteFlow sum{0, {}};
  for (const auto& [at, names] : supplies_at) {
    Nodes returning;
    for (std::size_t node = 0; node < circuit_.nodes.size(); ++node)
      if (const auto corner = corner_of(node, ring); corner && passes(*corner, at)) returning.insert(node);
    const BruteFlow one = back_from(with_series(names), end, without, &returning).most;
    if (!one.is_bounded()) return std::nullopt;
    sum.most_uA += one.most_uA;
    sum.held_by.insert(one.held_by.begin(), one.held_by.end());
  }
  return sum;
}

}  // namespace loomleaf::test
