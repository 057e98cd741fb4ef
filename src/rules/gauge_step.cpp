#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "catalogue.h"
#include "found.h"
#include "loomleaf/units/format.h"
#include "steps.h"

namespace loomleaf {

namespace {

constexpr double as_good_as = 1.03;  // in area: a gauge and its metric neighbour count as one

double area_of(const Checked& checked, ConductorId conductor) {
  return nominal_area(checked.rulebook.judged_as(*run_of(checked.plan, conductor).size)).in(square_millimetres);
}

// The feed side in one standing of the changeovers, walked depth first from the supplies to find the conductors that
// all current to what lies behind them must pass (bridges, after Tarjan 1974).
class FeedTree {
 public:
  FeedTree(const Checked& checked, std::size_t ways)
      : circuit_(checked.circuit),
        sides_(checked.study.sides[ways]),
        ways_(checked.study.ways.all[ways]),
        entered_(circuit_.nodes.size(), 0),
        low_(circuit_.nodes.size(), 0),
        supplies_(circuit_.nodes.size(), 0) {
    for (const Supply& supply : sides_.supplies) ++supplies_[supply.plus];
    for (const Supply& supply : sides_.supplies) {
      if (entered_[supply.plus] == 0) walk(supply.plus);
    }
  }

  struct Bridge {
    BranchId branch;
    NodeId far;  // its end away from all supplies
  };
  const std::vector<Bridge>& bridges() const { return bridges_; }

  // Conductors that meet this node with no device and no other conductor between. A selector that can stand on all its
  // ways at once is no such joint: what lies behind it is fed by all of them, and may have to be thicker than each.
  std::vector<BranchId> conductors_at(NodeId start) const {
    std::vector<BranchId> conductors;
    std::set<NodeId> seen{start};
    std::vector<NodeId> open{start};
    while (!open.empty()) {
      const NodeId node = open.back();
      open.pop_back();
      for (const BranchId branch : circuit_.at[node]) {
        const Branch& at = circuit_.branches[branch];
        if (at.kind == BranchKind::conductor) conductors.push_back(branch);
        const bool joins_all = at.changer && circuit_.changers[*at.changer].both;
        if (at.kind == BranchKind::contact && !joins_all && in_feed(branch) &&
            seen.insert(other_end(branch, node)).second) {
          open.push_back(other_end(branch, node));
        }
      }
    }
    return conductors;
  }

 private:
  struct Step {
    NodeId node;
    std::optional<BranchId> by;
    std::size_t next = 0;
  };

  NodeId other_end(BranchId branch, NodeId node) const {
    const Branch& at = circuit_.branches[branch];
    return at.a == node ? at.b : at.a;
  }
  bool in_feed(BranchId branch) const {
    const NodeId node = circuit_.branches[branch].a;
    return conducts(circuit_, branch, ways_) && sides_.is_feed(node) && !sides_.is_return(node);
  }

  // With a list of steps instead of recursion, so that a long chain cannot exhaust the stack.
  void walk(NodeId root) {
    std::vector<Step> steps{{root, std::nullopt}};
    entered_[root] = low_[root] = ++clock_;
    while (!steps.empty()) {
      Step& step = steps.back();
      const NodeId node = step.node;
      if (step.next < circuit_.at[node].size()) {
        const BranchId branch = circuit_.at[node][step.next++];
        if (step.by == branch || !in_feed(branch)) continue;
        const NodeId next = other_end(branch, node);
        if (entered_[next] != 0) {
          low_[node] = std::min(low_[node], entered_[next]);
        } else {
          entered_[next] = low_[next] = ++clock_;
          steps.push_back({next, branch});
        }
        continue;
      }
      const Step done = step;
      steps.pop_back();
      if (steps.empty()) break;
      const NodeId before = steps.back().node;
      low_[before] = std::min(low_[before], low_[node]);
      supplies_[before] += supplies_[node];
      if (low_[node] > entered_[before] && supplies_[node] == 0) bridges_.push_back({*done.by, node});
    }
  }

  const Circuit& circuit_;
  const Sides& sides_;
  const Ways& ways_;
  IndexedList<NodeOf, int> entered_, low_, supplies_;
  std::vector<Bridge> bridges_;
  int clock_ = 0;
};

bool is_sized_feed(const Checked& checked, std::optional<ConductorId> conductor) {
  return conductor && checked.study.protection.conductors[*conductor].side == ConductorSide::feed &&
         run_of(checked.plan, *conductor).size;
}

// Two feed conductors with no device between.
struct InSeries {
  ConductorId nearer, further;  // as seen from the supplies
};

// Each pair once, in the first standing of the changeovers that has it.
std::vector<InSeries> pairs_in_series(const Checked& checked) {
  std::vector<InSeries> pairs;
  std::set<std::pair<ConductorId, ConductorId>> told;
  for (std::size_t ways = 0; ways < checked.study.sides.size(); ++ways) {
    const FeedTree tree(checked, ways);
    for (const FeedTree::Bridge& bridge : tree.bridges()) {
      const auto nearer = checked.circuit.branches[bridge.branch].conductor;
      if (!is_sized_feed(checked, nearer)) continue;
      for (const BranchId beyond : tree.conductors_at(bridge.far)) {
        const auto further = checked.circuit.branches[beyond].conductor;
        if (beyond == bridge.branch || !is_sized_feed(checked, further)) continue;
        if (told.insert({*nearer, *further}).second) pairs.push_back({*nearer, *further});
      }
    }
  }
  return pairs;
}

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  for (const auto& [nearer, further] : pairs_in_series(checked)) {
    const double is = area_of(checked, further), may_be = area_of(checked, nearer);
    if (!exceeds(is, may_be * as_good_as)) continue;
    Finding finding = found(gauge_step, checked.plan, further);
    finding.values = FindingValues{is, may_be, "mm2"};
    finding.subjects.push_back(id_of(checked.plan, nearer));
    const Run &thick = run_of(checked.plan, further), &thin = run_of(checked.plan, nearer);
    finding.message = fmt::format("{} is {}, thicker than {} of {} that feeds it with no fuse between",
                                  finding.subjects[0], to_text(*thick.size), finding.subjects[1], to_text(*thin.size));
    finding.mend = fmt::format("make both the same size: {} {} or {} {}", thick.id, to_text(*thin.size), thin.id,
                               to_text(*thick.size));
    finding.source = "common practice";
    findings.push_back(std::move(finding));
  }
  return findings;
}

Steps work_out(const Checked& checked, const Subject& subject) {
  const ConductorId* conductor = std::get_if<ConductorId>(&subject);
  Steps steps;
  for (const auto& [nearer, further] : pairs_in_series(checked)) {
    if (!conductor || further != *conductor) continue;
    const double is = area_of(checked, further), before = area_of(checked, nearer);
    const FigureTexts texts = alike(is, before * as_good_as, "mm2");
    steps.push_back(fmt::format("{} is {}: {}", id_of(checked.plan, further),
                                to_text(*run_of(checked.plan, further).size), texts.is));
    steps.push_back(fmt::format("{}, which feeds it with no fuse between, is {}: {} mm2", id_of(checked.plan, nearer),
                                to_text(*run_of(checked.plan, nearer).size), to_text(before, 2)));
    steps.push_back(fmt::format("up to 3 % more counts as the same: {} x {} mm2 = {}", to_text(as_good_as, 2),
                                to_text(before, 2), texts.may_be));
    steps.push_back(held_against(is, before * as_good_as, "mm2"));
  }
  return steps;
}

}  // namespace

constexpr Rule gauge_step = {
    "gauge-step",
    Severity::caution,
    "Of two feed conductors in series, with no fuse or breaker between and all supplies on one side, the one "
    "further from the supplies is the thicker.",
    "The thin piece sets what the whole run may carry and drops the most. Whoever later judges the run by its "
    "thick end fits too big a fuse.",
    "One size for the whole run, or a fuse where the size changes.",
    "Common practice.",
    check,
    "The nominal areas of the two are compared. Up to 3 % more counts as the same, so that a gauge and its metric "
    "neighbour may follow each other.",
    "14 AWG is 2.08 mm2, and 1.03 x 2.08 mm2 = 2.14 mm2. Behind it 12 AWG of 3.31 mm2 is thicker: a finding.",
    work_out};

}  // namespace loomleaf
