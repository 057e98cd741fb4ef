#include "case_list.h"

#include <algorithm>
#include <map>

namespace loomleaf {

namespace {

const Load& load_at(const Plan& plan, const Circuit& circuit, std::size_t position) {
  return *plan.items[circuit.loads[position].item].as<Load>();
}

}  // namespace

std::vector<CaseSetup> list_cases(const Plan& plan, const Circuit& circuit, const WiredNetwork& network,
                                  const std::vector<FinalCircuit>& circuits, std::size_t ways,
                                  const std::string& ways_text) {
  const std::string suffix = ways_text.empty() ? "" : ' ' + ways_text;
  std::map<ItemId, std::size_t> position_of;
  for (std::size_t i = 0; i < circuit.loads.size(); ++i) position_of[circuit.loads[i].item] = i;

  std::vector<CaseSetup> cases(1);
  cases.back().at = {Case::Kind::load, ways, std::nullopt, "load" + suffix};
  if (network.anything_charges()) {
    cases.emplace_back();
    cases.back().at = {Case::Kind::charge, ways, std::nullopt, "charge" + suffix};
  }
  for (const FinalCircuit& final_circuit : circuits) {
    CaseSetup setup;
    for (const ItemId item : final_circuit.loads) {
      const std::size_t i = position_of.at(item);
      const Load& load = load_at(plan, circuit, i);
      if (load.kind != Load::Kind::starter && load.use_share < 1.0 && network.supply_of_load(i))
        setup.in_full.push_back(i);
    }
    if (setup.in_full.empty()) continue;
    const std::string name = "load " + plan.items[final_circuit.device].id + " full" + suffix;
    setup.at = {Case::Kind::full, ways, final_circuit.device, name};
    setup.circuit = &final_circuit;
    cases.push_back(std::move(setup));
  }
  for (std::size_t i = 0; i < circuit.loads.size(); ++i) {
    if (load_at(plan, circuit, i).kind != Load::Kind::starter || !network.supply_of_load(i)) continue;
    const ItemId item = circuit.loads[i].item;
    cases.emplace_back();
    cases.back().at = {Case::Kind::starter, ways, item, "starter " + plan.items[item].id + suffix};
    cases.back().alone = i;
  }
  return cases;
}

std::vector<std::size_t> islands_of(const FinalCircuit& final_circuit, const Circuit& circuit,
                                    const WiredNetwork& network) {
  std::vector<std::size_t> islands;
  for (const BranchId branch : final_circuit.branches) islands.push_back(network.island_of(circuit.branches[branch].a));
  std::ranges::sort(islands);
  islands.erase(std::unique(islands.begin(), islands.end()), islands.end());
  return islands;
}

std::vector<CaseBatch> in_batches(const std::vector<CaseSetup>& cases, const Circuit& circuit,
                                  const WiredNetwork& network) {
  std::vector<CaseBatch> single, shared;
  std::map<std::size_t, std::size_t> taken;  // by island: so many batches have a circuit in it
  for (const CaseSetup& setup : cases) {
    if (!setup.circuit) {
      single.push_back({&setup});
      continue;
    }
    std::size_t at = 0;
    const std::vector<std::size_t> islands = islands_of(*setup.circuit, circuit, network);
    for (const std::size_t island : islands) at = std::max(at, taken[island]);
    for (const std::size_t island : islands) taken[island] = at + 1;
    if (at == shared.size()) shared.emplace_back();
    shared[at].push_back(&setup);
  }
  single.insert(single.end(), shared.begin(), shared.end());
  return single;
}

std::vector<double> shares_at_use(const Plan& plan, const Circuit& circuit) {
  std::vector<double> shares;
  for (std::size_t i = 0; i < circuit.loads.size(); ++i) {
    const Load& load = load_at(plan, circuit, i);
    shares.push_back(load.kind == Load::Kind::starter ? 0.0 : load.use_share);
  }
  return shares;
}

CaseDemands demands_in(const CaseBatch& batch, const std::vector<double>& at_use) {
  const CaseSetup& first = *batch.front();
  CaseDemands demands;
  demands.charging = first.at.kind == Case::Kind::charge;
  if (demands.charging || first.alone)
    demands.load_share.assign(at_use.size(), 0.0);
  else
    demands.load_share = at_use;
  if (first.alone) demands.load_share[*first.alone] = 1.0;
  for (const CaseSetup* setup : batch)
    for (const std::size_t i : setup->in_full) demands.load_share[i] = 1.0;
  return demands;
}

}  // namespace loomleaf
