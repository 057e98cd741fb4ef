#include "bare_names.h"

#include <fmt/format.h>

namespace loomleaf {

namespace {

// How many conductors and items `on` it a terminal has, of whatever writing.
IndexedList<TerminalOf, int> count_joined(const Plan& plan) {
  IndexedList<TerminalOf, int> joined(plan.terminals.size(), 0);
  for (const Conductor& conductor : plan.conductors) {
    ++joined[conductor.from];
    ++joined[conductor.to];
  }
  for (const Item& item : plan.items) {
    if (item.on) ++joined[*item.on];
    if (item.on_terminal) ++joined[*item.on_terminal];
  }
  return joined;
}

bool has_two_sides(const Item& item) { return !item.is<Source>() && !item.is<Load>(); }

void check_both_sides(Draft& draft, const std::vector<Join>& joins) {
  struct First {
    const Join* join = nullptr;
    Span span;
  };
  const Plan& plan = draft.plan;
  const auto joined = count_joined(plan);
  IndexedList<TerminalOf, First> first_bare(plan.terminals.size());
  const auto meet = [&](const Join& join, const EndTerminal& end) {
    const auto other = other_side(plan, end.terminal);
    if (!end.bare || !other || joined[*other] > 0 || !has_two_sides(plan.items[plan.terminals[end.terminal].item]))
      return;
    First& first = first_bare[end.terminal];
    if (first.join == nullptr) {
      first = {&join, end.span};
      return;
    }
    draft.complain(
        end.span,
        fmt::format("`{}` and `{}` both end at {}, and nothing is joined to {}",
                    plan.conductors[first.join->conductor].id, plan.conductors[join.conductor].id,
                    terminal_text(plan, end.terminal), terminal_text(plan, *other)),
        fmt::format("{0} in one of the two; or {1} in full in one, if both belong on that side",
                    terminal_text(plan, *other), terminal_text(plan, end.terminal)),
        Complaint::Also{first.span, fmt::format("`{}` ends here", plan.conductors[first.join->conductor].id)});
  };
  for (const Join& join : joins) {
    meet(join, join.from);
    meet(join, join.to);
  }
}

// The terminal at the bottom of a stack of items `on` each other.
IndexedList<TerminalOf, TerminalId> find_bottoms(const Plan& plan) {
  IndexedList<TerminalOf, TerminalId> bottom;
  for (const TerminalId id : plan.terminals.ids()) bottom.add(id);
  for (const TerminalId start : plan.terminals.ids()) {
    std::vector<TerminalId> way;
    TerminalId at = start;
    const auto below = [&](TerminalId id) {
      const Item& item = plan.items[plan.terminals[id].item];
      return item.on && item.on_terminal == id ? *item.on : id;
    };
    while (bottom[at] == at && below(at) != at) {
      way.push_back(at);
      at = below(at);
    }
    for (const TerminalId id : way) bottom[id] = bottom[at];
  }
  return bottom;
}

void check_bypass(Draft& draft, const std::vector<Join>& joins) {
  const Plan& plan = draft.plan;
  const auto bottom = find_bottoms(plan);
  const auto meet = [&](const Join& join, const EndTerminal& end, TerminalId far) {
    const Item& item = plan.items[plan.terminals[end.terminal].item];
    if (!end.bare || !item.on || bottom[far] != bottom[*item.on_terminal]) return;
    const std::string terminal = terminal_text(plan, end.terminal);
    draft.complain(
        end.span,
        fmt::format("`{}` is `on {}` already: its bare name means {}, and `{}` would run past it", item.id,
                    terminal_text(plan, *item.on), terminal, plan.conductors[join.conductor].id),
        fmt::format("no wire here, or no `on` at `{}`; or {}, if it is meant to run past", item.id, terminal),
        Complaint::Also{item.id_span, "declared here"});
  };
  for (const Join& join : joins) {
    meet(join, join.from, join.to.terminal);
    meet(join, join.to, join.from.terminal);
  }
}

// `wire W1..W2 A to F1 to B` reads as if the current went through F1, and by F1's bare name it does not.
void check_chains(Draft& draft, const std::vector<Join>& joins) {
  const Plan& plan = draft.plan;
  for (std::size_t n = 1; n < joins.size(); ++n) {
    const EndTerminal &in = joins[n - 1].to, &out = joins[n].from;
    const Item& item = plan.items[plan.terminals[in.terminal].item];
    if (in.terminal != out.terminal || in.span != out.span || !in.bare || !item.on || !has_two_sides(item)) continue;
    const std::string terminal = terminal_text(plan, in.terminal);
    draft.complain(in.span,
                   fmt::format("`{}` is `on {}`: its bare name means {}, and this chain would run past it", item.id,
                               terminal_text(plan, *item.on), terminal),
                   fmt::format("a chain that begins at `{}`; or {}, if it is meant to run past", item.id, terminal),
                   Complaint::Also{item.id_span, "declared here"});
  }
}

}  // namespace

void check_bare_names(Draft& draft, const std::vector<Join>& joins) {
  check_both_sides(draft, joins);
  check_bypass(draft, joins);
  check_chains(draft, joins);
}

}  // namespace loomleaf
