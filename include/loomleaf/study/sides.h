// Supplies, and what their + and their - reach through conductors, devices and contacts in one standing of the changeovers.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "loomleaf/circuit/circuit.h"
#include "loomleaf/study/ways.h"

namespace loomleaf {

using SupplyId = Index<struct SupplyOf>;
using PartId = Index<struct PartOf>;

// A source, a series chain of sources (its first - to its last +), or a converter's output.
struct Supply {
  std::vector<ItemId> sources;           // one; for a chain in order from its - end; empty for a converter
  std::optional<ItemId> converter;
  NodeId plus, minus;
  Voltage low{}, nominal{}, high{};      // `low` is nominal where none is given; sums for a chain
  bool limited = false;                  // anything but batteries; a charging converter too
  std::optional<Current> limit;          // of a limited one or a converter; the least in a chain
  // Set for a piece of a chain (down to each of its sources), which what taps a bank in its middle hangs on. Pieces
  // stand behind all whole supplies. Whoever counts or holds supplies takes the whole ones alone.
  std::optional<SupplyId> piece_of;
};

struct DeadShort {
  SupplyId supply;                       // for sources that close on themselves in a ring: the ring as a chain
  std::vector<BranchId> way;             // the branches from its + to its -, one shortest way, in order
};

// Two supplies across the same two parts whose nominal voltages differ by more than a quarter of the lower.
struct VoltageClash {
  SupplyId a, b;                         // the lower and the higher
  std::vector<ItemId> turned;            // of their sources those that lie against the others and take from the sum
};

// What hangs together through conductors, devices and contacts.
struct Sides {
  IndexedList<SupplyOf, Supply> supplies;
  IndexedList<NodeOf, PartId> part_of;                   // nodes that conduct to each other are one part
  IndexedList<PartOf, std::vector<SupplyId>> plus_in;    // supplies whose + lies in a part
  IndexedList<PartOf, std::vector<SupplyId>> minus_in;
  IndexedList<PartOf, std::optional<SupplyId>> highest_in;  // of those with a pole there the one of highest `high`
  IndexedList<PartOf, bool> mid_chain;                   // one source of a chain hands on to the next here
  IndexedList<NodeOf, int> island_of;                    // parts joined by loads, sources, coils and converters
  std::vector<DeadShort> shorts;
  std::vector<VoltageClash> clashes;
  std::vector<bool> island_has_no_working_point;         // by island: a dead short or a clash lies in it

  bool is_feed(NodeId node) const { return !plus_in[part_of[node]].empty(); }
  bool is_return(NodeId node) const { return !minus_in[part_of[node]].empty() && !mid_chain[part_of[node]]; }
  // The supplies that stand across these two nodes, whole ones first; empty: none.
  std::vector<SupplyId> across(NodeId plus, NodeId minus) const;
};

// Which sides each node is on. The middle of a series chain counts as feed alone.
Sides find_sides(const Plan& plan, const Circuit& circuit, const Ways& ways);

}  // namespace loomleaf
