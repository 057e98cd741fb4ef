#include "highest_voltage.h"

#include "found.h"

namespace loomleaf {

namespace {

void raise(std::optional<Highest>& highest, const Sides& sides, SupplyId supply, std::size_t ways) {
  const Voltage voltage = sides.supplies[supply].high;
  if (!highest || voltage > highest->voltage) highest = Highest{voltage, supply, ways};
}

}  // namespace

std::optional<Highest> highest_at(const Checked& checked, BranchId branch) {
  std::optional<Highest> highest;
  const Branch& at = checked.circuit.branches[branch];
  for (std::size_t ways = 0; ways < checked.study.sides.size(); ++ways) {
    const Sides& sides = checked.study.sides[ways];
    // An open way of a changeover bears the voltage too, from whichever side it comes.
    for (const NodeId node : {at.a, at.b})
      if (const auto& supply = sides.highest_in[sides.part_of[node]]) raise(highest, sides, *supply, ways);
  }
  return highest;
}

std::optional<Highest> highest_across(const Checked& checked, NodeId plus, NodeId minus) {
  std::optional<Highest> highest;
  for (std::size_t ways = 0; ways < checked.study.sides.size(); ++ways) {
    const Sides& sides = checked.study.sides[ways];
    // Where supplies clash or are shorted that is the finding: one cause, one finding.
    if (sides.island_has_no_working_point[static_cast<std::size_t>(sides.island_of[plus])]) continue;
    for (const SupplyId supply : sides.across(plus, minus)) raise(highest, sides, supply, ways);
    for (const SupplyId supply : sides.across(minus, plus)) raise(highest, sides, supply, ways);
  }
  return highest;
}

std::string supply_text(const Checked& checked, const Highest& highest) {
  const Supply& supply = checked.study.sides[highest.ways].supplies[highest.supply];
  if (supply.converter) return id_of(checked.plan, *supply.converter);
  return listed(names_of(checked.plan, supply.sources));
}

}  // namespace loomleaf
