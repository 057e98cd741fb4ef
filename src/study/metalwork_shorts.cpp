#include "metalwork_shorts.h"

#include <algorithm>
#include <map>

namespace loomleaf {
namespace {

constexpr std::size_t kMostPieces = 64;

struct Metal {
  ItemId item;
  NodeId node;
  Area bond{};  // the thickest conductor there
};

std::vector<Metal> bonded_metals(const Plan& plan, const Circuit& circuit, const FaultSupplies& supplies,
                                 const ShortPlaces& places, const IndexedList<ConductorOf, ConductorFigures>& figures) {
  std::vector<Metal> metals;
  std::map<PartId, Area> thickest;
  for (const ItemId id : plan.items.ids()) {
    const Item& item = plan.items[id];
    if (!item.is<Chassis>() || item.terminals.empty() || metals.size() == kMostPieces) continue;
    const NodeId node = circuit.node_of[item.terminals.front()];
    if (!supplies.is_return(node) || !places.back_ways().reaches(node)) continue;
    Metal& metal = metals.emplace_back(Metal{id, node, {}});
    for (const BranchId at : circuit.at[node])
      if (const auto conductor = circuit.branches[at].conductor)
        metal.bond = std::max(metal.bond, figures[*conductor].area);
    Area& most = thickest[supplies.sides().part_of[node]];
    most = std::max(most, metal.bond);
  }
  std::erase_if(metals,
                [&](const Metal& metal) { return metal.bond < thickest[supplies.sides().part_of[metal.node]]; });
  return metals;
}

// The branch that the way of greatest resistance comes by.
std::optional<BranchId> last_branch(const Circuit& circuit, const FaultSupplies& supplies, const ShortestWays& ways,
                                    NodeId node) {
  if (ways.by[node] || !ways.next[node]) return ways.by[node];
  for (const BranchId id : circuit.at[node]) {
    const Branch& branch = circuit.branches[id];
    if (supplies.passes(id) && (branch.a == *ways.next[node] || branch.b == *ways.next[node])) return id;
  }
  return std::nullopt;
}

}  // namespace

std::vector<MetalworkShort> metalwork_shorts(const Plan& plan, const Circuit& circuit, const FaultSupplies& supplies,
                                             const ShortPlaces& places,
                                             const IndexedList<ConductorOf, ConductorFigures>& figures) {
  const std::vector<Metal> metals = bonded_metals(plan, circuit, supplies, places, figures);
  if (metals.empty()) return {};
  struct Farthest {
    double ohm = -1.0;
    NodeId node;
    ConductorId shorted;
  };
  const ShortestWays& ways = places.feed_ways();
  IndexedList<NodeOf, std::optional<BranchId>> device(circuit.nodes.size());
  std::map<BranchId, Farthest> behind;  // by device
  for (const NodeId node : ways.order) {
    const auto by = last_branch(circuit, supplies, ways, node);
    if (!by) continue;
    const Branch& branch = circuit.branches[*by];
    device[node] = branch.kind == BranchKind::device ? by : device[branch.a == node ? branch.b : branch.a];
    if (!device[node] || !branch.conductor) continue;
    Farthest& farthest = behind[*device[node]];
    if (ways.ohm[node] > farthest.ohm) farthest = {ways.ohm[node], node, *branch.conductor};
  }
  std::vector<MetalworkShort> shorts;
  for (const auto& [id, end] : behind)
    for (const Metal& metal : metals) shorts.push_back({{end.node, metal.node, true, 0.0}, end.shorted, metal.item});
  return shorts;
}

}  // namespace loomleaf
