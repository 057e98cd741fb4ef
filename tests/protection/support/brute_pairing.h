// What a return bears of the feed it pairs with, straight from the definition: take each branch away and see what is
// cut off.
#pragma once

#include <set>
#include <vector>

#include "protection/support/brute_force.h"

namespace loomleaf::test {

class BrutePairing {
 public:
  BrutePairing(const Plan& plan, const Circuit& circuit, const BruteForce& brute);
  BruteFlow of(ConductorId conductor) const;  // 0 A where it pairs with none

 private:
  using Nodes = std::set<std::size_t>;
  struct Cut {
    BranchId branch;
    Nodes off;                    // what is cut off without it
    NodeId near, far;             // its end at the supplies, and the other
    std::set<std::size_t> loads;  // of which the + or the - is cut off
  };
  struct Side {
    Nodes poles;
    std::vector<Cut> cuts;
  };
  struct Origin {
    bool batteries_alone = false;
    Side feed, back;
  };

  Side side_of(const Nodes& poles, bool is_feed) const;
  bool has_bar(const Side& side, NodeId in_piece) const;
  std::size_t bars_before(const Side& side, const Cut& cut) const;
  bool has_bar_between(const Side& back, const Cut& at, const std::set<std::size_t>& loads) const;
  bool is_behind_one_device(const Side& feed, const Cut& cut) const;
  bool is_before_one_device(const Side& back, const Cut& at, const std::set<std::size_t>& loads) const;
  long long rating_of(BranchId branch) const;
  BruteFlow of(BranchId branch, const Origin& origin) const;

  const Plan& plan_;
  const Circuit& circuit_;
  const BruteForce& brute_;
  std::vector<std::pair<std::size_t, std::size_t>> loads_;
  std::vector<Origin> origins_;
};

}  // namespace loomleaf::test
