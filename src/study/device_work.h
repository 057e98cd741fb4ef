// Whether devices bear normal work: what runs for long counted up, and surges on starting.
#pragma once

#include <map>
#include <vector>

#include "case_list.h"
#include "loomleaf/study/working_point.h"

namespace loomleaf {

class DeviceWork {
 public:
  DeviceWork(const Plan& plan, const Circuit& circuit, const Stock& stock, const Rulebook& rulebook,
             const std::vector<FinalCircuit>& circuits, WorkingPoints& points);

  // Takes the cases of one batch: `solved` is their solution.
  void take(const CaseBatch& batch, const CaseDemands& demands, const NetworkSolution& solved, WiredNetwork& network);

 private:
  struct Protector {
    BranchId branch;
    ItemId item;
    const Device* device;
    const FuseFamily* family;  // null: not known
  };
  using ByIsland = std::map<std::size_t, std::vector<const Protector*>>;
  void take_continuous(const CaseBatch& batch, const CaseDemands& demands, const NetworkSolution& solved,
                       WiredNetwork& network);
  // `further`: the devices that no final circuit has, by the island they lie in; none where a circuit is in full.
  void take_surge(std::size_t load, const CaseSetup& setup, const ByIsland& further, const CaseDemands& demands,
                  const NetworkSolution& solved, WiredNetwork& network);
  std::vector<const Protector*> on_the_way_to(std::size_t load, const CaseSetup& setup, const ByIsland& further,
                                              const WiredNetwork& network) const;
  // Where no curve tells, whatever is above its rating may open it.
  bool opens(const Protector& protector, double ampere, Duration lasting) const;
  const Load& load_at(std::size_t position) const { return *plan_.items[circuit_.loads[position].item].as<Load>(); }

  const Plan& plan_;
  const Circuit& circuit_;
  double continuous_factor_;
  WorkingPoints& points_;
  std::vector<Protector> final_, further_;                    // devices of final circuits; all others
  std::map<ItemId, std::vector<std::size_t>> final_of_load_;  // positions in final_
  std::map<ItemId, std::size_t> position_in_final_;
  std::vector<bool> is_continuous_;                        // loads, by position
  std::vector<std::size_t> surging_;                       // loads, by position
  std::map<ItemId, std::vector<std::size_t>> surging_on_;  // those of a final device
};

}  // namespace loomleaf
