#include "lost_on_the_way.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace loomleaf {

Solution solution_of(const Checked& checked, const Case& at) {
  // The load case of a plan in which just that is on which is on in this case.
  Plan plan = checked.plan;
  if (at.kind == Case::Kind::full)
    for (const FinalCircuit& circuit : checked.study.circuits)
      if (circuit.device == at.subject)
        for (const ItemId load : circuit.loads) std::get<Load>(plan.items[load].data).use_share = 1.0;
  if (at.kind == Case::Kind::starter)
    for (const TwoPole& load : checked.circuit.loads) {
      Load& as = std::get<Load>(plan.items[load.item].data);
      as.use_share = load.item == at.subject ? 1.0 : 0.0;
      if (load.item == at.subject) as.kind = Load::Kind::motor;  // draws by the same law, and not alone
    }
  WorkingPoints points =
      study_working_points(plan, checked.circuit, checked.stock, checked.rulebook, checked.study.conductors,
                           {checked.study.ways.all[at.ways]}, {checked.study.sides[at.ways]}, {});
  return std::move(*points.first_load_case);
}

namespace {

constexpr double hardly_anything = 1e-9;  // A

// One side of the way: from a node against the current (out) or with it (back).
class Side {
 public:
  Side(const Checked& checked, const Solution& solution, bool upstream)
      : checked_(checked), solution_(solution), upstream_(upstream) {}

  std::optional<std::vector<Loss>> from(NodeId start, std::size_t most) {
    if (!reach(start, most)) return std::nullopt;
    std::vector<Loss> losses;
    share_[start] = 1.0;
    std::vector<NodeId> open{start};
    for (std::size_t at = 0; at < open.size(); ++at) {
      const NodeId node = open[at];
      const std::vector<BranchId> ways = onward(node);
      const double through = all_through(node, ways);
      for (const BranchId id : ways) {
        const double ampere = std::fabs(solution_.branch_current[id]);
        const double share = share_[node] * ampere / through;
        const Voltage volts = amperes(ampere) * checked_.study.working.branch_resistance[id] * share;
        losses.push_back({id, amperes(ampere), share, volts});
        const NodeId next = far_end(id, node);
        share_[next] += share;
        if (--comes_in_[next] == 0) open.push_back(next);  // all that leads to it has been counted
      }
    }
    return losses;
  }

 private:
  NodeId far_end(BranchId id, NodeId node) const {
    const Branch& branch = checked_.circuit.branches[id];
    return branch.a == node ? branch.b : branch.a;
  }

  // Branches over which the current comes (upstream) or goes on.
  std::vector<BranchId> onward(NodeId node) const {
    std::vector<BranchId> ways;
    for (const BranchId id : checked_.circuit.at[node]) {
      const Branch& branch = checked_.circuit.branches[id];
      const double ampere = solution_.branch_current[id];
      if (branch.a == branch.b || !(std::fabs(ampere) > hardly_anything)) continue;
      const bool leaves = (branch.a == node) == (ampere > 0);
      if (leaves != upstream_) ways.push_back(id);
    }
    return ways;
  }

  // With what sources and converters bring (take back) right here, where that share of the way ends.
  double all_through(NodeId node, const std::vector<BranchId>& ways) const {
    double sum = 0.0;
    for (const BranchId id : ways) sum += std::fabs(solution_.branch_current[id]);
    const auto add = [&](NodeId plus, NodeId minus, double out_of_plus) {
      const double brought = (plus == node ? out_of_plus : 0.0) - (minus == node ? out_of_plus : 0.0);
      sum += std::max(0.0, upstream_ ? brought : -brought);
    };
    for (std::size_t i = 0; i < checked_.circuit.sources.size(); ++i)
      add(checked_.circuit.sources[i].plus, checked_.circuit.sources[i].minus, solution_.source_current[i]);
    for (std::size_t i = 0; i < checked_.circuit.converters.size(); ++i)
      add(checked_.circuit.converters[i].out_plus, checked_.circuit.converters[i].out_minus,
          solution_.converter_out_current[i]);
    return sum;
  }

  bool reach(NodeId start, std::size_t most) {
    std::size_t branches = 0;
    std::vector<NodeId> open{start};
    for (std::size_t at = 0; at < open.size(); ++at)
      for (const BranchId id : onward(open[at])) {
        if (++branches > most) return false;
        if (const NodeId next = far_end(id, open[at]); comes_in_[next]++ == 0 && next != start) open.push_back(next);
      }
    return true;
  }

  const Checked& checked_;
  const Solution& solution_;
  bool upstream_;
  std::map<NodeId, double> share_;
  std::map<NodeId, int> comes_in_;  // branches on the way that lead to a node, not yet counted
};

}  // namespace

std::optional<std::vector<Loss>> losses_of(const Checked& checked, const Solution& solution, std::size_t load,
                                           std::size_t most) {
  const TwoPole& ends = checked.circuit.loads[load];
  if (!(std::fabs(solution.load_current[load]) > hardly_anything)) return std::nullopt;
  const bool turned = solution.node_voltage[ends.plus] < solution.node_voltage[ends.minus];  // not polarised
  auto losses = Side(checked, solution, true).from(turned ? ends.minus : ends.plus, most);
  auto back = Side(checked, solution, false).from(turned ? ends.plus : ends.minus, most);
  if (!losses || !back) return std::nullopt;
  losses->insert(losses->end(), back->begin(), back->end());
  return losses;
}

}  // namespace loomleaf
