#include <fmt/format.h>

#include "item_data.h"
#include "loomleaf/units/format.h"
#include "properties.h"
#include "steps.h"

namespace loomleaf {

namespace {

// A plan of so many terminals is a slip of the pen, and would take memory without end.
constexpr std::size_t most_terminals = 500'000;

// All but the name, which is each item's own.
Item read_item(const Statement& s) {
  Item item;
  item.keyword = name_of(s.keyword);
  item.description = s.description.value_or("");
  item.data = read_item_data(s);
  item.hole = given<Length>(s, PropertyKind::hole);
  item.cut_out = given<Rectangle>(s, PropertyKind::cut_out);
  item.later = says(s, PropertyKind::later);
  item.note = text_under(s, PropertyKind::note);
  item.part = text_under(s, PropertyKind::part);
  item.span = s.span;
  return item;
}

void add_terminals(Draft& draft, ItemId id, const Statement& s, TerminalIndex& index) {
  Plan& plan = draft.plan;
  for (Terminal& terminal : terminals_of(id, plan.items[id].data)) {
    const TerminalId terminal_id = plan.terminals.add(terminal);
    index.add(terminal, terminal_id);
    plan.items[id].terminals.push_back(terminal_id);
  }
  const auto* also = value_of<std::vector<Name>>(s, PropertyKind::also);
  if (also == nullptr) return;
  for (const Name& name : *also) {
    const Terminal terminal{id, TerminalRole::also, name.id, 1, 1};
    if (!index.add(terminal, plan.terminals.end_id())) {
      draft.complain(name.span, fmt::format("`{}` has a terminal {} already", plan.items[id].id, name.id),
                     "another name");
      continue;
    }
    plan.items[id].terminals.push_back(plan.terminals.add(terminal));
  }
}

void check_load_voltage(Draft& draft, const Statement& s) {
  const std::vector<Voltage>& voltages = draft.plan.system.voltages;
  if (s.keyword != Keyword::load || s.troubled || says(s, PropertyKind::voltage) || voltages.size() < 2) return;
  std::vector<std::string> texts;
  for (const Voltage voltage : voltages) texts.push_back(to_text(voltage));
  draft.complain(name_span(s), "this load does not say its voltage, and `system` names several",
                 enumerate(texts, "or"));
}

// Whether there was room for its terminals.
bool add_item(Draft& draft, Item item, const Name& name, const Statement& s, TerminalIndex& index) {
  if (draft.plan.terminals.size() >= most_terminals) return false;
  item.id = name.id;
  item.id_span = name.span;
  const ItemId id = draft.plan.items.add(std::move(item));
  draft.statement_of.add(&s);
  draft.declare(name, id);
  add_terminals(draft, id, s, index);
  return true;
}

}  // namespace

void declare_items(Draft& draft, TerminalIndex& terminals) {
  bool has_room = true;
  for (const Statement& s : draft.document.statements) {
    if (!declares_item(s.keyword)) continue;
    check_load_voltage(draft, s);
    const Item alike = read_item(s);
    for (const Name& name : s.ids) {
      const bool had_room = has_room;
      has_room = has_room && add_item(draft, alike, name, s, terminals);
      if (has_room) continue;
      draft.forgive(name.id);
      if (had_room)
        draft.complain(name.span, fmt::format("a plan has at most {} terminals", most_terminals),
                       "fewer items, or fewer poles");
    }
  }
}

}  // namespace loomleaf
