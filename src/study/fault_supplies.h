// What feeds a short circuit in one standing of the changeovers.
#pragma once

#include <optional>
#include <vector>

#include "bridge_forest.h"
#include "fault_solver.h"
#include "loomleaf/circuit/circuit.h"
#include "loomleaf/study/branch_resistance.h"
#include "loomleaf/study/sides.h"
#include "loomleaf/study/supply_state.h"
#include "loomleaf/study/ways.h"

namespace loomleaf {

// The resistance behind a battery's terminals, for faults.
std::optional<Resistance> internal_resistance(const Source& battery);

// What can feed a short from one part of the network.
struct FeedOfPart {
  bool battery = false;
  bool unknown = false;  // a battery of unknown short circuit
  double limit_A = 0.0;  // of all limited sources and converters together
  bool feeds() const { return battery || limit_A > 0.0; }
};

class FaultSupplies {
 public:
  FaultSupplies(const Plan& plan, const Circuit& circuit, const Ways& ways, const Sides& sides,
                const BranchResistances& resistances);

  // A voltage behind a resistance, between two nodes.
  struct Held {
    NodeId plus, minus;
    double low_V = 0.0, nominal_V = 0.0, siemens = 0.0;
    double limit_A = 0.0;        // of a limited source or a converter: it gives no more; 0: a battery
    bool meets_battery = false;  // through conductors and other sources, from its +

    // At the low voltage; of one that is held down by its limit alone, beside a battery, what gives no more than that.
    double low_siemens() const { return meets_battery && limit_A > 0.0 ? limit_A / low_V : siemens; }
  };
  const std::vector<Held>& held() const { return held_; }
  struct Pushing {
    NodeId plus, minus;
    double ampere = 0.0;
  };
  const std::vector<Pushing>& pushing() const { return pushing_; }

  const FeedOfPart& feed_of(NodeId node) const { return feeds_[sides_.part_of[node]]; }  // from + that lie there
  const FeedOfPart& back_of(NodeId node) const { return backs_[sides_.part_of[node]]; }  // from - that lie there
  // From the supplies that stand across these two; where none does, like feed_of.
  FeedOfPart feed_across(NodeId plus, NodeId minus) const;
  const std::vector<ItemId>& unknown_batteries() const { return unknown_batteries_; }

  // What it may give into a short at its terminals, at the low voltage: 0 where that is not known.
  double gives(const Supply& supply) const;

  // Neither a dead short nor a clash of voltages lies there.
  bool is_sound(NodeId node) const;
  bool is_feed(NodeId node) const { return sides_.is_feed(node) && is_sound(node); }
  bool is_return(NodeId node) const { return sides_.is_return(node) && !sides_.is_feed(node) && is_sound(node); }
  bool passes(BranchId branch) const { return passes_[branch.value]; }
  const std::vector<bool>& passing() const { return passes_; }
  double siemens(BranchId branch) const { return siemens_[branch]; }
  const SupplyState& state() const { return state_; }
  const Sides& sides() const { return sides_; }

  // Whether, seen from this node, a supply lies beyond a branch that passes.
  bool leads_to_supply(BranchId branch, NodeId from) const;

  // + and - of the supplies that shorts are fed from: batteries, and others where there is none.
  const std::vector<NodeId>& pluses() const { return pluses_; }
  const std::vector<NodeId>& minuses() const { return minuses_; }

 private:
  void take_sources(const Plan& plan, const Circuit& circuit);
  void take_converters(const Plan& plan, const Circuit& circuit);
  void sum_up(const Plan& plan);
  void mark_what_meets_batteries();
  void count_supplies();

  const Plan& plan_;
  const Circuit& circuit_;
  const Sides& sides_;
  SupplyState state_;
  std::vector<bool> passes_;
  IndexedList<BranchOf, double> siemens_;
  std::vector<Held> held_;
  std::vector<Pushing> pushing_;
  IndexedList<PartOf, FeedOfPart> feeds_, backs_;
  std::vector<ItemId> unknown_batteries_;
  std::vector<NodeId> pluses_, minuses_;
  std::optional<BridgeForest> forest_;
  std::vector<std::size_t> supplies_before_;  // by position in the forest's walk
};

}  // namespace loomleaf
