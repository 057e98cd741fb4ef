// The fuses and breakers of an installation as a plain table: what the card in the fuse block's door says.
#pragma once

#include <string>
#include <vector>

#include "loomleaf/circuit/circuit.h"
#include "loomleaf/plan/plan.h"
#include "loomleaf/stock/fuse_colours.h"
#include "loomleaf/study/study.h"

namespace loomleaf {

struct FuseRow {
  std::string id;
  std::string feeds;    // its description; without one, the loads of its final circuit; "spare" where nothing is joined
  std::string rating;   // "5 A"
  std::string family;   // "blade"; empty where the plan names none
  std::string colour;   // of the fuse's body; empty where it has no code
  std::string wire;     // the thinnest feed conductor that it protects: "16 AWG"
  std::string current;  // the greatest in normal work: "1.02 A"; empty where not known
};

// In the plan's order.
std::vector<FuseRow> list_fuses(const Plan& plan, const Circuit& circuit, const Study& study,
                                const FuseColours& colours);

}  // namespace loomleaf
