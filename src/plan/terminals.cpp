#include "terminals.h"

#include <fmt/format.h>

#include "loomleaf/language/words.h"

namespace loomleaf {

namespace {

using Role = TerminalRole;

std::vector<Terminal> make(ItemId item, std::initializer_list<std::pair<Role, std::string_view>> list) {
  std::vector<Terminal> terminals;
  for (const auto& [role, name] : list) terminals.push_back({item, role, std::string(name), 1, 1});
  return terminals;
}

std::vector<Terminal> switch_terminals(ItemId item, const Switch& data) {
  std::vector<Terminal> terminals;
  for (int pole = 1; pole <= data.poles; ++pole) {
    const std::string prefix = data.poles == 1 ? std::string() : fmt::format("{}.", pole);
    terminals.push_back({item, Role::in, prefix + "in", pole, 1});
    for (int way = 1; way <= data.ways; ++way)
      terminals.push_back(
          {item, Role::out, data.ways == 1 ? prefix + "out" : fmt::format("{}out{}", prefix, way), pole, way});
  }
  return terminals;
}

std::vector<Terminal> connector_terminals(ItemId item, const Connector& data) {
  std::vector<Terminal> terminals;
  for (int pole = 1; pole <= data.poles; ++pole)
    terminals.push_back({item, Role::in, fmt::format("in{}", pole), pole, 1});
  for (int pole = 1; pole <= data.poles; ++pole)
    terminals.push_back({item, Role::out, fmt::format("out{}", pole), pole, 1});
  return terminals;
}

std::string key_of(ItemId item, std::string_view name) { return fmt::format("{}.{}", item.value, name); }

}  // namespace

std::vector<Terminal> terminals_of(ItemId item, const ItemData& data) {
  struct Visitor {
    ItemId item;
    std::vector<Terminal> plus_minus() const { return make(item, {{Role::plus, "+"}, {Role::minus, "-"}}); }
    std::vector<Terminal> in_out() const { return make(item, {{Role::in, "in"}, {Role::out, "out"}}); }
    std::vector<Terminal> two_runs() const {
      return make(
          item, {{Role::in_plus, "in+"}, {Role::in_minus, "in-"}, {Role::out_plus, "out+"}, {Role::out_minus, "out-"}});
    }
    std::vector<Terminal> node() const { return make(item, {{Role::node, ""}}); }

    std::vector<Terminal> operator()(const Source&) const { return plus_minus(); }
    std::vector<Terminal> operator()(const Load&) const { return plus_minus(); }
    std::vector<Terminal> operator()(const Device&) const { return in_out(); }
    std::vector<Terminal> operator()(const Shunt&) const { return in_out(); }
    std::vector<Terminal> operator()(const Switch& data) const { return switch_terminals(item, data); }
    std::vector<Terminal> operator()(const Dimmer&) const { return two_runs(); }
    std::vector<Terminal> operator()(const Converter&) const { return two_runs(); }
    std::vector<Terminal> operator()(const Relay&) const {
      return make(item, {{Role::coil_85, "85"},
                         {Role::coil_86, "86"},
                         {Role::common_30, "30"},
                         {Role::make_87, "87"},
                         {Role::break_87a, "87a"}});
    }
    std::vector<Terminal> operator()(const Connector& data) const { return connector_terminals(item, data); }
    std::vector<Terminal> operator()(const Splice&) const { return node(); }
    std::vector<Terminal> operator()(const Bus&) const { return node(); }
    std::vector<Terminal> operator()(const Chassis&) const { return node(); }
    std::vector<Terminal> operator()(const Tail&) const { return node(); }
  };
  return std::visit(Visitor{item}, data);
}

bool TerminalIndex::add(const Terminal& terminal, TerminalId id) {
  if (!by_name_.try_emplace(key_of(terminal.item, terminal.name), id).second) return false;
  by_name_.try_emplace(key_of(terminal.item, lower_case(terminal.name)), id);
  return true;
}

std::optional<TerminalId> TerminalIndex::find(ItemId item, std::string_view name) const {
  auto place = by_name_.find(key_of(item, name));
  if (place == by_name_.end()) place = by_name_.find(key_of(item, lower_case(name)));
  return place == by_name_.end() ? std::nullopt : std::optional(place->second);
}

std::optional<TerminalId> terminal_of_role(const Plan& plan, const Item& item, TerminalRole role) {
  for (const TerminalId id : item.terminals)
    if (plan.terminals[id].role == role) return id;
  return std::nullopt;
}

std::optional<TerminalId> other_side(const Plan& plan, TerminalId id) {
  const Terminal& terminal = plan.terminals[id];
  const Item& item = plan.items[terminal.item];
  const Switch* contact = item.as<Switch>();
  if (contact != nullptr && contact->ways > 1) return std::nullopt;
  // An item's terminals lie one behind the other: a connector's ins before its outs, a switch pole's out behind its in.
  const Connector* connector = item.as<Connector>();
  const auto apart = static_cast<std::uint32_t>(connector != nullptr ? connector->poles : 1);
  switch (terminal.role) {
    case Role::plus:
      return terminal_of_role(plan, item, Role::minus);
    case Role::minus:
      return terminal_of_role(plan, item, Role::plus);
    case Role::in:
      return TerminalId(id.value + apart);
    case Role::out:
      return TerminalId(id.value - apart);
    case Role::in_plus:
      return terminal_of_role(plan, item, Role::out_plus);
    case Role::in_minus:
      return terminal_of_role(plan, item, Role::out_minus);
    case Role::out_plus:
      return terminal_of_role(plan, item, Role::in_plus);
    case Role::out_minus:
      return terminal_of_role(plan, item, Role::in_minus);
    default:
      return std::nullopt;
  }
}

std::optional<TerminalId> joining_terminal(const Plan& plan, const Item& item) {
  if (item.is<Source>() || item.is<Load>()) return terminal_of_role(plan, item, Role::minus);
  const Switch* contact = item.as<Switch>();
  const bool is_one_way = contact != nullptr && contact->ways == 1 && contact->poles == 1;
  if (item.is<Device>() || item.is<Shunt>() || is_one_way) return terminal_of_role(plan, item, Role::in);
  return std::nullopt;
}

std::vector<std::string> texts_of(const Plan& plan, const std::vector<TerminalId>& terminals) {
  std::vector<std::string> texts;
  for (const TerminalId id : terminals) texts.push_back(terminal_text(plan, id));
  return texts;
}

}  // namespace loomleaf
