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
};

class CountedSuppliesFinder {
 public:
  explicit CountedSuppliesFinder(const FaultNetwork& network);
  CountedSuppliesFinder(const CountedSuppliesFinder&) = delete;
  CountedSuppliesFinder& operator=(const CountedSuppliesFinder&) = delete;

  // Those whose - is reached from the other end than `end` without this branch and those beside it, by their number in
  // `at`; nothing where there is none. `may_come_back`: what flows beyond the branch may come round to its end.
  std::optional<std::size_t> find(BranchId branch, NodeId end, bool may_come_back);
  const CountedSupplies& at(std::size_t number) const { return found_[number]; }

 private:
  std::size_t position(std::size_t supply) const { return network_.parts().position(network_.supply_minus(supply)); }
  WalkSpan places_in(const WalkSpan& nodes) const;
  CountedSupplies count(const WalkSpan& within, const WalkSpan& out_of, bool may_come_back) const;

  const FaultNetwork& network_;
  std::vector<std::size_t> order_;  // supplies by where their - stands in the parts' walk
  Places of_supply_, of_bank_;      // in that order: where it and what it stands on have their -
  Places own_of_bank_;              // where its batteries have theirs
  std::vector<CountedSupplies> found_;
  std::map<std::array<std::size_t, 5>, std::optional<std::size_t>> number_of_;
};

}  // namespace loomleaf
