#include <fmt/format.h>

#include <cmath>

#include "catalogue.h"
#include "cure.h"
#include "found.h"

namespace loomleaf {

namespace {

constexpr double least_amperes = 0.001;  // under this it is the rounding of the solution

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  const Plan& plan = checked.plan;
  const auto is_metalwork = [&](TerminalId terminal) {
    return plan.items[plan.terminals[terminal].item].is<Chassis>();
  };
  IndexedList<ItemOf, double> through(plan.items.size(), 0.0);
  IndexedList<ItemOf, std::vector<std::string>> by_way_of(plan.items.size());
  const bool metalwork_may = checked.rulebook.chassis_may_carry.value;
  for (const ConductorId id : plan.conductors.ids()) {
    const Conductor& conductor = plan.conductors[id];
    const double flows = working_amperes(checked, checked.circuit.branch_of[id]);
    if (flows < least_amperes) continue;
    bool told = false;
    for (const TerminalId terminal : {conductor.from, conductor.to}) {
      if (metalwork_may || !is_metalwork(terminal)) continue;
      const ItemId item = plan.terminals[terminal].item;
      through[item] += flows / 2;
      by_way_of[item].push_back(conductor.id);
      told = true;
    }
    if (told || !run_of(plan, id).bond) continue;
    Finding finding = found(chassis_return, plan, id);
    const FigureTexts texts = set_values(finding, amperes(flows), Current{});
    finding.message =
        fmt::format("{} is a bond and carries {} of working current, {} may be", conductor.id, texts.is, texts.may_be);
    finding.mend =
        fmt::format("give that current a return of its own, and leave {} joined at one end of it alone", conductor.id);
    finding.source = "common practice";
    findings.push_back(std::move(finding));
  }
  for (const ItemId item : plan.items.ids()) {
    if (by_way_of[item].empty()) continue;
    Finding finding = found(chassis_return, plan, item);
    const FigureTexts texts = set_values(finding, amperes(through[item]), Current{});
    finding.message = fmt::format("{} carries {} of working current by way of {}, {} may be", finding.subjects[0],
                                  texts.is, listed(by_way_of[item]), texts.may_be);
    finding.mend = fmt::format("run a return wire instead, and join {} to the negative side at one point alone",
                               finding.subjects[0]);
    finding.source = sources_text({checked.rulebook.chassis_may_carry.from});
    finding.subjects.insert(finding.subjects.end(), by_way_of[item].begin(), by_way_of[item].end());
    findings.push_back(std::move(finding));
  }
  return findings;
}

}  // namespace

constexpr Rule chassis_return = {
    "chassis-return",
    Severity::caution,
    "Working current flows through metalwork where the rulebook does not allow it, or through a conductor that is "
    "declared a `bond`.",
    "Metalwork rusts at its joints, and a bearing, a hinge or a fuel line ends up as part of the circuit. A bond "
    "that carries current raises the metal it should keep at rest.",
    "Run a return wire, and join the metalwork to the negative side at one point only.",
    "The rulebook's clause on metalwork as a conductor.",
    check};

}  // namespace loomleaf
