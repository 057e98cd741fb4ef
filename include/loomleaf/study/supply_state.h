// Which supplies hold their voltage and which push their limit into a battery, in one standing of the changeovers.
#pragma once

#include <map>
#include <optional>
#include <utility>
#include <vector>

#include "loomleaf/circuit/circuit.h"
#include "loomleaf/study/sides.h"

namespace loomleaf {

// What supplies that hold their voltage stand at, where they are joined + to + and - to -: at the lowest `low` among
// them, or at the highest `high`, nominal where none is given. At the highest a battery rises to what charges it; one
// in a chain does not, for its charger does not tell how the chain shares out.
enum class SupplyLevel { lowest, highest };

enum class SupplyRole {
  dead,     // a converter with nothing at its input
  holds,    // its voltage stands at its terminals in every case
  charges,  // off in the load cases; where it charges it pushes its limit into the battery that it meets
};

// A source, or a converter's output.
struct SupplyWork {
  SupplyRole role = SupplyRole::dead;
  Voltage volt{};   // holds: at its terminals
  Current limit{};  // charges
};

class SupplyState {
 public:
  SupplyState(const Plan& plan, const Circuit& circuit, const Sides& sides, SupplyLevel level = SupplyLevel::lowest);

  const SupplyWork& source(std::size_t position) const { return sources_[position]; }        // in circuit.sources
  const SupplyWork& converter(std::size_t position) const { return converters_[position]; }  // in circuit.converters

  // What stands across two nodes: the first live supply there and the voltage that all supplies joined there stand at.
  struct Across {
    SupplyId supply;
    Voltage volt{};
    Voltage lowest{};  // the same at the lowest level
  };
  std::optional<Across> across(NodeId plus, NodeId minus) const;
  // What stands across something that is not polarised, whichever way round; 0 where nothing does.
  Voltage volt_between(const TwoPole& ends) const;

 private:
  using Pair = std::pair<PartId, PartId>;  // of + and -
  // Supplies joined + to + and - to -.
  struct Joined {
    std::vector<SupplyId> supplies;
    bool has_battery = false;
    Voltage volt{}, lowest{};  // of those that hold
    bool live = false;
  };
  bool holds(const Joined& joined, SupplyId supply) const;
  void join_supplies();
  void wake(const Circuit& circuit);
  void give_roles_to_sources(const Plan& plan, const Circuit& circuit);
  void give_roles_to_converters(const Plan& plan, const Circuit& circuit);

  const Sides& sides_;
  SupplyLevel level_;
  std::map<Pair, Joined> joined_;
  std::vector<SupplyWork> sources_, converters_;
};

}  // namespace loomleaf
