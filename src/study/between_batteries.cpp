#include "between_batteries.h"

#include <numeric>

namespace loomleaf {
namespace {

// Supplies by number in one place each: batteries alone have one.
struct Batteries {
  Places of_supply, of_bank;
  SupplySet set;
};

void list_batteries(const FaultNetwork& network, Batteries& batteries) {
  batteries.of_supply.resize(network.supply_count());
  batteries.of_bank.assign(network.bank_count(), {0});
  for (std::size_t supply = 0; supply < network.supply_count(); ++supply)
    if (network.bank_of(supply)) batteries.of_supply[supply] = {0};
  batteries.set.of_supply = &batteries.of_supply;
  batteries.set.of_bank = &batteries.of_bank;
  batteries.set.range = {{0, 1}};
}

// How many batteries' + stand before each position of the parts' walk.
std::vector<std::size_t> count_pluses(const Circuit& circuit, const FaultNetwork& network) {
  std::vector<std::size_t> before(circuit.nodes.size() + 1, 0);
  for (const Port& port : network.ports())
    if (port.kind == Port::Kind::supply && port.bank) ++before[network.parts().position(port.node) + 1];
  std::partial_sum(before.begin(), before.end(), before.begin());
  return before;
}

}  // namespace

IndexedList<BranchOf, FaultFlow> find_between_batteries(const Circuit& circuit, const Ways& ways,
                                                        const FaultNetwork& network) {
  IndexedList<BranchOf, FaultFlow> found(circuit.branches.size());
  if (network.bank_count() < 2) return found;
  Batteries batteries;
  list_batteries(network, batteries);
  FaultQuestion question;
  question.supplies = &batteries.set;
  FaultFlowSearch search(network);
  const BridgeForest &lumps = network.lumps(), &parts = network.parts();
  const std::vector<std::size_t> pluses = count_pluses(circuit, network);
  const auto count_in = [&pluses](const WalkSpan& span) { return pluses[span.last] - pluses[span.first]; };
  for (const BranchId id : circuit.branches.ids()) {
    const Branch& branch = circuit.branches[id];
    if (branch.kind != BranchKind::contact || !conducts(circuit, id, ways) || !parts.side_of_bridge(id)) continue;
    const std::size_t here = count_in(*parts.side_of_bridge(id));
    if (here == 0 || here == count_in(parts.group(parts.group_of(branch.a)))) continue;
    const std::optional<WalkSpan>& side = lumps.side_of_bridge(id);
    if (!side) continue;
    const std::size_t lump = lumps.group_of(branch.a);
    const WalkSpan ports = network.ports_in(*side);
    const FaultFlow one = search.into_side({lump, ports, true}, question);
    const FaultFlow other = one.most > 0 ? search.into_side({lump, ports, false}, question) : FaultFlow{};
    found[id] = other.most < one.most ? other : one;
  }
  return found;
}

}  // namespace loomleaf
