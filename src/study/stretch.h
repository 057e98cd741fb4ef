// Exposed conductors that meet, and the points where current comes into them.
#pragma once

#include <vector>

#include "loomleaf/circuit/circuit.h"
#include "loomleaf/study/sides.h"
#include "loomleaf/study/ways.h"

namespace loomleaf {

// What is joined at a node beside exposed conductors and the contacts between them.
struct JoinedThere {
  std::vector<ItemId> devices;
  std::vector<ItemId> starters;
  std::vector<ItemId> open;          // loads, converters' inputs, coils, tails, further terminals
  std::vector<ConductorId> further;  // conductors that are not exposed
  std::vector<ItemId> batteries;     // whose + is there
  bool post = false;                 // of a battery, + or -
  std::vector<ItemId> limited;       // limited sources whose + is there, converters by their output
  // A source's terminal or a converter's output; the + of a charger, solar controller or alternator.
  bool supply = false, charger = false;
  bool can_feed() const { return supply || !devices.empty() || !further.empty(); }
  bool nothing() const { return !can_feed() && starters.empty() && open.empty(); }
};

// Exposed feed conductors, with the contacts that carry feed between and beside them, every way closed.
class ExposedNetwork {
 public:
  ExposedNetwork(const Plan& plan, const Circuit& circuit, const IndexedList<ConductorOf, bool>& exposed,
                 const std::vector<Ways>& ways, const std::vector<Sides>& sides);

  const std::vector<BranchId>& at(NodeId node) const { return at_[node]; }
  const std::vector<NodeId>& nodes() const { return nodes_; }                // in order
  const JoinedThere& joined_at(NodeId node) const { return joined_[node]; }  // of one of `nodes`
  // Nothing goes on from here: a loose end, a bus that leads nowhere. A free way of a changeover in use is none.
  bool is_loose(NodeId node) const;

  // The stretches that meet at this node and nowhere else, each with the nodes it reaches.
  struct Stretch {
    std::vector<BranchId> branches;  // in order
    std::vector<NodeId> nodes;       // without the one it is fed at
  };
  std::vector<Stretch> stretches_at(NodeId node);

 private:
  JoinedThere find_joined(NodeId node) const;
  bool is_free_way(NodeId node) const;

  const Plan& plan_;
  const Circuit& circuit_;
  IndexedList<NodeOf, std::vector<BranchId>> at_;
  std::vector<bool> in_;  // by branch
  std::vector<NodeId> nodes_;
  IndexedList<NodeOf, JoinedThere> joined_;
  std::vector<bool> seen_branch_, seen_node_;  // false between calls
};

}  // namespace loomleaf
