// The currents and voltages in normal work: cases, the solution of each, and the worst of them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "loomleaf/circuit/circuit.h"
#include "loomleaf/stock/rulebook.h"
#include "loomleaf/stock/stock.h"
#include "loomleaf/study/conductor_figures.h"
#include "loomleaf/study/final_circuits.h"
#include "loomleaf/study/sides.h"
#include "loomleaf/study/ways.h"

namespace loomleaf {

// One state of the whole installation that is solved.
struct Case {
  // load_charge: the loads run while charging converters give their full output, which draws from the battery before
  // them what no load case does; other limited supplies are off.
  enum class Kind { load, charge, load_charge, full, starter };
  Kind kind = Kind::load;
  std::size_t ways = 0;           // which of the enumerated ways
  std::optional<ItemId> subject;  // full, and load_charge in full: the final device; starter: the starter
  // Supplies stand at their highest voltage, at which resistive loads and coils draw the most. Such a case counts for
  // currents alone.
  bool at_highest = false;
  std::string name;  // "load S1=2 R1=1", "charge", "load+charge", "load F3 full", "starter ST", "load highest"
};

// The solution of one case. Lists are by the circuit's indices. Where an island has no solution its values are not a
// number. Where there is no supply nothing flows, and voltages are not a number. `solved` says which nodes have one.
struct Solution {
  IndexedList<NodeOf, double> node_voltage;      // V against the lowest terminal of the first supply of its part
  IndexedList<BranchOf, double> branch_current;  // A, positive from a to b
  std::vector<double> load_current;              // A, by position in circuit.loads; 0 where it is not supplied
  std::vector<double> source_current;            // A out of +, by position in circuit.sources
  std::vector<double> converter_in_current, converter_out_current;  // A, by position in circuit.converters
  std::vector<double> coil_current;
  IndexedList<NodeOf, bool> solved;
  struct Collapse {
    int island;
    std::optional<ItemId> gives_way_first;
  };
  std::vector<Collapse> collapses;  // islands for which no working point exists
};

// A figure with the case it is the worst of.
template <class T>
struct Worst {
  T value{};
  std::size_t in_case = 0;
};

struct LoadResult {
  std::optional<Voltage> rated_voltage;       // its own, else its converter's output, else the system's
  std::optional<Worst<Voltage>> voltage;      // the lowest, over the load cases that supply it
  std::optional<Worst<Current>> current;      // the greatest over the same; 0 where nothing supplies it
  std::optional<Worst<double>> drop;          // share of the supply's voltage U
  std::optional<Voltage> supply_voltage;      // the U of that case
  double drop_limit = 0.0;                    // share of 1: the load's, else the plan's, else the rulebook's
  Provenance drop_limit_from;                 // "the load's own limit", "the plan's limit", or the book
  bool supplied = false;                      // in some case, and the right way round
  bool has_feed = false, has_return = false;  // in some case a supply's + (that supply's -) reaches it
  bool reversed = false;                      // polarised and wired + to -
};

struct WorkingPoints {
  std::vector<Case> cases;
  std::optional<Solution> first_load_case;                        // for node voltages
  IndexedList<BranchOf, std::optional<Worst<Current>>> branches;  // signed as in the worst case
  // The same without the `starter` cases, each of which lasts for seconds.
  IndexedList<BranchOf, std::optional<Worst<Current>>> lasting_branches;
  // Where the voltage breaks down: what flows at the least, each load drawing what it asks for at its rated voltage.
  IndexedList<BranchOf, std::optional<Worst<Current>>> asked_for;
  IndexedList<BranchOf, std::optional<Worst<Current>>> lasting_asked_for;  // without the `starter` cases
  std::vector<LoadResult> loads;                               // by position in circuit.loads
  IndexedList<ItemOf, std::optional<Worst<Current>>> joints;   // half the sum of magnitudes; a chassis: through it
  IndexedList<ItemOf, std::optional<Worst<Current>>> sources;  // delivered (never below 0); converters: output
  IndexedList<ItemOf, std::optional<Worst<Current>>> lasting_sources;  // without the `starter` cases
  IndexedList<ItemOf, std::optional<Worst<Current>>> continuous;  // devices: 1.25 x the continuous part plus the rest
  IndexedList<ItemOf, std::vector<ItemId>> surges;  // taking a device past its curve; without one, its rating
  std::vector<ItemId> reversed;                     // every polarised item wired + to -
  std::vector<ItemId> series_loads;                 // loads in series: not supported, all reported
  struct Collapse {
    std::size_t in_case;
    std::vector<ItemId> loads;
    std::optional<ItemId> gives_way_first;
  };
  std::vector<Collapse> collapses;
  IndexedList<BranchOf, bool>
      resistance_unknown;  // taken as 0 for lack of data; a contact has at least the stock's for any
  IndexedList<BranchOf, Resistance> branch_resistance;
};

// Solves every case and keeps the worst of them. Of two cases alike the first counts. A `full` case counts for what its
// final circuit has to itself, all others for everything. Where no case has a solution for something, it has no figure.
WorkingPoints study_working_points(const Plan& plan, const Circuit& circuit, const Stock& stock,
                                   const Rulebook& rulebook,
                                   const IndexedList<ConductorOf, ConductorFigures>& conductors,
                                   const std::vector<Ways>& ways, const std::vector<Sides>& sides,
                                   const std::vector<FinalCircuit>& circuits);

}  // namespace loomleaf
