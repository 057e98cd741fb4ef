// Which supplies count for the let-through of a return conductor, and which banks these may feed.
#pragma once

#include <array>
#include <map>
#include <optional>
#include <vector>

#include "fault_flow.h"
#include "fault_network.h"

namespace loomleaf {

struct CountedSupplies {
  SupplySet set;
  // Every choice of banks that the others feed though they count: they are loads then, and no supplies. None first.
  std::vector<std::vector<std::size_t>> fed;
  bool is_every_choice = true;  // else there are too many
};

class CountedSuppliesFinder {
 public:
  // `places`: where nodes stand, in the order that ranges are given in.
  CountedSuppliesFinder(const FaultNetwork& network, const IndexedList<NodeOf, std::size_t>& places);
  CountedSuppliesFinder(const CountedSuppliesFinder&) = delete;
  CountedSuppliesFinder& operator=(const CountedSuppliesFinder&) = delete;

  // Those whose own - lies in the range, by their number in `at`; nothing where there is none. `may_come_back`: what
  // one of their batteries is fed may be among what is asked for, so that any of their banks may be one that is.
  std::optional<std::size_t> find(const WalkRange& nodes, bool may_come_back);
  const CountedSupplies& at(std::size_t number) const { return found_[number]; }

 private:
  std::size_t position(std::size_t supply) const { return places_[network_.supply_minus(supply)]; }
  WalkSpan order_in(const WalkSpan& nodes) const;
  CountedSupplies count(const WalkRange& range, bool may_come_back) const;

  const FaultNetwork& network_;
  const IndexedList<NodeOf, std::size_t>& places_;
  std::vector<std::size_t> order_;  // supplies by where their - stands
  Places of_supply_, of_bank_;      // in that order: where it and what it stands on have their -
  Places own_of_bank_;              // where its batteries have theirs
  std::vector<CountedSupplies> found_;
  std::map<std::array<std::size_t, 5>, std::optional<std::size_t>> number_of_;
};

}  // namespace loomleaf
