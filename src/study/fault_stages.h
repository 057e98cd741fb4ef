// Short circuits that several supplies feed: their devices open one after the other, and each time what is left flows
// on.
#pragma once

#include <map>
#include <vector>

#include "fault_loop.h"

namespace loomleaf {

class StageFinder {
 public:
  StageFinder(const Plan& plan, const Circuit& circuit, const Stock& stock, const FaultSupplies& supplies,
              const IndexedList<ConductorOf, ConductorFigures>& figures);

  // All at once: each way is taken to carry its first share until the last device opens.
  std::optional<FaultLoop> find(const ShortPlace& place, const std::vector<ShortedEnd>& shorted) {
    return whole_.find(place, shorted);
  }

  // The same with the devices opening in turn, each by the upper limit of its curve at what it carries by then, as if
  // it were cold. A conductor's heat is the sum of I^2 t over the stages in which it carries more than it may for ever;
  // it is told as the steady current of that heat over the time of these stages. Where the device that ends it all
  // never carries less than at first, nothing lasts longer than all at once. All at once stands where a curve is not
  // known.
  FaultLoop in_stages(const FaultLoop& at_once, const ShortPlace& place, const std::vector<ShortedEnd>& shorted);

 private:
  static bool opens_at_once(const FaultLoop& stage);
  LoopFinder* without(const std::vector<BranchId>& opened);
  FaultLoop added_up(const std::vector<FaultLoop>& stages, const Cut& cut, bool carries_no_less) const;
  bool carries_for_ever(const LoopPiece& piece) const;

  const Plan& plan_;
  const Circuit& circuit_;
  const Stock& stock_;
  const FaultSupplies& supplies_;
  const IndexedList<ConductorOf, ConductorFigures>& figures_;
  LoopFinder whole_;
  std::map<std::vector<BranchId>, LoopFinder> later_;  // by what has opened
  std::size_t made_ = 0;
};

}  // namespace loomleaf
