// Whether a device that cannot break a fault itself has others before it that do.
#pragma once

#include <map>
#include <utility>
#include <vector>

#include "loomleaf/rules/rule.h"

namespace loomleaf {

// The devices that count as back-up of another.
enum class BacksUp {
  breaks,  // all that can break its fault current
  limits,  // of these, the ones that cut it short before its peak
};

// What a device is asked to break, in one standing of the changeovers, and what it can.
struct AskedToBreak {
  BranchId device;
  Current fault{}, breaks{};
  std::size_t ways = 0;
};

class BackUp {
 public:
  explicit BackUp(const Checked& checked) : checked_(checked) {}

  // Whether every way from a battery's terminals to the device leads through such a device. One for each battery will
  // do: each then ends what its own battery gives. Held to be able to break the whole current, as if it came from that
  // battery alone. What limited sources and converters give on ways without such a device must add up to no more than
  // the device itself can break.
  bool stands_before(const AskedToBreak& asked, BacksUp kind);

 private:
  // What comes in unhindered.
  struct Inflow {
    bool from_battery = false;
    double limited_A = 0.0;
  };
  // What hangs together through devices up to some strength, for every strength: sets joined the weakest device first,
  // the smaller to the larger, so that the way up from a node is short.
  struct Joined {
    IndexedList<NodeOf, NodeId> under;
    IndexedList<NodeOf, double> by_A;                                    // the strength that joined it there
    IndexedList<NodeOf, std::vector<std::pair<double, Inflow>>> inflow;  // of its set from that strength on
  };
  const Joined& joined(std::size_t ways, BacksUp kind);
  void take_supplies(Joined& joined) const;
  static Inflow inflow_at(const Joined& joined, NodeId node, double fault_A);

  const Checked& checked_;
  std::map<std::pair<std::size_t, BacksUp>, Joined> joined_;
};

}  // namespace loomleaf
