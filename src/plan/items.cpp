#include <fmt/format.h>

#include "item_data.h"
#include "properties.h"
#include "steps.h"

namespace loomleaf {

namespace {

// A plan of so many terminals is a slip of the pen, and would take memory without end.
constexpr std::size_t most_terminals = 1'000'000;

// All but the name, which is each item's own.
Item read_item(Draft& draft, const Statement& s) {
  Item item;
  item.keyword = name_of(s.keyword);
  item.description = s.description.value_or("");
  item.data = read_item_data(draft, s);
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

void declare_alike_items(Draft& draft, const Statement& s, TerminalIndex& index) {
  const Item alike = read_item(draft, s);
  for (const Name& name : s.ids) {
    if (draft.plan.terminals.size() > most_terminals) {
      draft.forgive(name.id);
      draft.complain(name.span, fmt::format("this plan has more than {} terminals", most_terminals),
                     "fewer items or poles");
      continue;
    }
    Item item = alike;
    item.id = name.id;
    item.id_span = name.span;
    const ItemId id = draft.plan.items.add(std::move(item));
    draft.statement_of.add(&s);
    draft.declare(name, id);
    add_terminals(draft, id, s, index);
  }
}

}  // namespace

void declare_items(Draft& draft, TerminalIndex& terminals) {
  for (const Statement& s : draft.document.statements)
    if (declares_item(s.keyword)) declare_alike_items(draft, s, terminals);
}

}  // namespace loomleaf
