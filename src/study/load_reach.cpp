#include "load_reach.h"

#include <algorithm>
#include <set>

#include "loomleaf/circuit/joined_sets.h"
#include "loomleaf/study/load_demand.h"
#include "loomleaf/study/polarity.h"

namespace loomleaf {
namespace {

// What current would pass through in line: loads, coils and converters' inputs.
struct Link {
  ItemId item;
  NodeId a, b;
  bool is_load = true;  // a coil is not reported
};

std::vector<Link> links_of(const Circuit& circuit) {
  std::vector<Link> links;
  for (const TwoPole& load : circuit.loads) links.push_back({load.item, load.plus, load.minus});
  for (const ConverterPorts& ports : circuit.converters) links.push_back({ports.item, ports.in_plus, ports.in_minus});
  for (const TwoPole& coil : circuit.coils) links.push_back({coil.item, coil.plus, coil.minus, false});
  return links;
}

void find_series_loads(const std::vector<Link>& links, const Sides& sides, std::set<ItemId>& found) {
  const auto part = [&](NodeId node) { return sides.part_of[node]; };
  const auto floats = [&](NodeId node) {
    return sides.plus_in[part(node)].empty() && sides.minus_in[part(node)].empty();
  };
  // Parts that float and that links join are one group.
  JoinedSets groups(sides.plus_in.size());
  for (const Link& link : links)
    if (floats(link.a) && floats(link.b)) groups.join(part(link.a).value, part(link.b).value);
  // What each group hangs between.
  std::vector<std::set<PartId>> outside(sides.plus_in.size());
  for (const Link& link : links)
    for (const auto& [inner, outer] : {std::pair{link.a, link.b}, std::pair{link.b, link.a}})
      if (floats(inner) && !floats(outer)) outside[groups.root(part(inner).value)].insert(part(outer));
  const auto bridges = [&](const std::set<PartId>& parts) {
    for (const PartId minus : parts)
      for (const SupplyId id : sides.minus_in[minus])
        if (parts.count(part(sides.supplies[id].plus))) return true;
    return false;
  };
  std::vector<bool> in_line(sides.plus_in.size(), false);
  for (std::size_t group = 0; group < outside.size(); ++group) in_line[group] = bridges(outside[group]);
  for (const Link& link : links)
    for (const NodeId end : {link.a, link.b})
      if (link.is_load && floats(end) && in_line[groups.root(part(end).value)]) found.insert(link.item);
}

}  // namespace

std::vector<LoadReach> reach_loads(const Plan& plan, const Circuit& circuit, const std::vector<Sides>& sides) {
  std::vector<LoadReach> reaches;
  for (const TwoPole& load : circuit.loads) {
    const Item& item = plan.items[load.item];
    LoadReach reach;
    bool any_return = false;
    std::vector<SupplyId> across;
    const Sides* across_in = &sides.front();
    const auto look = [&](const Sides& standing, NodeId plus, NodeId minus) {
      reach.has_feed = reach.has_feed || standing.is_feed(plus);
      any_return = any_return || standing.is_return(minus);
      if (!across.empty()) return;
      across = standing.across(plus, minus);
      across_in = &standing;
    };
    for (const Sides& standing : sides) {
      look(standing, load.plus, load.minus);
      if (!is_polarised(item)) look(standing, load.minus, load.plus);
    }
    reach.has_return = !across.empty() || (!reach.has_feed && any_return);
    reach.rated_voltage = rated_voltage(plan, *item.as<Load>(), *across_in, across);
    reaches.push_back(reach);
  }
  return reaches;
}

std::vector<ItemId> find_reversed(const Plan& plan, const Circuit& circuit, const std::vector<Sides>& sides) {
  std::set<ItemId> found;
  for (const Sides& standing : sides) {
    const Polarity polarity(plan, circuit, standing);
    for (const ItemId item : plan.items.ids())
      if (is_polarised(plan.items[item]) && polarity.is_reversed(item)) found.insert(item);
  }
  return {found.begin(), found.end()};
}

std::vector<ItemId> find_series_loads(const Circuit& circuit, const std::vector<Sides>& sides) {
  std::set<ItemId> found;
  const std::vector<Link> links = links_of(circuit);
  for (const Sides& standing : sides) find_series_loads(links, standing, found);
  return {found.begin(), found.end()};
}

}  // namespace loomleaf
