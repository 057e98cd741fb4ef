// The labels of an installation as a plain table: one row for each end of each wire, sheath and parting core.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "loomleaf/circuit/circuit.h"
#include "loomleaf/plan/plan.h"
#include "loomleaf/stock/outside_diameter.h"
#include "loomleaf/study/study.h"

namespace loomleaf {

struct Label {
  std::string id;                // the wire's, the cable's (its sheath) or the core's ID, as everywhere else
  RunId run;
  bool at_from_end = true;
  bool is_sheath = false;        // on the sheath of a cable
  std::string lands_at;          // where this end goes: "F1.out"; a sheath: its item
  std::string far_end;           // where the other end goes
  std::string fuse;              // IDs of what protects it, "F1 5 A"; empty where nothing does
  std::string size;              // "18 AWG RD"
  std::string place;             // ID of the place where this end is; empty: unknown
  std::string circuit;           // ID of the final circuit's device; empty where it serves several, or none
  std::optional<Outside> outside;  // how thick it is; absent where the stock does not know it
};

// Both ends of each single wire, each sheath, and each core of a cable whose cores part: more than two, or ends at
// different items. In the order of pulling: by the place a run starts from, in the plan's order of places, then by final
// circuit, then in the plan's order; both ends side by side, a sheath before its cores.
std::vector<Label> list_labels(const Plan& plan, const Circuit& circuit, const Study& study, const Stock& stock);

}  // namespace loomleaf
