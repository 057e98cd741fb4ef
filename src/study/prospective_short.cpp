#include "prospective_short.h"

#include <algorithm>
#include <numeric>
#include <set>

namespace loomleaf {
namespace {

// A source as what it drives into a short at its terminals, beside what it conducts itself.
struct Norton {
  double ampere = 0.0, siemens = 0.0;
};

// A limited source drives its limit and no more, whatever stands against it: next to it, it conducts hardly anything.
// Where no battery is in it, what it may give is held down afterwards.
Norton norton(const FaultSupplies::Held& held, bool zero_ohm_return) {
  constexpr double stiffness = 100.0;  // more would leave too few figures beside the least resistance
  const bool is_bounded = held.limit_A > 0.0 && (held.meets_battery || !zero_ohm_return);
  if (!is_bounded) return {held.nominal_V * held.siemens, held.siemens};
  return {held.limit_A, held.limit_A / (stiffness * held.nominal_V)};
}

}  // namespace

ProspectiveFinder::ProspectiveFinder(const Circuit& circuit, const FaultSupplies& supplies, const ShortPlaces& places)
    : circuit_(circuit), supplies_(supplies), places_(places) {}

ProspectiveFinder::Network ProspectiveFinder::wire(bool zero_ohm_return) const {
  // Vertex 0 is all of the return, where that is taken as zero ohm.
  const std::size_t first = zero_ohm_return ? 1 : 0;
  std::vector<std::size_t> vertex_of(circuit_.nodes.size());
  for (const NodeId node : circuit_.nodes.ids())
    vertex_of[node.value] = zero_ohm_return && !supplies_.is_feed(node) ? 0 : node.value + first;
  std::vector<FaultLink> links;
  std::vector<double> ampere_in(circuit_.nodes.size() + first, 0.0);
  const auto vertex = [&](NodeId node) { return vertex_of[node.value]; };
  for (const BranchId id : circuit_.branches.ids()) {
    const Branch& branch = circuit_.branches[id];
    if (supplies_.passes(id)) links.push_back({vertex(branch.a), vertex(branch.b), supplies_.siemens(id)});
  }
  for (const FaultSupplies::Held& held : supplies_.held()) {
    const Norton source = norton(held, zero_ohm_return);
    links.push_back({vertex(held.plus), vertex(held.minus), source.siemens});
    ampere_in[vertex(held.plus)] += source.ampere;
    ampere_in[vertex(held.minus)] -= source.ampere;
  }
  for (const FaultSupplies::Pushing& pushing : supplies_.pushing()) {
    ampere_in[vertex(pushing.plus)] += pushing.ampere;
    ampere_in[vertex(pushing.minus)] -= pushing.ampere;
  }
  FaultSolver solver(ampere_in.size(), links);
  std::vector<double> volt = solver.voltages(ampere_in);
  return {std::move(vertex_of), std::move(solver), std::move(volt)};
}

// Thevenin: the voltage across the device over the resistance between its ends, the device itself in both, is what a
// link without resistance would carry.
double ProspectiveFinder::through(Network& network, std::size_t a, std::size_t b, std::size_t from, std::size_t to) {
  FaultSolver& solver = network.solver;
  const std::vector<double>& volt = network.volt;
  solver.draw(from, to);
  const double short_ohm = solver.fall(from) - solver.fall(to);
  const double per_ampere = solver.fall(a) - solver.fall(b);
  if (!(short_ohm > 0.0)) return 0.0;
  const double across = volt[a] - volt[b] - (volt[from] - volt[to]) / short_ohm * per_ampere;
  solver.draw(a, b);
  const double coupling = solver.fall(from) - solver.fall(to);
  const double ohm = solver.fall(a) - solver.fall(b) - coupling * coupling / short_ohm;
  return ohm > 0.0 ? across / ohm : 0.0;
}

std::vector<ItemId> ProspectiveFinder::before(BranchId device, NodeId side, const ShortestWays& ways) const {
  std::vector<ItemId> devices;
  for (NodeId node = side; ways.towards[node]; node = *ways.towards[node]) {
    if (!ways.by[node]) continue;  // where ways part, no device lies on all of them
    const BranchId id = *ways.by[node];
    const Branch& branch = circuit_.branches[id];
    if (id != device && branch.kind == BranchKind::device && !supplies_.leads_to_supply(id, *ways.towards[node]))
      devices.push_back(*branch.item);
  }
  return devices;
}

std::optional<ProspectiveShort> ProspectiveFinder::in_feed(BranchId device) {
  const Branch& branch = circuit_.branches[device];
  const FeedOfPart& feed = supplies_.feed_of(branch.a);
  if (feed.unknown || !feed.feeds()) return std::nullopt;
  if (!feed_) feed_.emplace(wire(true));
  ProspectiveShort worst;
  for (const auto& [from, load_side] : {std::pair(branch.a, branch.b), std::pair(branch.b, branch.a)}) {
    double ampere = through(*feed_, feed_->at(from), feed_->at(load_side), feed_->at(load_side), 0);
    if (!feed.battery) ampere = std::min(ampere, feed.limit_A);
    if (ampere <= worst.current.in(amperes)) continue;
    worst = {amperes(ampere), feed.battery, before(device, from, places_.feed_ways()), 0};
  }
  return worst.current > Current{} ? std::optional(worst) : std::nullopt;
}

std::optional<ProspectiveShort> ProspectiveFinder::in_return(BranchId device) {
  const Branch& branch = circuit_.branches[device];
  const FeedOfPart& back = supplies_.back_of(branch.a);
  if (back.unknown || !back.feeds()) return std::nullopt;
  if (!back_) back_.emplace(wire(false));
  ProspectiveShort worst;
  std::set<PartId> tried;
  const Sides& sides = supplies_.sides();
  for (const SupplyId id : sides.minus_in[sides.part_of[branch.a]]) {
    const NodeId plus = sides.supplies[id].plus;
    if (!tried.insert(sides.part_of[plus]).second) continue;
    for (const auto& [towards, load_side] : {std::pair(branch.a, branch.b), std::pair(branch.b, branch.a)}) {
      double ampere = through(*back_, back_->at(load_side), back_->at(towards), back_->at(plus), back_->at(load_side));
      if (!back.battery) ampere = std::min(ampere, back.limit_A);
      if (ampere <= worst.current.in(amperes)) continue;
      worst = {amperes(ampere), back.battery, before(device, towards, places_.back_ways()), 0};
    }
  }
  return worst.current > Current{} ? std::optional(worst) : std::nullopt;
}

std::optional<ProspectiveShort> ProspectiveFinder::at(BranchId device) {
  const Branch& branch = circuit_.branches[device];
  if (!supplies_.passes(device)) return std::nullopt;
  if (supplies_.is_feed(branch.a)) return in_feed(device);
  return supplies_.is_return(branch.a) ? in_return(device) : std::nullopt;
}

}  // namespace loomleaf
