#include "fault_supplies.h"

#include <algorithm>
#include <set>

#include "loomleaf/circuit/joined_sets.h"

namespace loomleaf {

std::optional<Resistance> internal_resistance(const Source& battery) {
  if (battery.internal) return battery.internal;
  if (battery.short_circuit && *battery.short_circuit > Current{}) return battery.nominal / *battery.short_circuit;
  return std::nullopt;
}

FaultSupplies::FaultSupplies(const Plan& plan, const Circuit& circuit, const Ways& ways, const Sides& sides,
                             const BranchResistances& resistances)
    : plan_(plan),
      circuit_(circuit),
      sides_(sides),
      state_(plan, circuit, sides),
      passes_(circuit.branches.size(), false),
      siemens_(circuit.branches.size()),
      feeds_(sides.plus_in.size()),
      backs_(sides.plus_in.size()) {
  for (const BranchId id : circuit.branches.ids()) {
    passes_[id.value] = conducts(circuit, id, ways) && is_sound(circuit.branches[id].a);
    siemens_[id] = fault_siemens(resistances.value[id].in(ohms));
  }
  take_sources(plan, circuit);
  take_converters(plan, circuit);
  sum_up(plan);
  mark_what_meets_batteries();
  count_supplies();
}

bool FaultSupplies::is_sound(NodeId node) const {
  return !sides_.island_has_no_working_point[static_cast<std::size_t>(sides_.island_of[node])];
}

void FaultSupplies::take_sources(const Plan& plan, const Circuit& circuit) {
  for (std::size_t i = 0; i < circuit.sources.size(); ++i) {
    const TwoPole& pole = circuit.sources[i];
    if (!is_sound(pole.plus)) continue;
    const Source& source = *plan.items[pole.item].as<Source>();
    const SupplyWork& work = state_.source(i);
    if (work.role == SupplyRole::charges) {
      pushing_.push_back({pole.plus, pole.minus, work.limit.in(amperes)});
      continue;
    }
    std::optional<Resistance> internal = source.is_limited() ? Resistance{} : internal_resistance(source);
    if (!internal) continue;
    held_.push_back({pole.plus, pole.minus, work.volt.in(volts), source.nominal.in(volts),
                     fault_siemens(internal->in(ohms)), source.is_limited() ? source.limit.in(amperes) : 0.0, false});
  }
}

void FaultSupplies::take_converters(const Plan& plan, const Circuit& circuit) {
  for (std::size_t i = 0; i < circuit.converters.size(); ++i) {
    const ConverterPorts& ports = circuit.converters[i];
    const SupplyWork& work = state_.converter(i);
    if (work.role == SupplyRole::dead || !is_sound(ports.out_plus)) continue;
    if (work.role == SupplyRole::charges) {
      pushing_.push_back({ports.out_plus, ports.out_minus, work.limit.in(amperes)});
    } else {
      const Converter& converter = *plan.items[ports.item].as<Converter>();
      held_.push_back({ports.out_plus, ports.out_minus, work.volt.in(volts), converter.out_voltage.in(volts),
                       fault_siemens(0.0), converter.rating.value_or(Current{}).in(amperes), false});
    }
  }
}

double FaultSupplies::gives(const Supply& supply) const {
  double ohm = 0.0;
  for (const ItemId source : supply.sources) {
    const auto internal = internal_resistance(*plan_.items[source].as<Source>());
    if (!internal) return 0.0;
    ohm += internal->in(ohms);
  }
  return supply.low.in(volts)*fault_siemens(ohm);
}

void FaultSupplies::sum_up(const Plan& plan) {
  std::set<ItemId> unknown;
  for (const Supply& supply : sides_.supplies) {
    const PartId plus = sides_.part_of[supply.plus], minus = sides_.part_of[supply.minus];
    const bool battery = !supply.limited && !supply.converter;
    for (FeedOfPart* part : {&feeds_[plus], &backs_[minus]}) {
      part->battery = part->battery || battery;
      if (!battery && !supply.piece_of && supply.limit) part->limit_A += supply.limit->in(amperes);
      if (!battery) continue;
      for (const ItemId item : supply.sources) {
        if (internal_resistance(*plan.items[item].as<Source>())) continue;
        part->unknown = true;
        unknown.insert(item);
      }
    }
  }
  unknown_batteries_.assign(unknown.begin(), unknown.end());
  for (const Supply& supply : sides_.supplies) {
    const bool battery = !supply.limited && !supply.converter;
    if (battery || !feeds_[sides_.part_of[supply.plus]].battery) pluses_.push_back(supply.plus);
    if (battery || !backs_[sides_.part_of[supply.minus]].battery) minuses_.push_back(supply.minus);
  }
}

// Feeds that are joined by a source between them, one on top of the other, act together.
void FaultSupplies::mark_what_meets_batteries() {
  JoinedSets together(feeds_.size());
  const auto part = [this](NodeId node) { return sides_.part_of[node].value; };
  const auto join = [&](NodeId plus, NodeId minus) {
    if (is_feed(plus) && is_feed(minus)) together.join(part(plus), part(minus));
  };
  for (const TwoPole& source : circuit_.sources) join(source.plus, source.minus);
  for (const ConverterPorts& converter : circuit_.converters) join(converter.out_plus, converter.out_minus);
  std::vector<bool> has_battery(feeds_.size(), false);
  for (const PartId id : feeds_.ids())
    if (feeds_[id].battery) has_battery[together.root(id.value)] = true;
  for (Held& held : held_) held.meets_battery = has_battery[together.root(part(held.plus))];
}

FeedOfPart FaultSupplies::feed_across(NodeId plus, NodeId minus) const {
  FeedOfPart feed;
  double pieces_A = 0.0;  // of a chain: where it is tapped
  for (const SupplyId id : sides_.across(plus, minus)) {
    const Supply& supply = sides_.supplies[id];
    if (!supply.limited && !supply.converter)
      feed.battery = true;
    else if (supply.limit)
      (supply.piece_of ? pieces_A : feed.limit_A) += supply.limit->in(amperes);
  }
  if (!feed.feeds()) feed.limit_A = pieces_A;
  return feed.feeds() ? feed : feed_of(plus);
}

void FaultSupplies::count_supplies() {
  forest_.emplace(circuit_, passes_);
  supplies_before_.assign(circuit_.nodes.size() + 1, 0);
  for (const std::vector<NodeId>* list : {&pluses_, &minuses_})
    for (const NodeId node : *list) ++supplies_before_[forest_->position(node) + 1];
  for (std::size_t i = 1; i < supplies_before_.size(); ++i) supplies_before_[i] += supplies_before_[i - 1];
}

bool FaultSupplies::leads_to_supply(BranchId branch, NodeId from) const {
  const std::optional<WalkSpan>& side = forest_->side_of_bridge(branch);
  if (!side) return true;
  const auto count = [&](const WalkSpan& span) { return supplies_before_[span.last] - supplies_before_[span.first]; };
  const std::size_t within = count(*side), all = count(forest_->group(forest_->group_of(from)));
  return side->contains(forest_->position(from)) ? all > within : within > 0;
}

}  // namespace loomleaf
