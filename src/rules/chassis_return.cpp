#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "catalogue.h"
#include "cure.h"
#include "found.h"
#include "loomleaf/units/format.h"
#include "steps.h"

namespace loomleaf {

namespace {

constexpr double least_amperes = 0.001;  // under this it is the rounding of the solution

double amperes_of(const std::optional<Worst<Current>>& worst) {
  return worst ? std::fabs(worst->value.in(amperes)) : 0.0;
}

// What carries working current and is joined to each item: conductors in the plan's order, then what is `on` it.
IndexedList<ItemOf, std::vector<std::string>> carriers_at_items(const Checked& checked) {
  const Plan& plan = checked.plan;
  const WorkingPoints& working = checked.study.working;
  IndexedList<ItemOf, std::vector<std::string>> carriers(plan.items.size());
  for (const ConductorId id : plan.conductors.ids()) {
    const Conductor& conductor = plan.conductors[id];
    if (working_amperes(checked, checked.circuit.branch_of[id]) < least_amperes) continue;
    for (const TerminalId terminal : {conductor.from, conductor.to})
      carriers[plan.terminals[terminal].item].push_back(conductor.id);
  }
  IndexedList<ItemOf, double> through(plan.items.size(), 0.0);
  for (std::size_t at = 0; at < checked.circuit.loads.size(); ++at)
    through[checked.circuit.loads[at].item] = amperes_of(working.loads[at].current);
  for (const BranchId branch : checked.circuit.branches.ids()) {
    const auto& item = checked.circuit.branches[branch].item;
    if (item) through[*item] = std::max(through[*item], working_amperes(checked, branch));
  }
  for (const ItemId id : plan.items.ids()) {
    const Item& item = plan.items[id];
    if (!item.on) continue;
    const double flows = std::max({through[id], amperes_of(working.sources[id]), amperes_of(working.joints[id])});
    if (flows >= least_amperes) carriers[plan.terminals[*item.on].item].push_back(item.id);
  }
  return carriers;
}

void add_metalwork(const Checked& checked, std::vector<Finding>& findings) {
  const IndexedList<ItemOf, std::vector<std::string>> carriers = carriers_at_items(checked);
  for (const ItemId item : checked.plan.items.ids()) {
    if (!checked.plan.items[item].is<Chassis>()) continue;
    const double through = amperes_of(checked.study.working.joints[item]);
    if (through < least_amperes) continue;
    Finding finding = found(chassis_return, checked.plan, item);
    const FigureTexts texts = set_values(finding, amperes(through), Current{});
    finding.message = fmt::format("{} carries {} of working current by way of {}, none is allowed", finding.subjects[0],
                                  texts.is, listed(carriers[item]));
    finding.mend = fmt::format("run a return wire instead, and join {} to the negative side at one point alone",
                               finding.subjects[0]);
    finding.source = sources_text({checked.rulebook.chassis_may_carry.from});
    finding.subjects.insert(finding.subjects.end(), carriers[item].begin(), carriers[item].end());
    findings.push_back(std::move(finding));
  }
}

// `metalwork_is_told`: a bond that ends at metalwork is named with that.
void add_bonds(const Checked& checked, bool metalwork_is_told, std::vector<Finding>& findings) {
  const Plan& plan = checked.plan;
  const auto is_metalwork = [&](TerminalId terminal) {
    return plan.items[plan.terminals[terminal].item].is<Chassis>();
  };
  for (const ConductorId id : plan.conductors.ids()) {
    const Conductor& conductor = plan.conductors[id];
    const double flows = working_amperes(checked, checked.circuit.branch_of[id]);
    if (flows < least_amperes || !run_of(plan, id).bond) continue;
    if (metalwork_is_told && (is_metalwork(conductor.from) || is_metalwork(conductor.to))) continue;
    Finding finding = found(chassis_return, plan, id);
    const FigureTexts texts = set_values(finding, amperes(flows), Current{});
    finding.message =
        fmt::format("{} is a bond and carries {} of working current, none is allowed", conductor.id, texts.is);
    finding.mend =
        fmt::format("give that current a return of its own, and leave {} joined at one end of it alone", conductor.id);
    finding.source = "common practice";
    findings.push_back(std::move(finding));
  }
}

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  const bool metalwork_may = checked.rulebook.chassis_may_carry.value;
  add_bonds(checked, !metalwork_may, findings);
  if (!metalwork_may) add_metalwork(checked, findings);
  return findings;
}

// Of metalwork, and of a bond.
Steps work_out(const Checked& checked, const Subject& subject) {
  const Plan& plan = checked.plan;
  double flows = 0.0;
  Steps steps;
  bool allowed = false;
  if (const ItemId* item = std::get_if<ItemId>(&subject)) {
    if (!plan.items[*item].is<Chassis>()) return {};
    flows = amperes_of(checked.study.working.joints[*item]);
    const std::vector<std::string> carriers = carriers_at_items(checked)[*item];
    steps.push_back(fmt::format("half the sum of what flows in and out by way of {}: {}",
                                carriers.empty() ? "nothing" : listed(carriers), alike(amperes(flows), Current{}).is));
    const Figure<bool>& may_carry = checked.rulebook.chassis_may_carry;
    allowed = may_carry.value;
    steps.push_back(fmt::format("working current through metalwork is {}allowed ({})", allowed ? "" : "not ",
                                to_text(may_carry.from)));
  } else if (const ConductorId* conductor = std::get_if<ConductorId>(&subject)) {
    if (!run_of(plan, *conductor).bond) return {};
    flows = working_amperes(checked, checked.circuit.branch_of[*conductor]);
    steps.push_back(fmt::format("working current = {}, in a bond none is allowed (common practice)",
                                alike(amperes(flows), Current{}).is));
  } else {
    return {};
  }
  const bool some = flows >= least_amperes;
  if (allowed)
    steps.push_back("no finding");
  else
    steps.push_back(some ? held_against(amperes(flows), Current{}) : "nothing flows: no finding");
  return steps;
}

}  // namespace

constexpr Rule chassis_return = {
    "chassis-return",
    Severity::caution,
    "Working current flows through metalwork where the rulebook does not allow it, or through a conductor that is "
    "declared a `bond`. What is `on` metalwork is joined to it as by a conductor; the current is half the sum of all "
    "that flows into the metal and out of it. What ends at the - of a battery `on` metalwork does not cross the metal.",
    "Metalwork rusts at its joints, and a bearing, a hinge or a fuel line ends up as part of the circuit. A bond "
    "that carries current raises the metal it should keep at rest.",
    "Run a return wire, and join the metalwork to the negative side at one point only.",
    "The rulebook's clause on metalwork as a conductor.",
    check,
    "Working current through metalwork is half the sum of all that flows in and out of it, at its greatest over all "
    "cases. Where the rulebook does not allow it, and in a bond anywhere, none is allowed.",
    "A lamp of 0.5 A returns to the hull, and a wire leads on from there: (0.5 A + 0.5 A) / 2 = 0.5 A through the "
    "hull, more than 0 A: a finding.",
    work_out};

}  // namespace loomleaf
