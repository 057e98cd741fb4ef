#include "turned_sources.h"

#include <algorithm>

namespace loomleaf {

TurnedSources::TurnedSources(const Checked& checked, const Sides& sides) : checked_(checked), sides_(sides) {
  if (sides.shorts.empty()) return;
  const Circuit& circuit = checked.circuit;
  for (const TwoPole& source : circuit.sources) {
    const bool is_battery = !checked.plan.items[source.item].as<Source>()->is_limited();
    add_source(source.item, source.plus, source.minus, is_battery);
  }
  for (const ConverterPorts& ports : circuit.converters) {
    add_source(ports.item, ports.out_plus, ports.out_minus, false);
    add_consumer(ports.in_plus, ports.in_minus);
  }
  for (const TwoPole& load : circuit.loads) add_consumer(load.plus, load.minus);
}

void TurnedSources::add_source(ItemId item, NodeId plus, NodeId minus, bool is_battery) {
  const Across across{sides_.part_of[plus], sides_.part_of[minus]};
  across_[item] = across;
  Group& group = groups_[across];
  group.sources.push_back(item);
  group.any_battery = group.any_battery || is_battery;
}

void TurnedSources::add_consumer(NodeId plus, NodeId minus) {
  ++groups_[{sides_.part_of[plus], sides_.part_of[minus]}].consumers;
}

// Two like sources whose sum is a voltage of the system.
bool TurnedSources::may_be_in_series(ItemId source) const {
  constexpr double well_above = 1.5;
  const Source* as = checked_.plan.items[source].as<Source>();
  return as && std::ranges::any_of(checked_.plan.system.voltages,
                                   [&](Voltage voltage) { return voltage > as->nominal * well_above; });
}

std::vector<ItemId> TurnedSources::to_turn(const DeadShort& dead) const {
  const Supply& ring = sides_.supplies[dead.supply];
  std::vector<ItemId> members = ring.sources;
  if (ring.converter) members.push_back(*ring.converter);
  if (members.size() < 2) return {};
  const Across one_way = across_.at(members.front());
  const Across other_way{one_way.second, one_way.first};
  const bool is_pair = std::ranges::all_of(members, [&](ItemId item) {
    const Across& across = across_.at(item);
    return across == one_way || across == other_way;
  });
  if (!is_pair) {
    // A bank in series that closes on itself through a single charger.
    std::erase_if(members, [&](ItemId item) {
      const Source* source = checked_.plan.items[item].as<Source>();
      return source && !source->is_limited();
    });
    return members.size() == 1 ? members : std::vector<ItemId>{};
  }
  const Group& one = groups_.at(one_way);
  const Group& other = groups_.at(other_way);
  if (one.count() != other.count()) return one.count() < other.count() ? one.sources : other.sources;
  if (one.any_battery != other.any_battery) return one.any_battery ? other.sources : one.sources;
  if (one.any_battery && may_be_in_series(members.front())) return {};
  return one.sources.front() < other.sources.front() ? other.sources : one.sources;
}

}  // namespace loomleaf
