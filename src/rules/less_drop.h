// The least copper that brings a load's drop down.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "loomleaf/rules/rule.h"

namespace loomleaf {

// One way from every node to a supply's + and to a supply's -, in one standing of the changeovers.
class WaysHome {
 public:
  WaysHome(const Checked& checked, std::size_t ways);
  // Branches from the load to the supply's +, then from it to the supply's -; longer ones are cut off after `most`.
  std::vector<BranchId> of_load(NodeId plus, NodeId minus, std::size_t most) const;

 private:
  using Steps = IndexedList<NodeOf, std::optional<BranchId>>;
  Steps spread(const std::vector<NodeId>& roots, const Ways& ways) const;
  void follow(const Steps& steps, NodeId node, std::size_t most, std::vector<BranchId>& way) const;

  const Circuit& circuit_;
  Steps to_plus_, to_minus_;
};

// Works out cures for many loads, each standing of the changeovers once.
class DropCures {
 public:
  explicit DropCures(const Checked& checked) : checked_(checked) {}
  // "make W3 12 AWG", enough to bring the drop of this load (by position in circuit.loads) from `drop` to `limit`.
  std::string text(std::size_t load, std::size_t in_case, Voltage drop, Voltage limit);

 private:
  const Checked& checked_;
  std::map<std::size_t, WaysHome> by_ways_;
};

}  // namespace loomleaf
