// The greatest current that a device may have to break, in one standing of the changeovers.
#pragma once

#include "fault_supplies.h"
#include "loomleaf/study/short_circuit.h"
#include "short_places.h"

namespace loomleaf {

class ProspectiveFinder {
 public:
  ProspectiveFinder(const Circuit& circuit, const FaultSupplies& supplies, const ShortPlaces& places);

  // Nothing where nothing feeds it, or it is not known how much.
  std::optional<ProspectiveShort> at(BranchId device);

 private:
  // A network with its voltages while nothing is shorted.
  struct Network {
    std::vector<std::size_t> vertex_of;  // by node
    FaultSolver solver;
    std::vector<double> volt;
    std::size_t at(NodeId node) const { return vertex_of[node.value]; }
  };
  Network wire(bool zero_ohm_return) const;
  // What a link without resistance in the place of a device carries from a to b while `from` and `to` are shorted.
  static double through(Network& network, std::size_t a, std::size_t b, std::size_t from, std::size_t to);
  std::vector<ItemId> before(BranchId device, NodeId side, const ShortestWays& ways) const;
  std::optional<ProspectiveShort> in_feed(BranchId device);
  std::optional<ProspectiveShort> in_return(BranchId device);

  const Circuit& circuit_;
  const FaultSupplies& supplies_;
  const ShortPlaces& places_;
  std::optional<Network> feed_, back_;  // wired when first asked for
};

}  // namespace loomleaf
