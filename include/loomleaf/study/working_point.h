// The currents and voltages in normal work: cases, the solution of each, and the worst of them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "loomleaf/circuit/circuit.h"
#include "loomleaf/study/conductor_figures.h"
#include "loomleaf/study/sides.h"
#include "loomleaf/study/ways.h"

namespace loomleaf {

struct FinalCircuit;

// One state of the whole installation that is solved.
struct Case {
  enum class Kind { load, charge, full, starter };
  Kind kind = Kind::load;
  std::size_t ways = 0;                    // which of the enumerated ways
  std::optional<ItemId> subject;           // full: the final device; starter: the starter
  std::string name;                        // "load S1=2 R1=1", "charge", "load F3 full", "starter ST"
};

// The solution of one case. Lists are by the circuit's indices. Where an island has no solution or no supply, its values
// are not a number and `solved` is false for its nodes.
struct Solution {
  IndexedList<NodeOf, double> node_voltage;        // V against the lowest terminal of the first supply of its part
  IndexedList<BranchOf, double> branch_current;    // A, positive from a to b
  std::vector<double> load_current;                // A, by position in circuit.loads; 0 where it is not supplied
  std::vector<double> source_current;              // A out of +, by position in circuit.sources
  std::vector<double> converter_in_current, converter_out_current;  // A, by position in circuit.converters
  std::vector<double> coil_current;
  IndexedList<NodeOf, bool> solved;
  struct Collapse { int island; std::optional<ItemId> gives_way_first; };
  std::vector<Collapse> collapses;                 // islands for which no working point exists
};

// A figure with the case it is the worst of.
template <class T>
struct Worst {
  T value{};
  std::size_t in_case = 0;
};

struct LoadResult {
  std::optional<Worst<Voltage>> voltage;           // the lowest, over the load cases that supply it
  std::optional<Worst<Current>> current;           // the greatest
  std::optional<Worst<double>> drop;               // share of the supply's voltage U
  std::optional<Voltage> supply_voltage;           // the U of that case
  double drop_limit = 0.0;                         // share of 1: the load's, else the plan's, else the rulebook's
  Provenance drop_limit_from;                      // "the load's own limit", "the plan's limit", or the book
  bool supplied = false;                           // in some case
  bool has_feed = false, has_return = false;       // in some case a supply's + (that supply's -) reaches it
  bool reversed = false;                           // polarised and wired + to -
};

struct WorkingPoints {
  std::vector<Case> cases;
  std::optional<Solution> first_load_case;         // for node voltages
  IndexedList<BranchOf, std::optional<Worst<Current>>> branches;   // signed as in the worst case
  std::vector<LoadResult> loads;                   // by position in circuit.loads
  IndexedList<ItemOf, std::optional<Worst<Current>>> joints;       // splices and buses: half the sum of magnitudes
  IndexedList<ItemOf, std::optional<Worst<Current>>> sources;      // delivered; converters: output
  IndexedList<ItemOf, std::optional<Worst<Current>>> continuous;   // devices: 1.25 x the continuous part plus the rest
  IndexedList<ItemOf, std::vector<ItemId>> surges;                 // devices whose curve a surge of these loads does not ride through
  std::vector<ItemId> reversed;                    // every polarised item wired + to -
  std::vector<ItemId> series_loads;                // loads in series: not supported, all reported
  struct Collapse { std::size_t in_case; std::vector<ItemId> loads; std::optional<ItemId> gives_way_first; };
  std::vector<Collapse> collapses;
  // What was assumed for lack of data: contact and device resistances taken as 0 or from the stock.
  IndexedList<BranchOf, bool> resistance_unknown;
  IndexedList<BranchOf, Resistance> branch_resistance;
};

}  // namespace loomleaf
