#include "ends.h"

#include <fmt/format.h>

#include <algorithm>

namespace loomleaf {

namespace {

using Role = TerminalRole;

std::vector<TerminalId> of_roles(const Plan& plan, const Item& item, std::initializer_list<Role> roles) {
  std::vector<TerminalId> found;
  for (const TerminalId id : item.terminals)
    if (std::find(roles.begin(), roles.end(), plan.terminals[id].role) != roles.end()) found.push_back(id);
  return found;
}

std::vector<TerminalId> own_terminals(const Plan& plan, const Item& item) {
  std::vector<TerminalId> own = item.terminals;
  std::erase_if(own, [&](TerminalId id) { return plan.terminals[id].role == Role::also; });
  return own;
}

bool is_changeover(const Item& item) {
  const Switch* contact = item.as<Switch>();
  return contact != nullptr && contact->ways > 1;
}

// What a bare item may stand for, in order; unclear where neither direction nor pairing chooses.
struct Meaning {
  std::vector<TerminalId> terminals;
  bool is_clear = true;
};

Meaning bare_meaning(const Plan& plan, const Item& item, Direction direction, bool in_cable) {
  if (item.on_terminal) return {{*other_side(plan, *item.on_terminal)}};
  if (item.is<Relay>() || is_changeover(item)) return {own_terminals(plan, item), false};
  const bool leaves = direction == Direction::from;
  std::vector<TerminalId> terminals;
  if (item.is<Dimmer>() || item.is<Converter>())
    terminals = leaves ? of_roles(plan, item, {Role::out_plus, Role::out_minus})
                       : of_roles(plan, item, {Role::in_plus, Role::in_minus});
  else
    terminals = of_roles(plan, item, {leaves ? Role::out : Role::in});
  if (terminals.empty()) terminals = own_terminals(plan, item);
  const bool is_clear = in_cable || terminals.size() == 1;
  return {std::move(terminals), is_clear};
}

// "X1.2" and "S1.2": the pole, by direction.
std::optional<Meaning> pole_meaning(const Plan& plan, const Item& item, std::string_view name, Direction direction) {
  const bool has_poles = item.is<Connector>() || item.is<Switch>();
  const bool is_number = !name.empty() && name.size() < 5 &&
                         std::all_of(name.begin(), name.end(), [](char c) { return c >= '0' && c <= '9'; });
  if (!has_poles || !is_number) return std::nullopt;
  const int pole = std::stoi(std::string(name));
  std::vector<TerminalId> of_pole = own_terminals(plan, item);
  std::erase_if(of_pole, [&](TerminalId id) { return plan.terminals[id].pole != pole; });
  if (of_pole.empty()) return std::nullopt;
  if (is_changeover(item)) return Meaning{of_pole, false};
  const Role role = direction == Direction::from ? Role::out : Role::in;
  std::erase_if(of_pole, [&](TerminalId id) { return plan.terminals[id].role != role; });
  return Meaning{of_pole};
}

// As written for a single item: "BAT+", "F1.out", "S2.1".
std::string item_text(const TerminalName& name) {
  return name.terminal.empty() ? name.item : fmt::format("{}.{}", name.item, name.terminal);
}

void complain_of_terminal(Draft& draft, const Item& item, const TerminalName& name) {
  std::vector<std::string> names;
  for (const TerminalId id : item.terminals)
    if (!draft.plan.terminals[id].name.empty()) names.push_back(draft.plan.terminals[id].name);
  if (names.empty()) {
    draft.complain(name.span,
                   fmt::format("`{}` has no terminal {}: a {} is one joint", item.id, name.terminal, item.keyword),
                   item.id);
    return;
  }
  const auto near = nearest(name.terminal, names);
  const auto texts = texts_of(draft.plan, item.terminals);
  std::string write = enumerate(texts, "or");
  if (near) write = texts[static_cast<std::size_t>(std::find(names.begin(), names.end(), *near) - names.begin())];
  draft.complain(name.span, fmt::format("`{}` has no terminal {}; it has {}", item.id, name.terminal, enumerate(names)),
                 write);
}

void complain_of_unclear(Draft& draft, const TerminalName& name, const std::vector<TerminalId>& candidates) {
  const std::string choice = enumerate(texts_of(draft.plan, candidates), "or");
  draft.complain(name.span, fmt::format("`{}` can mean {} here", item_text(name), choice), choice);
}

std::optional<Meaning> meaning_of(Draft& draft, const TerminalIndex& terminals, const TerminalName& name,
                                  Direction direction, bool in_cable) {
  const auto id = find_item(draft, name);
  if (!id) return std::nullopt;
  const Item& item = draft.plan.items[*id];
  const bool is_troubled = draft.statement_of[*id]->troubled;  // its terminals may be others
  std::optional<Meaning> meaning;
  if (name.terminal.empty()) {
    meaning = bare_meaning(draft.plan, item, direction, in_cable);
  } else if (const auto named = terminals.find(*id, name.terminal)) {
    return Meaning{{*named}};
  } else {
    meaning = pole_meaning(draft.plan, item, name.terminal, direction);
  }
  if (!meaning) {
    if (!is_troubled) complain_of_terminal(draft, item, name);
    return std::nullopt;
  }
  if (!meaning->is_clear) {
    if (!is_troubled) complain_of_unclear(draft, name, meaning->terminals);
    return std::nullopt;
  }
  return meaning;
}

bool is_named(const TerminalIndex& terminals, TerminalId terminal, const Plan& plan, const TerminalName& name) {
  const auto named =
      name.terminal.empty() ? std::nullopt : terminals.find(plan.terminals[terminal].item, name.terminal);
  return named == terminal || plan.terminals[terminal].role == Role::node;
}

}  // namespace

std::optional<std::vector<EndTerminal>> resolve_end(Draft& draft, const TerminalIndex& terminals, const EndList& end,
                                                    Direction direction, bool in_cable) {
  std::vector<EndTerminal> resolved;
  bool is_whole = !end.terminals.empty();
  for (const TerminalName& name : end.terminals) {
    const auto meaning = meaning_of(draft, terminals, name, direction, in_cable);
    if (!meaning) {
      is_whole = false;
      continue;
    }
    for (const TerminalId terminal : meaning->terminals)
      resolved.push_back({terminal, !is_named(terminals, terminal, draft.plan, name), name.span});
  }
  return is_whole ? std::optional(std::move(resolved)) : std::nullopt;
}

std::optional<TerminalId> resolve_host(Draft& draft, const TerminalIndex& terminals, const TerminalName& name) {
  const auto id = find_item(draft, name);
  if (!id) return std::nullopt;
  const Item& item = draft.plan.items[*id];
  if (!name.terminal.empty()) {
    const auto named = terminals.find(*id, name.terminal);
    if (!named) complain_of_terminal(draft, item, name);
    return named;
  }
  if (item.on_terminal) return other_side(draft.plan, *item.on_terminal);
  const auto own = own_terminals(draft.plan, item);
  if (own.size() == 1) return own.front();
  complain_of_unclear(draft, name, own);
  return std::nullopt;
}

}  // namespace loomleaf
