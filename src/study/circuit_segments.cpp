#include "circuit_segments.h"

#include <deque>
#include <map>

#include "loomleaf/circuit/joined_sets.h"

namespace loomleaf {

CircuitSegments::CircuitSegments(const Plan& plan, const Circuit& circuit, const Ways& ways, const Sides& sides)
    : plan_(plan), circuit_(circuit), ways_(ways), sides_(sides) {
  find_segments();
  measure_distances();
  find_beyond();
  give_labels();
}

// One end of it joins nothing.
bool CircuitSegments::is_spare(const Branch& device) const {
  const auto is_free = [&](NodeId node) {
    return circuit_.nodes[node].terminals.size() == 1 && circuit_.at[node].size() == 1;
  };
  return is_free(device.a) || is_free(device.b);
}

void CircuitSegments::find_segments() {
  JoinedSets together(circuit_.nodes.size());
  for (const BranchId id : circuit_.branches.ids()) {
    const Branch& branch = circuit_.branches[id];
    if (branch.kind != BranchKind::device && conducts(circuit_, id, ways_))
      together.join(branch.a.value, branch.b.value);
  }
  std::size_t count = 0;
  segment_of_ = together.numbered(count);
  doors_.resize(count);
  through_.resize(count);
  behind_.resize(count);
  distance_.resize(count);
  has_beyond_.assign(count, false);
  label_.resize(count);
  for (const BranchId id : circuit_.branches.ids()) {
    const Branch& branch = circuit_.branches[id];
    const std::size_t a = segment_of_[branch.a.value], b = segment_of_[branch.b.value];
    if (branch.kind != BranchKind::device || a == b || !sides_.is_feed(branch.a) || is_spare(branch)) continue;
    doors_[a].push_back({id, b});
    doors_[b].push_back({id, a});
  }
  std::map<ItemId, const Supply*> supply_of;
  for (const Supply& supply : sides_.supplies)
    if (supply.converter && supply.sources.empty()) supply_of[*supply.converter] = &supply;
  for (const ConverterPorts& ports : circuit_.converters) {
    const auto supply = supply_of.find(ports.item);
    if (supply == supply_of.end() || supply->second->limited || !sides_.is_feed(ports.in_plus)) continue;
    through_[segment_of_[ports.in_plus.value]].push_back(segment_of_[ports.out_plus.value]);
    behind_[segment_of_[ports.out_plus.value]].push_back(segment_of_[ports.in_plus.value]);
  }
}

// From the batteries; what they do not reach, from limited sources; what is left, from converters without input.
void CircuitSegments::measure_distances() {
  std::vector<std::size_t> batteries, limited, converters;
  for (const Supply& supply : sides_.supplies) {
    const std::size_t segment = segment_of_[supply.plus.value];
    (supply.converter ? converters : supply.limited ? limited : batteries).push_back(segment);
  }
  for (const auto* roots : {&batteries, &limited, &converters}) spread(*roots);
}

void CircuitSegments::spread(const std::vector<std::size_t>& roots) {
  std::deque<std::pair<std::size_t, std::size_t>> front;  // segment, distance
  for (const std::size_t root : roots)
    if (!distance_[root]) front.emplace_back(root, 0);
  while (!front.empty()) {
    const auto [segment, distance] = front.front();
    front.pop_front();
    if (distance_[segment]) continue;
    distance_[segment] = distance;
    order_.push_back(segment);
    for (const std::size_t next : through_[segment])
      if (!distance_[next]) front.emplace_front(next, distance);
    for (const Door& door : doors_[segment])
      if (!distance_[door.to]) front.emplace_back(door.to, distance + 1);
  }
}

void CircuitSegments::find_beyond() {
  for (auto at = order_.rbegin(); at != order_.rend(); ++at) {
    for (const Door& door : doors_[*at])
      if (*distance_[door.to] >= *distance_[*at]) has_beyond_[*at] = true;
    for (const std::size_t next : through_[*at])
      if (has_beyond_[next]) has_beyond_[*at] = true;
  }
}

void CircuitSegments::give_labels() {
  for (const std::size_t segment : order_) {
    if (*distance_[segment] == 0 || has_beyond_[segment]) continue;
    std::vector<BranchId> feeding;
    for (const Door& door : doors_[segment]) feeding.push_back(door.device);
    if (!feeding.empty()) {
      label_[segment] = devices_.size();
      devices_.push_back(std::move(feeding));
      continue;
    }
    // Behind converters alone: theirs, where they agree.
    if (behind_[segment].empty()) continue;
    label_[segment] = label_[behind_[segment].front()];
    for (const std::size_t before : behind_[segment])
      if (label_[before] != label_[segment]) label_[segment].reset();
  }
}

}  // namespace loomleaf
