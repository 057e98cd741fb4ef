// The labels of an installation as a plain table: one row for each end of each wire, sheath and parting core.
#pragma once

#include <string>
#include <vector>

#include "loomleaf/circuit/circuit.h"
#include "loomleaf/plan/plan.h"
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
};

// Both ends of each single wire, each sheath, and each core of a cable whose cores part: more than two, or ends at
// different items. In order of place, then run, both ends of a run side by side where one place holds both.
std::vector<Label> list_labels(const Plan& plan, const Circuit& circuit, const Study& study);

}  // namespace loomleaf
