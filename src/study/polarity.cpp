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
  count_users();
  find_chains_against_their_rows();
}

void Polarity::count_users() {
  const auto count = [this](ItemId item, NodeId plus, NodeId minus) {
    Ends &at_plus = ends_[sides_.part_of[plus]], &at_minus = ends_[sides_.part_of[minus]];
    const bool polarised = is_polarised(plan_.items[item]);
    ++(polarised ? at_plus.user_plus : at_plus.other_user);
    ++(polarised ? at_minus.user_minus : at_minus.other_user);
  };
  for (const std::vector<TwoPole>* list : {&circuit_.loads, &circuit_.coils})
    for (const TwoPole& user : *list) count(user.item, user.plus, user.minus);
  for (const ConverterPorts& converter : circuit_.converters)
    count(converter.item, converter.in_plus, converter.in_minus);
}

void Polarity::find_chains_against_their_rows() {
  std::set<ItemId> seen;
  for (const Supply& supply : sides_.supplies) {
    if (supply.piece_of || supply.converter) continue;
    if (!seen.insert(supply.sources.front()).second) continue;  // each source's own chain comes first
    seen.insert(supply.sources.begin(), supply.sources.end());
    const Ends &plus = ends_[sides_.part_of[supply.plus]], &minus = ends_[sides_.part_of[supply.minus]];
    const bool like_at_plus = plus.plus == 2 && plus.minus == 0 && plus.users() == 0;
    const bool like_at_minus = minus.minus == 2 && minus.plus == 0 && minus.users() == 0;
    const bool faces_at_plus =
        plus.plus == 1 && plus.minus == 0 && plus.user_minus > 0 && plus.user_minus == plus.users();
    const bool faces_at_minus =
        minus.minus == 1 && minus.plus == 0 && minus.user_plus > 0 && minus.user_plus == minus.users();
    const bool has_one_beside_it = sides_.across(supply.plus, supply.minus).size() > 1;
    if ((like_at_plus && like_at_minus && !has_one_beside_it) || (like_at_plus && faces_at_minus) ||
        (faces_at_plus && like_at_minus))
      against_.insert(supply.sources.begin(), supply.sources.end());
  }
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
  return stands_against_its_row(item) || is_reversed(item, TerminalRole::plus, TerminalRole::minus) ||
         is_reversed(item, TerminalRole::in_plus, TerminalRole::in_minus) ||
         is_reversed(item, TerminalRole::out_plus, TerminalRole::out_minus);
}

}  // namespace loomleaf
