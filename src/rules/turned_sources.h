// Which sources of a ring lie the wrong way round.
#pragma once

#include <map>
#include <utility>
#include <vector>

#include "loomleaf/rules/rule.h"

namespace loomleaf {

// Sources that drive each other in a ring, the + of each to the - of the next, are told apart by what lies the same way
// as they do: the fewer are to be turned. Of as many on both sides it is the chargers and the like before the
// batteries, then the later ones in the plan.
class TurnedSources {
 public:
  TurnedSources(const Checked& checked, const Sides& sides);

  // The sources (and converters' outputs) to turn, in the plan's order. None where the short is no ring of sources, or
  // where it may as well be a bank in series of which the ends are joined.
  std::vector<ItemId> to_turn(const DeadShort& dead) const;

 private:
  using Across = std::pair<PartId, PartId>;  // of + and of -
  // What lies across two parts the same way round.
  struct Group {
    std::vector<ItemId> sources;
    std::size_t consumers = 0;
    bool any_battery = false;
    std::size_t count() const { return sources.size() + consumers; }
  };
  void add_source(ItemId item, NodeId plus, NodeId minus, bool is_battery);
  void add_consumer(NodeId plus, NodeId minus);
  bool may_be_in_series(ItemId source) const;

  const Checked& checked_;
  const Sides& sides_;
  std::map<Across, Group> groups_;
  std::map<ItemId, Across> across_;  // of each source
};

}  // namespace loomleaf
