// What flows in a short circuit, how soon a device ends it, and whether the conductors bear it until then.
//
// A battery's stated `short-circuit` A is an internal resistance of its nominal V / A, for faults alone. Where a battery
// feeds a fault that has neither that nor an internal resistance stated, nothing is known of the fault.
#pragma once

#include <optional>
#include <vector>

#include "loomleaf/circuit/circuit.h"
#include "loomleaf/study/branch_resistance.h"
#include "loomleaf/study/conductor_figures.h"
#include "loomleaf/study/protection.h"
#include "loomleaf/study/sides.h"
#include "loomleaf/study/ways.h"

namespace loomleaf {

// The worst case for breaking: a bolted short at one side of a device, which is taken as a link without resistance, all of
// the return as zero ohm (for a device in the return: all of the feed), batteries at their nominal voltage; what limited
// sources and converters may give comes on top. The worse of its two sides.
struct ProspectiveShort {
  Current current{};
  bool from_battery = false;         // else what limited sources give is all there is
  std::vector<ItemId> before;        // devices on every way from the batteries to it, the nearest first
  std::size_t ways = 0;
};

// The worst case for clearing: a short at the conductor's far end to the real way back, at the low voltage, limited
// sources off where a battery feeds it. A conductor that ends at what uses current is shorted across that, a core of a
// cable to the core beside it, any other to where the ways back of all that hangs beyond it meet, though no farther
// along them than the feed has come, nor, short of a device there, nearer to what uses current than the feed's end is;
// ways back that meet nowhere end at the battery that feeds the conductor. Where nothing hangs beyond, the way back
// counts like the way out. Of a return the same holds the other way round; but where the feed of all that hangs beyond
// parts long before its end, it is judged in the shorts of those feeds alone.
struct FarShort {
  Current current{};
  std::optional<Duration> clears;    // absent: perhaps never, or not known, or no device lies on the way
  std::size_t ways = 0;
  bool in_stages = false;            // less of it flows once the first device has opened
};

// A short that is not ended in time. What the rulebook tolerates on its way to a device is not judged by a device
// before it. Where supplies are cut off one after the other, the heat of each stage counts. Of places, devices and ways
// that are alike in it all are told, of very many the first fifty; each list is in the plan's order.
//
// A chafed wire may also touch metalwork that is bonded to a supply's -: of each device the electrically farthest end
// behind it, against each piece. Only the leads of the metalwork are judged by that: IEC 60364-5-54 543.1 (from memory)
// sizes a protective conductor so.
struct LastingShort {
  ConductorId subject;                // that suffers most; what is shorted itself where none suffers
  std::vector<ConductorId> shorted;   // such a short is at the far end of any of these: of the subject alone where of it
  std::vector<TerminalId> at;         // there
  std::optional<ItemId> metal;        // what is shorted touches this metalwork, and the subject is a lead of that
  std::vector<ItemId> devices;        // that end it
  std::vector<std::size_t> ways;
  bool overheats = false;             // else it merely lasts for more than five seconds
  Current current{};                  // in the subject; in stages, the steady current of the same heat
  Current device_current{};           // in each device
  std::optional<Duration> opens;      // no later than this; absent: perhaps never
  std::optional<Duration> bears;      // how long the subject bears it; absent where it carries so much for ever
  bool in_stages = false;             // other devices have opened before those
};

struct ShortCircuits {
  // One for each standing of the changeovers in which something feeds the device, the greatest first. Empty: not a device,
  // not known, or nothing feeds it.
  IndexedList<ItemOf, std::vector<ProspectiveShort>> devices;
  IndexedList<ConductorOf, std::optional<FarShort>> conductors;
  std::vector<LastingShort> lasting;      // the worst of each subject, in the plan's order
  std::vector<ItemId> batteries_unknown;  // feed something and say nothing of their short circuit; in the plan's order
  std::vector<ItemId> curves_unknown;     // devices that may end a short in time, or not: no curve says
};

inline constexpr Duration longest_short = seconds(5);  // the adiabatic formula holds up to here (BS 7671 434.5.2)

ShortCircuits study_short_circuits(const Plan& plan, const Circuit& circuit, const Stock& stock,
                                   const IndexedList<ConductorOf, ConductorFigures>& conductors,
                                   const Protection& protection, const std::vector<Ways>& ways,
                                   const std::vector<Sides>& sides);

}  // namespace loomleaf
