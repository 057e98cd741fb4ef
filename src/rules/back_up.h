// Whether a device that cannot break a fault itself has others before it that do.
#pragma once

#include <map>
#include <vector>

#include "loomleaf/rules/rule.h"

namespace loomleaf {

// The devices that count as back-up of another.
enum class BacksUp {
  breaks,  // all that can break its fault current
  limits,  // of these, the ones that cut it short before its peak
};

class BackUp {
 public:
  explicit BackUp(const Checked& checked);

  // Whether every way from a battery's terminals to the device leads through such a device, in this standing of the
  // changeovers. One for each battery will do: each then ends what its own battery gives. Held to be able to break the
  // whole current, as if it came from that battery alone.
  bool stands_before(BranchId device, Current fault, std::size_t ways, BacksUp kind);

 private:
  using Reached = IndexedList<NodeOf, bool>;

  struct Breaker {
    BranchId branch;
    Current breaks{};
    bool limits = false;
  };

  // What the batteries reach without passing one of the first `count` of `by_strength_`.
  const Reached& reached(std::size_t count, std::size_t ways, BacksUp kind);

  const Checked& checked_;
  std::vector<Breaker> by_strength_;  // the strongest first
  std::map<std::tuple<std::size_t, std::size_t, BacksUp>, Reached> reached_;
};

}  // namespace loomleaf
