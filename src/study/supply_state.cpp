#include "loomleaf/study/supply_state.h"

#include <algorithm>

namespace loomleaf {

SupplyState::SupplyState(const Plan& plan, const Circuit& circuit, const Sides& sides, SupplyLevel level)
    : sides_(sides), level_(level), sources_(circuit.sources.size()), converters_(circuit.converters.size()) {
  join_supplies();
  wake(circuit);
  give_roles_to_sources(plan, circuit);
  give_roles_to_converters(plan, circuit);
}

// Limited supplies hold where no battery does.
bool SupplyState::holds(const Joined& joined, SupplyId supply) const {
  return !joined.has_battery || !(sides_.supplies[supply].limited || sides_.supplies[supply].converter);
}

void SupplyState::join_supplies() {
  for (const SupplyId id : sides_.supplies.ids()) {
    const Supply& supply = sides_.supplies[id];
    Joined& joined = joined_[{sides_.part_of[supply.plus], sides_.part_of[supply.minus]}];
    joined.supplies.push_back(id);
    joined.has_battery = joined.has_battery || !(supply.limited || supply.converter);
  }
  for (auto& [pair, joined] : joined_) {
    const bool is_plain = std::ranges::none_of(joined.supplies, [&](SupplyId id) {
      return sides_.supplies[id].piece_of || sides_.supplies[id].sources.size() > 1;
    });
    bool first = true;
    for (const SupplyId id : joined.supplies) {
      const Supply& supply = sides_.supplies[id];
      const bool is_held = holds(joined, id);
      if (level_ == SupplyLevel::highest && (is_held || is_plain)) joined.volt = std::max(joined.volt, supply.high);
      if (!is_held) continue;
      joined.lowest = first ? supply.low : std::min(joined.lowest, supply.low);
      first = false;
      joined.live = joined.live || !supply.converter;
    }
    if (level_ == SupplyLevel::lowest) joined.volt = joined.lowest;
  }
}

// Converters wake where a live supply stands at their input, and may then be such a supply for others.
void SupplyState::wake(const Circuit& circuit) {
  std::map<Pair, std::vector<const ConverterPorts*>> waiting;
  std::vector<Pair> live;
  for (const ConverterPorts& ports : circuit.converters)
    waiting[{sides_.part_of[ports.in_plus], sides_.part_of[ports.in_minus]}].push_back(&ports);
  for (const auto& [pair, joined] : joined_)
    if (joined.live) live.push_back(pair);
  while (!live.empty()) {
    const auto found = waiting.find(live.back());
    live.pop_back();
    if (found == waiting.end()) continue;
    for (const ConverterPorts* ports : found->second) {
      const Pair output{sides_.part_of[ports->out_plus], sides_.part_of[ports->out_minus]};
      const auto joined = joined_.find(output);
      if (joined == joined_.end() || joined->second.live) continue;
      joined->second.live = true;
      live.push_back(output);
    }
  }
}

void SupplyState::give_roles_to_sources(const Plan& plan, const Circuit& circuit) {
  const bool lowest = level_ == SupplyLevel::lowest;
  const auto volt_of = [&](ItemId item) {
    const Source& source = *plan.items[item].as<Source>();
    return lowest ? source.low_or_nominal() : source.high_or_nominal();
  };
  std::map<ItemId, std::size_t> position_of;
  for (std::size_t i = 0; i < circuit.sources.size(); ++i) {
    position_of[circuit.sources[i].item] = i;
    sources_[i] = {SupplyRole::holds, volt_of(circuit.sources[i].item), {}};
  }
  for (const auto& [pair, joined] : joined_)
    for (const SupplyId id : joined.supplies) {
      const Supply& supply = sides_.supplies[id];
      if (supply.sources.empty() || supply.converter) continue;
      if (holds(joined, id)) {
        // A chain shares out in proportion what it is lowered or raised to; the most of that counts that a source is
        // a part of.
        const double share = joined.volt / (lowest ? supply.low : supply.high);
        for (const ItemId item : supply.sources) {
          const Voltage volt = volt_of(item) * share;
          SupplyWork& work = sources_[position_of.at(item)];
          work.volt = lowest ? std::min(work.volt, volt) : std::max(work.volt, volt);
        }
      } else if (!supply.piece_of) {
        // The first of a limited chain sets its current, the others stand behind it.
        SupplyWork& first = sources_[position_of.at(supply.sources.front())];
        first.role = SupplyRole::charges;
        first.limit = supply.limit.value_or(Current{});
      }
    }
  // A piece of a chain stands at what its sources do.
  for (auto& [pair, joined] : joined_)
    for (const SupplyId id : joined.supplies) {
      const Supply& supply = sides_.supplies[id];
      if (supply.converter || !holds(joined, id)) continue;
      joined.volt = Voltage{};
      for (const ItemId item : supply.sources) joined.volt += sources_[position_of.at(item)].volt;
      if (lowest) joined.lowest = joined.volt;
      break;
    }
}

void SupplyState::give_roles_to_converters(const Plan& plan, const Circuit& circuit) {
  for (std::size_t i = 0; i < circuit.converters.size(); ++i) {
    const ConverterPorts& ports = circuit.converters[i];
    if (!across(ports.in_plus, ports.in_minus)) continue;
    const Converter& converter = *plan.items[ports.item].as<Converter>();
    const auto joined = joined_.find({sides_.part_of[ports.out_plus], sides_.part_of[ports.out_minus]});
    if (joined == joined_.end()) continue;
    if (joined->second.has_battery)
      converters_[i] = {SupplyRole::charges, converter.out_voltage, converter.rating.value_or(Current{})};
    else
      converters_[i] = {SupplyRole::holds, joined->second.volt, {}};
  }
}

std::optional<SupplyState::Across> SupplyState::across(NodeId plus, NodeId minus) const {
  const auto found = joined_.find({sides_.part_of[plus], sides_.part_of[minus]});
  if (found == joined_.end() || !found->second.live) return std::nullopt;
  for (const SupplyId id : found->second.supplies)
    if (holds(found->second, id)) return Across{id, found->second.volt, found->second.lowest};
  return std::nullopt;
}

Voltage SupplyState::volt_between(const TwoPole& ends) const {
  auto supply = across(ends.plus, ends.minus);
  if (!supply) supply = across(ends.minus, ends.plus);
  return supply ? supply->volt : Voltage{};
}

}  // namespace loomleaf
