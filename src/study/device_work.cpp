#include "device_work.h"

#include <algorithm>
#include <cmath>

#include "loomleaf/study/fuse_curve.h"

namespace loomleaf {

namespace {

constexpr double clearly = 1.0 + 1e-9;  // less is the rounding of the solution

}  // namespace

DeviceWork::DeviceWork(const Plan& plan, const Circuit& circuit, const Stock& stock, const Rulebook& rulebook,
                       const std::vector<FinalCircuit>& circuits, WorkingPoints& points)
    : plan_(plan), circuit_(circuit), continuous_factor_(rulebook.continuous_factor.value), points_(points) {
  points.continuous = IndexedList<ItemOf, std::optional<Worst<Current>>>(plan.items.size());
  points.surges = IndexedList<ItemOf, std::vector<ItemId>>(plan.items.size());
  std::map<ItemId, const FinalCircuit*> circuit_of;
  for (const FinalCircuit& final_circuit : circuits) circuit_of[final_circuit.device] = &final_circuit;
  for (const BranchId id : circuit.branches.ids()) {
    const Branch& branch = circuit.branches[id];
    if (branch.kind != BranchKind::device) continue;
    const Device* device = plan.items[*branch.item].as<Device>();
    const Protector protector{id, *branch.item, device, stock.find_family(device->family)};
    const auto found = circuit_of.find(*branch.item);
    if (found == circuit_of.end()) {
      further_.push_back(protector);
      continue;
    }
    for (const ItemId load : found->second->loads) final_of_load_[load].push_back(final_.size());
    position_in_final_[*branch.item] = final_.size();
    final_.push_back(protector);
  }
  for (std::size_t i = 0; i < circuit.loads.size(); ++i) {
    const Load& load = load_at(i);
    const double hours_a_day = load.hours_a_day.value_or(0.0);
    is_continuous_.push_back(load.continuous || hours(hours_a_day) >= rulebook.continuous_from.value);
    if (!load.surge) continue;
    surging_.push_back(i);
    if (const auto found = final_of_load_.find(circuit.loads[i].item); found != final_of_load_.end())
      for (const std::size_t protector : found->second) surging_on_[final_[protector].item].push_back(i);
  }
}

void DeviceWork::take(const CaseBatch& batch, const CaseDemands& demands, const NetworkSolution& solved,
                      WiredNetwork& network) {
  take_continuous(batch, demands, solved, network);
  ByIsland further;
  for (const CaseSetup* setup : batch) {
    if (!setup->circuit) {
      for (const Protector& protector : further_)
        further[network.island_of(circuit_.branches[protector.branch].a)].push_back(&protector);
      for (const std::size_t load : surging_) take_surge(load, *setup, further, demands, solved, network);
    } else if (const auto own = surging_on_.find(setup->circuit->device); own != surging_on_.end()) {
      for (const std::size_t load : own->second) take_surge(load, *setup, further, demands, solved, network);
    }
  }
}

void DeviceWork::take_continuous(const CaseBatch& batch, const CaseDemands& demands, const NetworkSolution& solved,
                                 WiredNetwork& network) {
  WiredNetwork::CurrentFactors factors;
  factors.load.assign(circuit_.loads.size(), 1.0);
  bool any = demands.converters_charge;            // and where sources charge, converters do
  if (any) factors.charging = continuous_factor_;  // charging lasts
  for (std::size_t i = 0; i < circuit_.loads.size(); ++i)
    if (is_continuous_[i] && demands.load_share[i] > 0.0 && network.supply_of_load(i)) {
      factors.load[i] = continuous_factor_;
      any = true;
    }
  const NetworkSolution raised = any ? network.solve_currents(solved, factors) : NetworkSolution{};
  const auto take = [&](const Protector& protector, const CaseSetup& setup) {
    const double ampere = std::fabs(network.branch_ampere(any ? raised : solved, protector.branch));
    auto& worst = points_.continuous[protector.item];
    if (!std::isfinite(ampere) || (worst && ampere <= worst->value.in(amperes)*clearly)) return;
    worst = Worst<Current>{amperes(ampere), setup.number};
  };
  for (const CaseSetup* setup : batch) {
    if (setup->circuit) {
      take(final_[position_in_final_.at(setup->circuit->device)], *setup);
      continue;
    }
    for (const auto* list : {&final_, &further_})
      for (const Protector& protector : *list) take(protector, *setup);
  }
}

bool DeviceWork::opens(const Protector& protector, double ampere, Duration lasting) const {
  const auto& rating = protector.device->rating;
  if (!rating || !std::isfinite(ampere)) return false;
  const Current current = amperes(std::fabs(ampere));
  const auto rides = protector.family ? rides_through(*protector.family, *rating, current, lasting) : std::nullopt;
  return !rides.value_or(current.in(amperes) <= rating->in(amperes)*clearly);
}

// A final device where it is the load's own; any other that lies in the same network. In full, the circuit's own alone.
std::vector<const DeviceWork::Protector*> DeviceWork::on_the_way_to(std::size_t load, const CaseSetup& setup,
                                                                    const ByIsland& further,
                                                                    const WiredNetwork& network) const {
  std::vector<const Protector*> protectors;
  const auto own = final_of_load_.find(circuit_.loads[load].item);
  if (own != final_of_load_.end())
    for (const std::size_t i : own->second)
      if (!setup.circuit || final_[i].item == setup.circuit->device) protectors.push_back(&final_[i]);
  if (const auto found = further.find(network.island_of(circuit_.loads[load].plus)); found != further.end())
    protectors.insert(protectors.end(), found->second.begin(), found->second.end());
  return protectors;
}

void DeviceWork::take_surge(std::size_t load, const CaseSetup& setup, const ByIsland& further,
                            const CaseDemands& demands, const NetworkSolution& solved, WiredNetwork& network) {
  if (demands.load_share[load] <= 0.0 || !network.supply_of_load(load)) return;
  const Surge surge = *load_at(load).surge;
  std::vector<const Protector*> protectors = on_the_way_to(load, setup, further, network);
  // No device sees more of a surge than the surge itself: most need no closer look.
  const double more = (surge.times - 1.0) * std::fabs(network.load_ampere(solved, load));
  std::erase_if(protectors, [&](const Protector* protector) {
    const double ampere = std::fabs(network.branch_ampere(solved, protector->branch)) + more;
    return !opens(*protector, ampere, surge.lasting);
  });
  if (protectors.empty()) return;
  WiredNetwork::CurrentFactors factors;
  factors.load.assign(circuit_.loads.size(), 1.0);
  factors.load[load] = surge.times;
  const NetworkSolution surged = network.solve_currents(solved, factors);
  for (const Protector* protector : protectors) {
    const double ampere = network.branch_ampere(surged, protector->branch);
    if (!opens(*protector, ampere, surge.lasting)) continue;
    // What was as much before is another matter.
    if (std::fabs(ampere) <= std::fabs(network.branch_ampere(solved, protector->branch)) * clearly) continue;
    std::vector<ItemId>& loads = points_.surges[protector->item];
    const ItemId item = circuit_.loads[load].item;
    if (std::find(loads.begin(), loads.end(), item) == loads.end()) loads.push_back(item);
  }
}

}  // namespace loomleaf
