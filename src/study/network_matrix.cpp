#include "network_matrix.h"

#include <algorithm>

#include "idle_links.h"
#include "loomleaf/circuit/joined_sets.h"

namespace loomleaf {
namespace {

int narrow(std::size_t at) { return static_cast<int>(at); }

// Along the idle links from patch to patch, breadth first. They close no ring.
std::vector<PatchStep> steps_between_patches(const NetworkShape& shape, const NetworkLayout& layout,
                                             const std::vector<std::size_t>& idle_links) {
  std::vector<std::vector<PatchStep>> leaving(layout.patches);
  for (const std::size_t i : idle_links) {
    const NetworkLink& link = shape.links[i];
    leaving[layout.patch_at(link.a)].push_back({link.a, link.b});
    leaving[layout.patch_at(link.b)].push_back({link.b, link.a});
  }
  std::vector<bool> stands(layout.patches, false);
  std::vector<std::size_t> open;
  std::vector<PatchStep> steps;
  // Where something is held there is a voltage to begin with.
  const auto begin = [&](std::size_t patch) {
    if (stands[patch]) return;
    stands[patch] = true;
    open.push_back(patch);
    for (std::size_t next = 0; next < open.size(); ++next)
      for (const PatchStep& step : leaving[open[next]]) {
        const std::size_t to = layout.patch_at(step.to);
        if (stands[to]) continue;
        stands[to] = true;
        steps.push_back(step);
        open.push_back(to);
      }
    open.clear();
  };
  for (const NetworkHold& hold : shape.holds) begin(layout.patch_at(hold.minus));
  for (std::size_t patch = 0; patch < layout.patches; ++patch) begin(patch);
  return steps;
}

}  // namespace

NetworkLayout lay_out(const NetworkShape& shape) {
  NetworkLayout layout;
  const std::vector<bool> idle = find_idle_links(shape);
  std::vector<std::size_t> idle_links;
  for (std::size_t i = 0; i < shape.links.size(); ++i) {
    const NetworkLink& link = shape.links[i];
    const bool tied = link.ohm < negligible_ohm;
    (tied ? layout.tied_links : idle[i] ? idle_links : layout.resistive_links).push_back(i);
    if (tied) layout.ties.push_back({link.a, link.b, 0.0});
  }
  for (const NetworkHold& hold : shape.holds) layout.ties.push_back({hold.plus, hold.minus, hold.volt});
  layout.held = hold_nodes(shape.nodes, layout.ties);
  const auto group = [&](std::size_t node) { return layout.held.group_of[node]; };

  JoinedSets joined(layout.held.groups);
  for (const std::size_t i : layout.resistive_links) joined.join(group(shape.links[i].a), group(shape.links[i].b));
  layout.patch_of_group = joined.numbered(layout.patches);
  JoinedSets compared = joined;
  for (const std::size_t i : idle_links) compared.join(group(shape.links[i].a), group(shape.links[i].b));
  layout.component_of_group = compared.numbered(layout.components);
  for (const NetworkPort& port : shape.ports) joined.join(group(port.plus), group(port.minus));
  for (const NetworkTransfer& transfer : shape.transfers)
    joined.join(group(shape.holds[transfer.hold].plus), group(shape.ports[transfer.port].plus));
  layout.island_of_group = joined.numbered(layout.islands);
  layout.island_contradicted.assign(layout.islands, false);
  for (const std::size_t broken : layout.held.contradicted)
    layout.island_contradicted[layout.island_of_group[broken]] = true;

  // Grounding a source's group keeps the equations few and well conditioned.
  std::vector<std::size_t>& ground = layout.ground_of_patch;
  ground.assign(layout.patches, no_unknown);
  for (const NetworkHold& hold : shape.holds) {
    std::size_t& at = ground[layout.patch_at(hold.minus)];
    if (at == no_unknown) at = group(hold.minus);
  }
  for (std::size_t g = 0; g < layout.held.groups; ++g) {
    std::size_t& at = ground[layout.patch_of_group[g]];
    if (at == no_unknown) at = g;
  }
  layout.steps = steps_between_patches(shape, layout, idle_links);
  for (std::size_t g = 0; g < layout.held.groups; ++g) {
    const bool grounded = ground[layout.patch_of_group[g]] == g;
    layout.unknown_of_group.push_back(grounded ? no_unknown : layout.island_of_unknown.size());
    if (!grounded) layout.island_of_unknown.push_back(layout.island_of_group[g]);
  }
  return layout;
}

ConductanceMatrix::ConductanceMatrix(const NetworkShape& shape, const NetworkLayout& layout) {
  const auto size = static_cast<Eigen::Index>(layout.island_of_unknown.size());
  std::vector<Eigen::Triplet<double>> entries;
  const auto lay = [&](std::size_t node_a, std::size_t node_b, double siemens) {
    const std::size_t a = layout.unknown_at(node_a), b = layout.unknown_at(node_b);
    if (a == b) return;
    if (a != no_unknown) entries.emplace_back(narrow(a), narrow(a), siemens);
    if (b != no_unknown) entries.emplace_back(narrow(b), narrow(b), siemens);
    if (a != no_unknown && b != no_unknown)
      entries.emplace_back(narrow(std::max(a, b)), narrow(std::min(a, b)), -siemens);
  };
  for (const std::size_t i : layout.resistive_links) lay(shape.links[i].a, shape.links[i].b, 1.0 / shape.links[i].ohm);
  for (const NetworkPort& port : shape.ports) lay(port.plus, port.minus, 0.0);
  matrix_.resize(size, size);
  matrix_.setFromTriplets(entries.begin(), entries.end());
  links_alone_.assign(matrix_.valuePtr(), matrix_.valuePtr() + matrix_.nonZeros());
  for (const NetworkPort& port : shape.ports)
    ports_.push_back(find_stamp(layout.unknown_at(port.plus), layout.unknown_at(port.minus)));
}

ConductanceMatrix::Stamp ConductanceMatrix::find_stamp(std::size_t a, std::size_t b) const {
  const auto value_at = [&](std::size_t row, std::size_t column) {
    const int* first = matrix_.innerIndexPtr() + matrix_.outerIndexPtr()[column];
    const int* last = matrix_.innerIndexPtr() + matrix_.outerIndexPtr()[column + 1];
    return static_cast<std::size_t>(std::lower_bound(first, last, narrow(row)) - matrix_.innerIndexPtr());
  };
  Stamp stamp;
  if (a == b) return stamp;
  if (a != no_unknown) stamp.a = value_at(a, a);
  if (b != no_unknown) stamp.b = value_at(b, b);
  if (a != no_unknown && b != no_unknown) stamp.between = value_at(std::max(a, b), std::min(a, b));
  return stamp;
}

void ConductanceMatrix::add(const Stamp& stamp, double siemens) {
  double* values = matrix_.valuePtr();
  if (stamp.a != no_unknown) values[stamp.a] += siemens;
  if (stamp.b != no_unknown) values[stamp.b] += siemens;
  if (stamp.between != no_unknown) values[stamp.between] -= siemens;
}

const Eigen::SparseMatrix<double>& ConductanceMatrix::without_ports() {
  std::copy(links_alone_.begin(), links_alone_.end(), matrix_.valuePtr());
  return matrix_;
}

const Eigen::SparseMatrix<double>& ConductanceMatrix::with_ports(const std::vector<double>& siemens) {
  without_ports();
  for (std::size_t i = 0; i < ports_.size(); ++i) add(ports_[i], siemens[i]);
  return matrix_;
}

}  // namespace loomleaf
