#include "worst_figures.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace loomleaf {
namespace {

// So much more counts as more: cases that differ by rounding alone are alike.
constexpr double clearly = 1.0 + 1e-9;
constexpr double nothing = 1e-12;

bool is_more(double value, double than) { return std::fabs(value) > std::fabs(than) * clearly + nothing; }

void keep_greater(std::optional<Worst<Current>>& worst, double ampere, std::size_t in_case) {
  if (!std::isfinite(ampere)) return;
  if (!worst || is_more(ampere, worst->value.in(amperes))) worst = Worst<Current>{amperes(ampere), in_case};
}

bool lasts(const CaseSetup& setup) { return setup.at.kind != Case::Kind::starter; }

}  // namespace

WorstFigures::WorstFigures(const Plan& plan, const Circuit& circuit, const std::vector<FinalCircuit>& circuits,
                           WorkingPoints& points)
    : plan_(plan), circuit_(circuit), points_(points), metalwork_(plan, circuit) {
  points.branches = IndexedList<BranchOf, std::optional<Worst<Current>>>(circuit.branches.size());
  points.lasting_branches = points.branches;
  points.asked_for = points.branches;
  points.lasting_asked_for = points.branches;
  points.joints = IndexedList<ItemOf, std::optional<Worst<Current>>>(plan.items.size());
  points.sources = points.joints;
  points.lasting_sources = points.joints;
  std::map<ItemId, std::size_t> load_at, converter_at;
  for (std::size_t i = 0; i < circuit.loads.size(); ++i) load_at[circuit.loads[i].item] = i;
  for (std::size_t i = 0; i < circuit.converters.size(); ++i) converter_at[circuit.converters[i].item] = i;
  for (const FinalCircuit& final_circuit : circuits) {
    Own& own = own_[final_circuit.device];
    for (const ItemId item : final_circuit.loads) own.loads.push_back(load_at.at(item));
    for (const ItemId item : final_circuit.others)
      if (const auto found = converter_at.find(item); found != converter_at.end())
        own.converters.push_back(found->second);
  }
  list_joints(circuits);
}

void WorstFigures::list_joints(const std::vector<FinalCircuit>& circuits) {
  IndexedList<NodeOf, std::vector<std::size_t>> joints_at(circuit_.nodes.size());
  for (const ItemId id : plan_.items.ids()) {
    const Item& item = plan_.items[id];
    const bool is_joint = item.is<Splice>() || item.is<Bus>() || item.is<Chassis>();
    if (!is_joint || item.terminals.empty()) continue;
    const NodeId node = circuit_.node_of[item.terminals.front()];
    joints_at[node].push_back(joints_.size());
    joints_.push_back({id, node, {}, {}, {}, {}});
  }
  const auto meet = [&](NodeId node, std::vector<std::size_t> Joint::*list, std::size_t position) {
    for (const std::size_t at : joints_at[node]) {
      std::vector<std::size_t>& positions = joints_[at].*list;
      if (positions.empty() || positions.back() != position) positions.push_back(position);
    }
  };
  const auto meet_both = [&](const std::vector<TwoPole>& items, std::vector<std::size_t> Joint::*list) {
    for (std::size_t i = 0; i < items.size(); ++i)
      for (const NodeId node : {items[i].plus, items[i].minus}) meet(node, list, i);
  };
  meet_both(circuit_.loads, &Joint::loads);
  meet_both(circuit_.sources, &Joint::sources);
  meet_both(circuit_.coils, &Joint::coils);
  for (std::size_t i = 0; i < circuit_.converters.size(); ++i) {
    const ConverterPorts& ports = circuit_.converters[i];
    for (const NodeId node : {ports.in_plus, ports.in_minus, ports.out_plus, ports.out_minus})
      meet(node, &Joint::converters, i);
  }

  // A joint belongs to a final circuit with all its branches.
  IndexedList<BranchOf, std::set<ItemId>> owners(circuit_.branches.size());
  for (const FinalCircuit& final_circuit : circuits)
    for (const BranchId branch : final_circuit.branches) owners[branch].insert(final_circuit.device);
  for (std::size_t at = 0; at < joints_.size(); ++at) {
    const auto& branches = circuit_.at[joints_[at].node];
    if (branches.empty()) continue;
    for (const ItemId device : owners[branches.front()]) {
      const auto is_own = [&](BranchId branch) { return owners[branch].count(device) > 0; };
      if (std::all_of(branches.begin(), branches.end(), is_own)) own_[device].joints.push_back(at);
    }
  }
}

const std::vector<std::size_t>& WorstFigures::loads_of(const FinalCircuit& circuit) const {
  return own_.at(circuit.device).loads;
}

void WorstFigures::take(const CaseSetup& setup, const Solution& solution, const WiredNetwork& network) {
  this_case_ = setup.number;
  lasts_ = lasts(setup);
  if (setup.circuit) {
    const Own& own = own_.at(setup.circuit->device);
    for (const BranchId branch : setup.circuit->branches) take_branch(branch, solution);
    if (setup.at.kind == Case::Kind::full && !setup.at.at_highest)
      for (const std::size_t i : own.loads) take_load(i, solution, network);
    for (const std::size_t i : own.converters) take_converter(i, solution);
    for (const std::size_t i : own.joints) take_joint(joints_[i], solution);
    return;
  }
  for (const BranchId branch : circuit_.branches.ids()) take_branch(branch, solution);
  for (const Joint& joint : joints_) take_joint(joint, solution);
  for (std::size_t i = 0; i < circuit_.sources.size(); ++i) {
    const double ampere = solution.source_current[i];
    take_source(circuit_.sources[i].item, std::isfinite(ampere) ? std::max(0.0, ampere) : ampere);
  }
  for (std::size_t i = 0; i < circuit_.converters.size(); ++i) take_converter(i, solution);
  if (setup.alone) take_load(*setup.alone, solution, network);
  // What a load gets is read in the load case alone. At the highest voltage it gets more. And a converter charges from
  // a battery while that one is charged itself, well above its `low`: both at once is no state to judge a drop by
  // (common practice, no source).
  if (setup.at.kind == Case::Kind::load && !setup.at.at_highest)
    for (std::size_t i = 0; i < circuit_.loads.size(); ++i) take_load(i, solution, network);
}

void WorstFigures::take_asked(const CaseSetup& setup, const std::vector<Solution::Collapse>& collapses,
                              const Solution& asked, const WiredNetwork& network) {
  std::set<std::size_t> islands;
  for (const Solution::Collapse& collapse : collapses) islands.insert(static_cast<std::size_t>(collapse.island));
  const auto take_one = [&](BranchId id) {
    if (islands.count(network.island_of(circuit_.branches[id].a)) == 0) return;
    keep_greater(points_.asked_for[id], asked.branch_current[id], setup.number);
    if (lasts(setup)) keep_greater(points_.lasting_asked_for[id], asked.branch_current[id], setup.number);
  };
  if (setup.circuit)
    for (const BranchId id : setup.circuit->branches) take_one(id);
  else
    for (const BranchId id : circuit_.branches.ids()) take_one(id);
}

void WorstFigures::take_branch(BranchId branch, const Solution& solution) {
  keep_greater(points_.branches[branch], solution.branch_current[branch], this_case_);
  if (lasts_) keep_greater(points_.lasting_branches[branch], solution.branch_current[branch], this_case_);
}

void WorstFigures::take_source(ItemId item, double ampere) {
  keep_greater(points_.sources[item], ampere, this_case_);
  if (lasts_) keep_greater(points_.lasting_sources[item], ampere, this_case_);
}

void WorstFigures::take_converter(std::size_t position, const Solution& solution) {
  take_source(circuit_.converters[position].item, solution.converter_out_current[position]);
}

void WorstFigures::take_load(std::size_t position, const Solution& solution, const WiredNetwork& network) {
  LoadResult& result = points_.loads[position];
  const auto& supply = network.supply_of_load(position);
  keep_greater(result.current, solution.load_current[position], this_case_);
  if (!supply) return;
  result.supplied = true;
  const TwoPole& load = circuit_.loads[position];
  const double volt = std::fabs(solution.node_voltage[load.plus] - solution.node_voltage[load.minus]);
  if (!std::isfinite(volt)) return;
  const double full_volt = supply->volt.in(volts);
  const double drop = (full_volt - volt) / full_volt;
  if (!result.voltage || volt * clearly < result.voltage->value.in(volts))
    result.voltage = Worst<Voltage>{volts(volt), this_case_};
  if (result.drop && drop <= result.drop->value + nothing) return;
  result.drop = Worst<double>{drop, this_case_};
  result.supply_voltage = supply->volt;
}

// What flows in flows out again: half the sum of the magnitudes passes through. A converter's terminals in one joint
// count with what they bring together.
double WorstFigures::joint_ampere(const Joint& joint, const Solution& solution) const {
  if (plan_.items[joint.item].is<Chassis>()) return metalwork_.ampere_through(joint.item, solution);
  double sum = 0.0;
  for (const BranchId id : circuit_.at[joint.node])
    if (circuit_.branches[id].a != circuit_.branches[id].b) sum += std::fabs(solution.branch_current[id]);
  const auto add = [&](const std::vector<std::size_t>& positions, const std::vector<TwoPole>& items,
                       const std::vector<double>& currents) {
    for (const std::size_t i : positions)
      if (items[i].plus != items[i].minus) sum += std::fabs(currents[i]);
  };
  add(joint.loads, circuit_.loads, solution.load_current);
  add(joint.sources, circuit_.sources, solution.source_current);
  add(joint.coils, circuit_.coils, solution.coil_current);
  for (const std::size_t i : joint.converters) {
    const ConverterPorts& ports = circuit_.converters[i];
    const double in = solution.converter_in_current[i], out = solution.converter_out_current[i];
    double taken = 0.0;
    if (ports.in_plus == joint.node) taken += in;
    if (ports.in_minus == joint.node) taken -= in;
    if (ports.out_plus == joint.node) taken -= out;
    if (ports.out_minus == joint.node) taken += out;
    sum += std::fabs(taken);
  }
  return 0.5 * sum;
}

void WorstFigures::take_joint(const Joint& joint, const Solution& solution) {
  keep_greater(points_.joints[joint.item], joint_ampere(joint, solution), this_case_);
}

}  // namespace loomleaf
