// What a conductor is and may carry where it runs, before anything flows in it.
#pragma once

#include <optional>

#include "loomleaf/circuit/circuit.h"
#include "loomleaf/plan/plan.h"
#include "loomleaf/route/route.h"
#include "loomleaf/stock/rulebook.h"
#include "loomleaf/stock/stock.h"
#include "loomleaf/study/sides.h"

namespace loomleaf {

// What surely carries no less than a conductor of whose size or insulation the rulebook has no table.
struct AmpacityBound {
  LookedUpAs as;                           // the row it stands on
  Figure<Current> table;                   // before factors
  Current ampacity{};                      // with factors
};

struct ConductorFigures {
  WireSize size;                           // as declared; a signal without a size: the rulebook's least
  bool size_assumed = false;
  Area area{};
  Temperature insulation{};                // as given; else the lowest that the rulebook has a table for
  Length length{};
  Resistance resistance{};                 // at the conductor temperature (30 C, or the system's), alpha 0.00393/K from 20 C
  std::optional<Figure<Current>> table_ampacity;  // before factors
  double ambient_factor = 1.0, grouping_factor = 1.0;
  int grouped_with = 1;                    // what the rulebook counts on the fullest leg that is conduit or bundle, or in
                                           // its own sheath, itself included
  Provenance ambient_from, grouping_from;  // where a factor is not 1
  std::optional<Current> ampacity;         // with factors (see Rulebook::derated_ampacity); absent where the rulebook has
                                           // none for the size
  std::optional<AmpacityBound> no_more_than;  // where there is no ampacity; absent where the rulebook has no table at all
  Figure<double> allowance{1.0, {}};       // the rulebook's, at the highest voltage that can stand there
  int side_by_side = 1;                    // alike, between the same two points, where the rulebook lets them share
  std::optional<Current> may_carry;        // what the rulebook lets protect it: ampacity x allowance, of all side by side;
                                           // without an ampacity what it lets protect the bound, which is more than this
                                           // conductor bears

  // What it carries at the most: its ampacity, else the bound.
  std::optional<Current> carries_at_most() const {
    return no_more_than ? std::optional(no_more_than->ampacity) : ampacity;
  }
  // What `ampacity` or the bound started from.
  std::optional<Figure<Current>> from_table() const {
    return no_more_than ? std::optional(no_more_than->table) : table_ampacity;
  }
};

// A battery whose highest voltage is not stated is taken to stand at 1.2 times its nominal one on charge, where the
// rulebook's allowance depends on it: common practice, no source.
IndexedList<ConductorOf, ConductorFigures> conductor_figures(const Plan& plan, const Routes& routes,
                                                             const Circuit& circuit, const std::vector<Sides>& sides,
                                                             const Stock& stock, const Rulebook& rulebook);

}  // namespace loomleaf
