// Installations as a careful builder plans them: sized so that the plan has no DANGER, no WARNING and no CAUTION.
#pragma once

#include <string>
#include <vector>

#include "faults/support/sizing.h"
#include "faults/support/statements.h"

namespace loomleaf::test {

enum class CircuitKind {
  lamps_on_splices,  // a dimmer, a pair of splices, two chains of lamps; cables along legs
  lamps_in_a_chain,  // a switch and lamps one behind the other; single wires
  pump,              // a switch and a motor that surges; wires through a conduit
  two_way_lamp,      // two changeovers
  relay,             // a heavy load behind a relay, its coil behind a switch
  plug,              // two loads behind a connector
  converter,         // loads at another voltage
  charger,           // a limited source
  sockets,           // of which a share runs at once; a chain of cables
  heater,            // resistive and lasting, behind a breaker or fuse
  monitor,           // always on, with leads of its own and a signal wire
  ring,              // lamps on a ring of cable
  branches,          // a splice in the feed and one in the return, single wires
  spare,             // a fuse that waits, and a spare core ended in a tail
};
constexpr int circuit_kinds = 14;

// One final circuit, by the IDs of its statements.
struct SoundCircuit {
  CircuitKind kind = CircuitKind::spare;
  std::string device, plus, minus;    // its fuse or breaker, and the buses it hangs between
  double rating = 0.0, ampere = 0.0;  // A: its device's, and what flows in normal work
  int volt = 12;
  std::string size;                     // of its wires
  std::vector<std::string> feed, back;  // single wires in order from the device, and in order to the bus
  std::vector<std::string> cables, loads, contacts, splices, others;
  std::string leg, place;  // along which it runs and where it ends; empty: lengths are given
};

// A battery or a bank of them with what hangs on it.
struct SoundBank {
  int volt = 12;
  std::string plus, minus;  // terminals of the bank
  std::vector<std::string> batteries;
  std::string fuse, isolator, bus, return_bus;  // the main ones
  // Wires: plus to fuse, fuse to isolator, isolator to bus, return bus to shunt or minus, return bus to metalwork.
  std::string lead, to_isolator, to_bus, back, bond;
  double rating = 0.0, ampere = 0.0;
};

struct SoundPlan {
  std::string rulebook;  // "rv", "marine" or "metric"
  Statements statements;
  std::vector<SoundBank> banks;
  std::vector<SoundCircuit> circuits;

  std::string text() const { return statements.text(); }
};

// At least `conductors` conductors (a core counts as one) and not many more. The same seed gives the same plan. From
// about 70 on each kind of circuit is there.
SoundPlan sound_plan(unsigned seed, int conductors);

}  // namespace loomleaf::test
