// Working points by ngspice, from the plan alone: an independent reading of what each case means.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "loomleaf/study/working_point.h"

namespace loomleaf::test {

// Whether ngspice is on this machine.
bool has_spice();

// What is compared: an installation and the cases to solve. The study gives the resistances and the list of cases, the
// rest is worked out anew.
struct SpiceTask {
  const Plan& plan;
  const Circuit& circuit;
  const std::vector<Ways>& ways;
  const WorkingPoints& points;
};

struct SpiceCase {
  std::vector<double> node_volt;       // by node, each part of the network against a node of its own
  std::vector<std::size_t> component;  // by node: those that compare
  std::vector<double> branch_ampere;   // by branch, from a to b
};

// One for each case, in order. Throws where ngspice brings no solution.
std::vector<SpiceCase> solve_with_spice(const SpiceTask& task, const std::string& scratch_file);

// The elements of one case as ngspice takes them.
std::string spice_deck(const SpiceTask& task, std::size_t in_case);

// Node voltages, by name; empty where ngspice finds no working point. All decks in one run of it, which starts slowly.
using SpiceValues = std::map<std::string, double>;
std::vector<SpiceValues> run_spice(const std::vector<std::string>& decks, const std::string& scratch_file);

}  // namespace loomleaf::test
