#include <fmt/format.h>

#include <algorithm>

#include "catalogue.h"
#include "found.h"
#include "loomleaf/rules/joints.h"

namespace loomleaf {

namespace {

using Joined = IndexedList<TerminalOf, bool>;

// The terminals of an item by what they are, with whether something joins them.
class Terminals {
 public:
  Terminals(const Plan& plan, const Item& item, const Joined& joined) : plan_(plan), item_(item), joined_(joined) {}

  bool any_joined() const {
    return std::ranges::any_of(item_.terminals, [&](TerminalId id) { return joined_[id]; });
  }
  bool joined(TerminalRole role, int pole = 1) const { return any(role, pole, true); }
  void add_free(TerminalRole role, int pole, std::vector<TerminalId>& loose) const {
    for (const TerminalId id : item_.terminals) {
      const Terminal& terminal = plan_.terminals[id];
      if (terminal.role == role && terminal.pole == pole && !joined_[id]) loose.push_back(id);
    }
  }
  int poles() const {
    int most = 1;
    for (const TerminalId id : item_.terminals) most = std::max(most, plan_.terminals[id].pole);
    return most;
  }

 private:
  bool any(TerminalRole role, int pole, bool state) const {
    return std::ranges::any_of(item_.terminals, [&](TerminalId id) {
      const Terminal& terminal = plan_.terminals[id];
      return terminal.role == role && terminal.pole == pole && joined_[id] == state;
    });
  }

  const Plan& plan_;
  const Item& item_;
  const Joined& joined_;
};

// A pole of which one end is joined lacks the other. Of a changeover one way that is joined is enough: a way left free
// is its off position.
void add_poles(const Terminals& terminals, std::vector<TerminalId>& loose) {
  for (int pole = 1; pole <= terminals.poles(); ++pole) {
    const bool in = terminals.joined(TerminalRole::in, pole), out = terminals.joined(TerminalRole::out, pole);
    if (in && !out) terminals.add_free(TerminalRole::out, pole, loose);
    if (out && !in) terminals.add_free(TerminalRole::in, pole, loose);
  }
}

void add_relay(const Terminals& terminals, std::vector<TerminalId>& loose) {
  terminals.add_free(TerminalRole::coil_85, 1, loose);
  terminals.add_free(TerminalRole::coil_86, 1, loose);
  if (!terminals.joined(TerminalRole::common_30)) {
    terminals.add_free(TerminalRole::common_30, 1, loose);
  } else if (!terminals.joined(TerminalRole::make_87) && !terminals.joined(TerminalRole::break_87a)) {
    terminals.add_free(TerminalRole::make_87, 1, loose);
  }
}

// The two negatives of a converter that is not isolated are one: one of them joined serves both.
void add_converter(const Terminals& terminals, bool isolated, std::vector<TerminalId>& loose) {
  terminals.add_free(TerminalRole::in_plus, 1, loose);
  terminals.add_free(TerminalRole::out_plus, 1, loose);
  const bool shared =
      !isolated && (terminals.joined(TerminalRole::in_minus) || terminals.joined(TerminalRole::out_minus));
  if (shared) return;
  terminals.add_free(TerminalRole::in_minus, 1, loose);
  terminals.add_free(TerminalRole::out_minus, 1, loose);
}

std::vector<TerminalId> loose_terminals(const Item& item, const Terminals& terminals) {
  std::vector<TerminalId> loose;
  if (item.is<Device>()) {
    if (!item.on) add_poles(terminals, loose);  // `on` something with its other end free it is a spare way
  } else if (item.is<Switch>() || item.is<Shunt>() || item.is<Connector>()) {
    add_poles(terminals, loose);
  } else if (item.is<Source>() || item.is<Load>()) {
    terminals.add_free(TerminalRole::plus, 1, loose);
    terminals.add_free(TerminalRole::minus, 1, loose);
  } else if (item.is<Dimmer>()) {
    for (const TerminalRole role :
         {TerminalRole::in_plus, TerminalRole::in_minus, TerminalRole::out_plus, TerminalRole::out_minus}) {
      terminals.add_free(role, 1, loose);
    }
  } else if (const Converter* converter = item.as<Converter>()) {
    add_converter(terminals, converter->isolated, loose);
  } else if (item.is<Relay>()) {
    add_relay(terminals, loose);
  }
  return loose;
}

// Whether neither end of a relay's coil is joined.
bool has_idle_coil(const Plan& plan, const std::vector<TerminalId>& free) {
  const auto is_free = [&](TerminalRole role) {
    return std::ranges::any_of(free, [&](TerminalId id) { return plan.terminals[id].role == role; });
  };
  return is_free(TerminalRole::coil_85) && is_free(TerminalRole::coil_86);
}

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  const Plan& plan = checked.plan;
  const Joined joined = joined_terminals(plan);
  const IndexedList<ItemOf, ItemEnds> ends = ends_at_items(plan);
  for (const ItemId id : plan.items.ids()) {
    const Item& item = plan.items[id];
    const Terminals terminals(plan, item, joined);
    if (!terminals.any_joined()) continue;  // unused-item
    if (item.is<Splice>() && ends[id].count() == 1) {
      Finding finding = found(loose_end, plan, id);
      finding.values = FindingValues{1, 2, "ends"};
      finding.message = fmt::format("1 conductor alone ends at {}, a splice joins 2 or more", item.id);
      finding.mend = fmt::format("join the other conductor to {}, or make it a `tail`", item.id);
      finding.source = "common practice";
      finding.subjects.push_back(
          id_of(plan, ends[id].conductors.empty() ? ConductorId{} : ends[id].conductors.front()));
      findings.push_back(std::move(finding));
      continue;
    }
    const std::vector<TerminalId> free = loose_terminals(item, terminals);
    if (free.empty()) continue;
    std::vector<std::string> loose;
    for (const TerminalId terminal : free) loose.push_back(terminal_text(plan, terminal));
    const bool is_idle = has_idle_coil(plan, free);
    Finding finding = found(loose_end, plan, id);
    finding.message =
        fmt::format("nothing is joined to {}, and {} does its work only with {}{}", listed(loose), item.id,
                    loose.size() == 1 ? "it" : "them", is_idle ? ": its contact stays at rest" : "");
    finding.mend = is_idle ? fmt::format("feed one end of the coil of {} and run a return from the other", item.id)
                           : fmt::format("run a conductor to {}", loose.front());
    finding.mend += fmt::format(", or take {} out of the plan", item.id);
    finding.source = "common practice";
    findings.push_back(std::move(finding));
  }
  return findings;
}

}  // namespace

constexpr Rule loose_end = {
    "loose-end",
    Severity::notice,
    "A terminal without which the item cannot do its work is joined to nothing: one end of a fuse, switch or plug "
    "pole, + or - of a source or load, a side of a dimmer or converter, an end of a relay's coil or both, or a "
    "splice with one conductor.",
    "Either the plan lacks a line, or a wire was forgotten: the item will not work. A relay whose coil nothing "
    "feeds never moves.",
    "Add the missing conductor. A wire that is meant to end there for now ends in a `tail`; a fuse `on` a bus "
    "with its other end free is a spare way and no finding.",
    "Common practice.",
    check};

}  // namespace loomleaf
