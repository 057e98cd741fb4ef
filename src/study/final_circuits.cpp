#include "loomleaf/study/final_circuits.h"

#include <algorithm>
#include <map>
#include <set>

#include "circuit_segments.h"
#include "return_blocks.h"

namespace loomleaf {
namespace {

// Something that current goes to, or a limited source that it comes from.
struct Consumer {
  ItemId item;
  NodeId plus, minus;
  bool is_load = false;
};

class CircuitFinder {
 public:
  CircuitFinder(const Plan& plan, const Circuit& circuit) : plan_(plan), circuit_(circuit) {}

  void look(const Ways& ways, const Sides& sides) {
    const CircuitSegments segments(plan_, circuit_, ways, sides);
    std::vector<std::vector<ItemId>> devices(segments.label_count());
    for (std::size_t label = 0; label < devices.size(); ++label)
      for (const BranchId device : segments.devices_of(label)) {
        devices[label].push_back(*circuit_.branches[device].item);
        give(device, devices[label]);
      }
    for (const BranchId id : circuit_.branches.ids()) {
      const Branch& branch = circuit_.branches[id];
      if (!sides.is_feed(branch.a) || branch.kind == BranchKind::device || !conducts(circuit_, id, ways)) continue;
      if (const auto label = segments.label_at(branch.a))
        give(id, devices[*label]);
      else
        shared_.insert(id);
    }

    IndexedList<NodeOf, Served> at(circuit_.nodes.size());
    for (const Consumer& consumer : consumers(sides)) {
      const bool turned = !sides.is_feed(consumer.plus) && sides.is_feed(consumer.minus);
      const auto label = segments.label_at(turned ? consumer.minus : consumer.plus);
      if (label)
        for (const ItemId device : devices[*label])
          (consumer.is_load ? found_[device].loads : found_[device].others).insert(consumer.item);
      at[turned ? consumer.plus : consumer.minus].add(label ? Served::one(*label) : Served::several());
    }
    const auto served = ReturnBlocks(circuit_, ways, returns(sides), return_roots(sides)).served(at);
    for (const BranchId id : circuit_.branches.ids()) {
      if (served[id].is_several()) shared_.insert(id);
      if (const auto label = served[id].only()) give(id, devices[*label]);
    }
  }

  std::vector<FinalCircuit> circuits() const {
    std::vector<FinalCircuit> all;
    for (const auto& [device, found] : found_) {
      FinalCircuit entry{
          device, {found.loads.begin(), found.loads.end()}, {found.others.begin(), found.others.end()}, {}};
      for (const BranchId id : found.branches)
        if (!shared_.count(id)) entry.branches.push_back(id);
      if (!entry.loads.empty() || !entry.others.empty() || entry.branches.size() > 1) all.push_back(std::move(entry));
    }
    return all;
  }

 private:
  struct Found {
    std::set<ItemId> loads, others;
    std::set<BranchId> branches;
  };

  void give(BranchId branch, const std::vector<ItemId>& devices) {
    for (const ItemId device : devices) found_[device].branches.insert(branch);
  }

  std::vector<Consumer> consumers(const Sides& sides) const {
    std::vector<Consumer> all;
    for (const TwoPole& load : circuit_.loads) all.push_back({load.item, load.plus, load.minus, true});
    for (const TwoPole& coil : circuit_.coils) all.push_back({coil.item, coil.plus, coil.minus});
    for (const ConverterPorts& ports : circuit_.converters) all.push_back({ports.item, ports.in_plus, ports.in_minus});
    for (const TwoPole& source : circuit_.sources)
      if (plan_.items[source.item].as<Source>()->is_limited() && has_battery(sides, source.minus))
        all.push_back({source.item, source.plus, source.minus});
    return all;
  }

  static bool is_battery(const Supply& supply) { return !supply.limited && !supply.converter; }

  static bool has_battery(const Sides& sides, NodeId minus) {
    const auto& supplies = sides.minus_in[sides.part_of[minus]];
    return std::any_of(supplies.begin(), supplies.end(), [&](SupplyId id) { return is_battery(sides.supplies[id]); });
  }

  IndexedList<NodeOf, bool> returns(const Sides& sides) const {
    IndexedList<NodeOf, bool> is_return(circuit_.nodes.size());
    for (const NodeId node : circuit_.nodes.ids()) is_return[node] = sides.is_return(node) && !sides.is_feed(node);
    return is_return;
  }

  // The - of batteries; in a part that has none, of its limited sources; else of its converters.
  static int rank(const Supply& supply) { return supply.converter ? 1 : supply.limited ? 2 : 3; }
  IndexedList<NodeOf, bool> return_roots(const Sides& sides) const {
    IndexedList<PartOf, int> best(sides.minus_in.size(), 0);
    for (const Supply& supply : sides.supplies) {
      int& most = best[sides.part_of[supply.minus]];
      most = std::max(most, rank(supply));
    }
    IndexedList<NodeOf, bool> roots(circuit_.nodes.size(), false);
    for (const Supply& supply : sides.supplies)
      if (best[sides.part_of[supply.minus]] == rank(supply)) roots[supply.minus] = true;
    return roots;
  }

  const Plan& plan_;
  const Circuit& circuit_;
  std::map<ItemId, Found> found_;
  std::set<BranchId> shared_;  // in some standing
};

}  // namespace

std::vector<FinalCircuit> find_final_circuits(const Plan& plan, const Circuit& circuit, const std::vector<Ways>& ways,
                                              const std::vector<Sides>& sides) {
  CircuitFinder finder(plan, circuit);
  for (std::size_t i = 0; i < ways.size(); ++i) finder.look(ways[i], sides[i]);
  return finder.circuits();
}

}  // namespace loomleaf
