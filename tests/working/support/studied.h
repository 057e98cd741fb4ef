// From the text of a plan to its working points, for tests.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "loomleaf/study/working_point.h"

namespace loomleaf::test {

struct Studied {
  Plan plan;
  Routes routes;
  Circuit circuit;
  std::vector<Ways> ways;
  std::vector<Sides> sides;
  std::vector<FinalCircuit> circuits;
  IndexedList<ConductorOf, ConductorFigures> conductors;
  WorkingPoints points;

  ItemId item(const std::string& id) const;
  BranchId conductor(const std::string& id) const;
  BranchId contact(const std::string& id) const;  // a device's or contact's first branch
  const LoadResult& load(const std::string& id) const;

  // Amperes of the worst case, signed; not a number where there is no figure.
  double ampere(BranchId branch) const;
  double wire_ampere(const std::string& id) const { return ampere(conductor(id)); }
  // What is asked for where the voltage breaks down.
  double asked_ampere(const std::string& id) const;
  double joint_ampere(const std::string& id) const;
  double source_ampere(const std::string& id) const;
  double continuous_ampere(const std::string& device) const;
  double load_volt(const std::string& id) const;
  std::string case_of(BranchId branch) const;
  std::vector<std::string> case_names() const;
  std::vector<std::string> names(const std::vector<ItemId>& items) const;
  const FinalCircuit* circuit_of(const std::string& device) const;          // null: none
  std::vector<std::string> branches_of(const FinalCircuit& circuit) const;  // conductors' and items' IDs, sorted
};

// Wire of 1 mm2 has 20 mohm a metre, of 2 mm2 10 mohm, of 10 mm2 2 mohm; contacts and devices have none; the device
// family `slow` opens at twice its rating in no less than 1 s and at four times in no less than 0.1 s, `quick` has no
// curve.
Stock round_stock();
// Limits of no account but these: drop 3 %, 1.25 times what lasts 3 h and more.
Rulebook plain_rulebook();

// A plan that is not understood is thrown as its first complaint.
// `system 12 V conductor 20 C` and `plan "Test"` stand in front of the text, so that resistances are as in the stock.
Studied study_text(const std::string& text);
Studied study_text(const std::string& text, const Stock& stock, const Rulebook& rulebook);

}  // namespace loomleaf::test
