// The way of fault currents in one standing of the changeovers, with everything that conducts without limit drawn
// together: what remains are lumps of nodes, joined by devices and by shorted loads and fed by supplies.
#pragma once

#include <cstdint>
#include <limits>
#include <optional>
#include <vector>

#include "bridge_forest.h"
#include "loomleaf/circuit/circuit.h"
#include "loomleaf/study/sides.h"

namespace loomleaf {

// Whole microamperes, so that sums and cuts are exact.
using Microamperes = std::int64_t;
inline constexpr Microamperes kUnlimited = std::numeric_limits<Microamperes>::max() / 2;
Microamperes to_microamperes(std::optional<Current> limit);  // absent: unlimited
Current to_current(Microamperes flow);

// Where a device, a supply's + or a shorted load is joined to a lump. A battery is both a supply and a load: other
// banks may feed it.
struct Port {
  enum class Kind { device, supply, load_out, load_in };  // current leaves by a load's out and comes in by its in
  Kind kind = Kind::device;
  NodeId node;
  ItemId item;
  std::size_t mate = 0;             // the port at the other end of a device or load
  std::size_t supply = 0;           // a supply: its number (sources first, then converters, in the circuit's order)
  std::optional<std::size_t> bank;  // a battery, as supply or as load
  Microamperes most = 0;            // that can come into the lump here
  bool useless = false;             // no supply lies beyond: nothing ever comes in here
};

class FaultNetwork {
 public:
  FaultNetwork(const Plan& plan, const Circuit& circuit, const Ways& ways, const Sides& sides);

  const BridgeForest& lumps() const { return lumps_; }  // by what conducts without limit
  const BridgeForest& parts() const { return parts_; }  // by all that conducts
  bool conducts_freely(BranchId branch) const { return free_[branch.value]; }

  // Ports stand in the order of the lumps' walk, so that a lump's, and those beyond a bridge, are neighbours.
  const std::vector<Port>& ports() const { return ports_; }
  WalkSpan ports_in(const WalkSpan& nodes) const { return {first_port_[nodes.first], first_port_[nodes.last]}; }
  std::size_t lump_of_port(std::size_t port) const { return lumps_.group_of(ports_[port].node); }

  // Supplies that count for a return conductor when their own - is reached: by supply number.
  std::size_t supply_count() const { return supplies_.size(); }
  NodeId supply_minus(std::size_t supply) const { return supplies_[supply].minus; }
  // Batteries whose + meet through no device, or that stand in series, are one bank. Nothing for what is no battery.
  std::size_t bank_count() const { return bank_count_; }
  std::optional<std::size_t> bank_of(std::size_t supply) const { return supplies_[supply].bank; }
  // Adds what stands in series on top of these sources.
  void add_series(std::vector<std::size_t>& supplies) const;

 private:
  struct Pole {
    ItemId item;
    NodeId plus, minus;
    Microamperes most;
    bool is_source, is_battery;
    std::optional<std::size_t> bank;
  };

  void list_supplies(const Plan& plan, const Circuit& circuit);
  void form_banks();
  void add_devices(const Plan& plan, const Circuit& circuit);
  void add_loads(const Plan& plan, const Circuit& circuit, const Sides& sides);
  void add_load(ItemId item, NodeId feed, NodeId back, std::optional<std::size_t> bank = std::nullopt);
  void order_ports();
  void find_useless(const Sides& sides);

  std::vector<bool> free_;
  BridgeForest lumps_, parts_;
  std::vector<Pole> supplies_;
  std::vector<std::vector<std::size_t>> sources_on_;  // by part: the sources whose - lies there
  std::size_t bank_count_ = 0;
  std::vector<bool> unfused_;  // by lump: a battery reaches it through no device
  std::vector<Port> ports_;
  std::vector<std::size_t> first_port_;  // by position in the walk, and one past it
};

}  // namespace loomleaf
