// What flows through metalwork itself, and not only past it.
#pragma once

#include <map>
#include <vector>

#include "loomleaf/study/working_point.h"

namespace loomleaf {

// Whatever is joined to a chassis brings a current in or takes one out: each conductor by itself, and each item `on` it
// with all that is joined by way of that. A wire that ends at the - of a battery which sits on metalwork brings its
// current to the battery, and the metal is at rest.
class Metalwork {
 public:
  Metalwork(const Plan& plan, const Circuit& circuit);

  // Half the sum of the magnitudes of what comes in, in amperes.
  double ampere_through(ItemId chassis, const Solution& solution) const;

 private:
  enum class Carrier { branch, load, source, coil, converter_input, converter_output };
  struct Inflow {
    Carrier carrier;
    std::size_t position;
    double sign;        // of the carrier's current where it flows into the metalwork's node
    std::size_t joint;  // what it comes in by; the list is in their order
  };
  struct Metal {
    ItemId item;
    TerminalId terminal;
    std::map<TerminalId, std::size_t> joint_of;  // of the node's other terminals
    std::size_t joints = 0;
    std::vector<Inflow> inflows;
  };
  void list_joints(Metal& metal, const Node& node) const;
  void add(TerminalId terminal, Carrier carrier, std::size_t position, double sign);
  void add(const Item& item, TerminalRole role, Carrier carrier, std::size_t position, double sign);
  double ampere(const Inflow& inflow, const Solution& solution) const;

  const Plan& plan_;
  const Circuit& circuit_;
  std::vector<Metal> metals_;
  std::map<NodeId, std::vector<std::size_t>> at_;  // positions in metals_
  std::map<ItemId, std::size_t> position_of_;
};

}  // namespace loomleaf
