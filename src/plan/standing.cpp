// Where items stand: `at` a place, or `on` another item.
#include <fmt/format.h>

#include <algorithm>

#include "ends.h"
#include "properties.h"
#include "steps.h"

namespace loomleaf {

namespace {

void place_items_at(Draft& draft) {
  Plan& plan = draft.plan;
  const Statement* statement = nullptr;
  std::optional<PlaceId> place;
  int count = 0;  // which of its statement's items this is
  for (const ItemId id : plan.items.ids()) {
    const bool is_first = draft.statement_of[id] != statement;
    statement = draft.statement_of[id];
    count = is_first ? 0 : count + 1;
    const Position* position = value_of<Position>(*statement, PropertyKind::at);
    if (position == nullptr) continue;
    if (is_first) {
      place = find_place(draft, position->place);
      if (!place) plan.ways_unclear = true;
    }
    if (!place) continue;
    Standing standing{*place, position->offset};
    if (position->every) standing.offset = position->offset.value_or(Length{}) + *position->every * count;
    plan.items[id].standing = standing;
  }
}

// The terminal by which each item is joined comes first: a bare name in another's `on` asks for it.
void choose_joining_terminals(Draft& draft) {
  for (const ItemId id : draft.plan.items.ids()) {
    Item& item = draft.plan.items[id];
    const Property* on = find_property(*draft.statement_of[id], PropertyKind::on);
    if (on == nullptr) continue;
    item.on_terminal = joining_terminal(draft.plan, item);
    if (!item.on_terminal)
      draft.complain(on->span,
                     fmt::format("a {} cannot be `on` something: it does not say by which terminal", item.keyword),
                     "a wire to it, and `at` for where it stands");
  }
}

void resolve_on(Draft& draft, const TerminalIndex& terminals) {
  for (const ItemId id : draft.plan.items.ids()) {
    if (!draft.plan.items[id].on_terminal) continue;
    const TerminalName* name = value_of<TerminalName>(*draft.statement_of[id], PropertyKind::on);
    if (name != nullptr) draft.plan.items[id].on = resolve_host(draft, terminals, *name);
  }
}

std::optional<ItemId> host_of(const Plan& plan, ItemId id) {
  const auto on = plan.items[id].on;
  return on ? std::optional(plan.terminals[*on].item) : std::nullopt;
}

void complain_of_circle(Draft& draft, ItemId first) {
  std::vector<std::string> ids{draft.plan.items[first].id};
  for (auto at = host_of(draft.plan, first); at && *at != first; at = host_of(draft.plan, *at))
    ids.push_back(draft.plan.items[*at].id);
  const Span span = find_property(*draft.statement_of[first], PropertyKind::on)->span;
  const std::string message = ids.size() == 1 ? fmt::format("`{}` is `on` itself", ids.front())
                                              : fmt::format("{} are `on` each other in a circle", enumerate(ids));
  draft.complain(span, message, "`on` the bus, chassis or terminal that they sit on");
  draft.plan.items[first].on.reset();
}

// Every item `on` something stands where that stands, whatever number of steps away. One pass: the items on the way are
// marked by the walk that met them first, so that a circle is the walk that meets itself.
void follow_hosts(Draft& draft) {
  Plan& plan = draft.plan;
  IndexedList<ItemOf, std::uint32_t> walk_of(plan.items.size(), 0);
  for (const ItemId start : plan.items.ids()) {
    const std::uint32_t walk = start.value + 1;
    std::vector<ItemId> way;
    std::optional<ItemId> at = start;
    while (at && walk_of[*at] == 0) {
      walk_of[*at] = walk;
      way.push_back(*at);
      at = host_of(plan, *at);
    }
    if (at && walk_of[*at] == walk)
      complain_of_circle(draft, *std::min_element(std::find(way.begin(), way.end(), *at), way.end()));
    std::reverse(way.begin(), way.end());
    for (const ItemId id : way) {
      const auto host = host_of(plan, id);
      if (!host || !plan.items[*host].standing) continue;
      Item& item = plan.items[id];
      const Standing& there = *plan.items[*host].standing;
      if (item.standing && item.standing->place != there.place)
        draft.complain(value_of<Position>(*draft.statement_of[id], PropertyKind::at)->place.span,
                       fmt::format("`{}` is `on {}`, and that stands at {}", item.id, plan.items[*host].id,
                                   plan.places[there.place].id),
                       "`on` alone; or a wire, where the two are apart");
      else if (!item.standing)
        item.standing = there;
    }
  }
}

}  // namespace

void place_items(Draft& draft, const TerminalIndex& terminals) {
  place_items_at(draft);
  choose_joining_terminals(draft);
  resolve_on(draft, terminals);
  follow_hosts(draft);
}

}  // namespace loomleaf
