#include "loomleaf/study/polarity.h"

#include <optional>

namespace loomleaf {
namespace {

std::optional<TerminalId> terminal_of(const Plan& plan, const Item& item, TerminalRole role) {
  for (const TerminalId terminal : item.terminals)
    if (plan.terminals[terminal].role == role) return terminal;
  return std::nullopt;
}

}  // namespace

bool is_polarised(const Item& item) {
  if (const Load* load = item.as<Load>())
    return load->kind == Load::Kind::electronic || load->kind == Load::Kind::constant_current;
  return item.is<Source>() || item.is<Dimmer>() || item.is<Converter>();
}

Polarity::Polarity(const Plan& plan, const Circuit& circuit, const Sides& sides)
    : plan_(plan), circuit_(circuit), sides_(sides), ends_(sides.plus_in.size()) {
  for (const TwoPole& source : circuit.sources) {
    ++ends_[sides.part_of[source.plus]].plus;
    ++ends_[sides.part_of[source.minus]].minus;
    across_.emplace(sides.part_of[source.plus], sides.part_of[source.minus]);
  }
  for (const ConverterPorts& converter : circuit.converters) {
    ++ends_[sides.part_of[converter.out_plus]].plus;
    ++ends_[sides.part_of[converter.out_minus]].minus;
    across_.emplace(sides.part_of[converter.out_plus], sides.part_of[converter.out_minus]);
  }
  for (const Supply& supply : sides.supplies)  // chains
    across_.emplace(sides.part_of[supply.plus], sides.part_of[supply.minus]);
}

Polarity::Ends Polarity::ends_at(NodeId node, const Item& but) const {
  const PartId part = sides_.part_of[node];
  Ends ends = ends_[part];
  if (!but.is<Source>() && !but.is<Converter>()) return ends;
  for (const TerminalId terminal : but.terminals) {
    if (sides_.part_of[circuit_.node_of[terminal]] != part) continue;
    const TerminalRole role = plan_.terminals[terminal].role;
    if (role == TerminalRole::plus || role == TerminalRole::out_plus) --ends.plus;
    if (role == TerminalRole::minus || role == TerminalRole::out_minus) --ends.minus;
  }
  return ends;
}

bool Polarity::is_reversed(ItemId id, TerminalRole plus, TerminalRole minus) const {
  const Item& item = plan_.items[id];
  const std::optional<TerminalId> plus_terminal = terminal_of(plan_, item, plus);
  const std::optional<TerminalId> minus_terminal = terminal_of(plan_, item, minus);
  if (!plus_terminal || !minus_terminal) return false;
  // The middle of a series chain, where both meet, is feed.
  const auto is_feed = [](const Ends& ends) { return ends.plus > 0; };
  const Ends at_plus = ends_at(circuit_.node_of[*plus_terminal], item);
  const Ends at_minus = ends_at(circuit_.node_of[*minus_terminal], item);
  // A source between two others of a bank lies like that, unless something stands across it the other way round.
  const PartId plus_part = sides_.part_of[circuit_.node_of[*plus_terminal]];
  const PartId minus_part = sides_.part_of[circuit_.node_of[*minus_terminal]];
  if (item.is<Source>() && !across_.count({minus_part, plus_part})) return false;
  return at_plus.minus > 0 && !is_feed(at_plus) && is_feed(at_minus) && at_minus.minus == 0;
}

bool Polarity::is_reversed(ItemId item) const {
  if (!is_polarised(plan_.items[item])) return false;
  return is_reversed(item, TerminalRole::plus, TerminalRole::minus) ||
         is_reversed(item, TerminalRole::in_plus, TerminalRole::in_minus) ||
         is_reversed(item, TerminalRole::out_plus, TerminalRole::out_minus);
}

}  // namespace loomleaf
