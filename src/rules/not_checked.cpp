#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <tuple>

#include "acceptances.h"
#include "catalogue.h"
#include "conduit_fill.h"
#include "cure.h"
#include "found.h"
#include "highest_voltage.h"
#include "interrupt.h"
#include "larger_device.h"
#include "loomleaf/rules/contacts.h"
#include "loomleaf/rules/joints.h"

namespace loomleaf {

namespace {

// What can be missing: the checks that lack it, what is missing, and what to write into the plan.
struct Gap {
  std::string_view checks, missing, write;
};

constexpr Gap gaps[] = {
    {"overloaded-splice", "no rating is given", "the current that the splice is made for, such as `32 A`"},
    {"overloaded-bus", "no rating is given", "the current that the bus is made for, such as `100 A`"},
    {"overloaded-contact", "no rating is given", "the current that the contact is made for, such as `10 A`"},
    {"overloaded-contact", "no rating is given", "the current of the relay's contact, such as `contact 30 A`"},
    {"overloaded-source", "no current for all day is given", "that current, such as `max 80 A`"},
    {"crowded-splice", "no number of ways is given", "their number, such as `3 ways`"},
    {"crowded-splice", "no sizes that go in are given", "the sizes, such as `takes 0.2..4 mm2`"},
    {"gauge-mismatch and overloaded-wire", "the rulebook has no ampacity for this size", "a size that its tables know"},
    {"gauge-mismatch and overloaded-wire", "the rulebook has no ampacity for this insulation",
     "one that its tables know, such as `insulation 75 C`, where the wire has it"},
    {"fuse-too-small", "no curve says whether a starting surge passes",
     "a family whose curve is known, such as `blade`"},
    {"voltage-drop", "no resistance is known, and it counts as 0",
     "that resistance, such as `5 mohm`, or a family that is known, such as `blade`"},
    {"voltage-rating", "no rated voltage is given", "that voltage, such as `32 V`; of a fuse its family says it too"},
    {"hidden-splice", "no place is given", "the place, such as `at LOCKER`"},
    {"voltage-drop and low-voltage", "loads in series are not worked out", "each load across the supply on its own"},
    {"interrupt-rating and short-not-cleared", "no short-circuit current is given",
     "that current or its resistance, such as `short-circuit 2 kA` or `internal 5 mohm`"},
    {"interrupt-rating", "no breaking capacity is given",
     "that current, such as `breaks 2 kA`, or a family that is known, such as `blade`"},
    {"short-not-cleared", "no curve gives the time to open", "a family whose curve is known, such as `blade`"},
    {"every combination of positions", "there are too many, a part of them was taken",
     "those that are really used as plans of their own, with a switch of one way for each changeover"},
    {"full-conduit", "the stock has no outside diameter for a wire or cable there",
     "that diameter into a copy of the stock's insulations.xml (of a cable without a kind of insulation as "
     "`two_core_mm` "
     "into wires.xml), or wires in place of the cable"},
    {"unfused-run and gauge-mismatch", "what feeds it inside the item that it starts from is not told",
     "the terminal that its potential comes from, such as `BAT+` or `SH.in`, in place of the further one"},
};
enum GapKind : std::size_t {
  splice_rating,
  bus_rating,
  contact_rating,
  relay_rating,
  source_rating,
  ways,
  takes,
  ampacity,
  ampacity_of_insulation,
  curve,
  resistance,
  voltage,
  place,
  series,
  short_circuit,
  breaks,
  opening,
  positions,
  diameter,
  inner_feed,
};

// Gathers like gaps into one finding each; what the plan accepts stands apart from what it does not.
class Collector {
 public:
  explicit Collector(const Plan& plan) : plan_(plan), acceptances_(plan) {}

  void add(GapKind kind, const std::string& subject, Span span) {
    const std::vector<std::size_t> covering = acceptances_.covering(not_checked.name, subject);
    const std::size_t accepted = covering.empty() ? plan_.acceptances.size() : covering.front();
    Finding& finding = by_gap_[{kind, accepted}];
    if (!finding.subjects.empty() && finding.subjects.back() == subject) return;  // the poles of an item come in a row
    if (finding.subjects.empty()) finding.span = span;
    finding.subjects.push_back(subject);
  }
  void add(GapKind kind, ItemId item) { add(kind, plan_.items[item].id, plan_.items[item].id_span); }

  std::vector<Finding> findings() {
    std::vector<Finding> findings;
    for (auto& [key, finding] : by_gap_) {
      const Gap& gap = gaps[key.first];
      finding.rule = std::string(not_checked.name);
      finding.severity = not_checked.severity;
      finding.message = fmt::format("{} not checked for {}: {}", gap.checks, listed(finding.subjects), gap.missing);
      finding.mend = fmt::format("write {}", gap.write);
      finding.source = "common practice";
      findings.push_back(std::move(finding));
    }
    return findings;
  }

 private:
  const Plan& plan_;
  Acceptances acceptances_;
  std::map<std::pair<GapKind, std::size_t>, Finding> by_gap_;
};

void add_items(const Checked& checked, Collector& collector) {
  const IndexedList<ItemOf, ItemEnds> ends = ends_at_items(checked.plan);
  for (const ItemId id : checked.plan.items.ids()) {
    if (ends[id].count() == 0 && !checked.plan.items[id].on) continue;  // not in use: nothing to check
    const Item& item = checked.plan.items[id];
    if (const Splice* splice = item.as<Splice>()) {
      if (!splice->rating) collector.add(splice_rating, id);
      if (!splice->ways) collector.add(ways, id);
      if (!splice->takes) collector.add(takes, id);
    } else if (const Bus* bus = item.as<Bus>()) {
      if (!bus->rating) collector.add(bus_rating, id);
      if (!bus->ways) collector.add(ways, id);
    } else if (const Connector* connector = item.as<Connector>()) {
      if (!connector->takes) collector.add(takes, id);
    } else if (const Source* source = item.as<Source>()) {
      if (!source->is_limited() && !source->max_current) collector.add(source_rating, id);
    } else if (const Device* device = item.as<Device>()) {
      if (!device->rated_voltage && !checked.stock.find_family(device->family)) collector.add(voltage, id);
    } else if (const Switch* contact = item.as<Switch>()) {
      if (!contact->rated_voltage) collector.add(voltage, id);
    }
  }
}

void add_contacts(const Checked& checked, Collector& collector) {
  const IndexedList<TerminalOf, bool> joined = joined_terminals(checked.plan);
  for (const Contact& contact : contacts_of(checked.plan, checked.circuit)) {
    const Branch& branch = checked.circuit.branches[contact.branch];
    const bool in_use = joined[branch.terminal_a] && joined[branch.terminal_b];
    if (contact.rating || !in_use) continue;
    collector.add(checked.plan.items[*branch.item].is<Relay>() ? relay_rating : contact_rating, *branch.item);
  }
}

void add_conductors(const Checked& checked, Collector& collector) {
  for (const ConductorId conductor : checked.plan.conductors.ids()) {
    const ConductorProtection& protection = checked.study.protection.conductors[conductor];
    const bool fed = protection.unbounded || protection.let_through.value_or(Current{}) > Current{};
    const ConductorFigures& figures = checked.study.conductors[conductor];
    if (!fed || figures.ampacity || is_too_thin(protection)) continue;
    collector.add(is_bound_by_insulation(figures) ? ampacity_of_insulation : ampacity, id_of(checked.plan, conductor),
                  run_of(checked.plan, conductor).id_span);
  }
}

// A sense lead of a battery or of a shunt in the feed: on paper its further terminal is joined to nothing, in truth it
// may well be the battery's +.
void add_sense_leads(const Checked& checked, Collector& collector) {
  IndexedList<ItemOf, bool> has_feed_inside(checked.plan.items.size());
  for (const TwoPole& source : checked.circuit.sources) has_feed_inside[source.item] = true;
  for (const BranchId id : checked.circuit.branches.ids()) {
    const Branch& branch = checked.circuit.branches[id];
    if (!branch.item || !checked.plan.items[*branch.item].is<Shunt>()) continue;
    if (std::ranges::any_of(checked.study.sides, [&](const Sides& sides) { return sides.is_feed(branch.a); }))
      has_feed_inside[*branch.item] = true;
  }
  for (const ConductorId conductor : checked.plan.conductors.ids()) {
    const Branch& branch = checked.circuit.branches[checked.circuit.branch_of[conductor]];
    for (const TerminalId id : {branch.terminal_a, branch.terminal_b}) {
      const Terminal& terminal = checked.plan.terminals[id];
      if (terminal.role == TerminalRole::also && has_feed_inside[terminal.item])
        collector.add(inner_feed, id_of(checked.plan, conductor), run_of(checked.plan, conductor).id_span);
    }
  }
}

void add_curves(const Checked& checked, Collector& collector) {
  for (const ItemId id : checked.plan.items.ids())
    if (!surges_of(checked, id).not_judged.empty()) collector.add(curve, id);
}

void add_resistances(const Checked& checked, Collector& collector) {
  for (const BranchId branch : checked.circuit.branches.ids()) {
    const Branch& at = checked.circuit.branches[branch];
    if (!at.conductor && checked.study.working.resistance_unknown[branch]) collector.add(resistance, *at.item);
  }
}

void add_places(const Checked& checked, Collector& collector) {
  const bool any_hidden =
      std::ranges::any_of(checked.plan.places, [](const Place& at) { return !at.cover.empty() && !at.removable; });
  if (!any_hidden) return;
  for (const ItemId id : checked.plan.items.ids()) {
    if (must_be_reached(checked.plan.items[id]) && !checked.plan.items[id].standing) collector.add(place, id);
  }
}

// Above its own voltage nothing is known of a device; that is a matter for voltage-rating.
bool stands_too_high(const Checked& checked, BranchId branch) {
  const Device& device = *checked.plan.items[*checked.circuit.branches[branch].item].as<Device>();
  const FuseFamily* family = checked.stock.find_family(device.family);
  const auto highest = highest_at(checked, branch);
  if (!highest || (!family && !device.rated_voltage)) return false;
  const Voltage rated = device.rated_voltage ? *device.rated_voltage : family->rated_voltage;
  return exceeds(highest->voltage.in(volts), rated.in(volts));
}

void add_shorts(const Checked& checked, Collector& collector) {
  const ShortCircuits& shorts = checked.study.shorts;
  const IndexedList<ItemOf, ItemEnds> ends = ends_at_items(checked.plan);
  for (const ItemId battery : shorts.batteries_unknown)
    if (ends[battery].count() > 0) collector.add(short_circuit, battery);
  for (const BranchId branch : checked.circuit.branches.ids()) {
    const Branch& at = checked.circuit.branches[branch];
    if (at.kind != BranchKind::device || shorts.devices[*at.item].empty()) continue;
    if (!interrupt_rating_of(checked, branch) && !stands_too_high(checked, branch)) collector.add(breaks, *at.item);
  }
  for (const ItemId device : shorts.curves_unknown) collector.add(opening, device);
}

// A leg without a name is told by the runs of which nothing is known.
void add_conduits(const Checked& checked, Collector& collector) {
  for (const LegId id : checked.plan.legs.ids()) {
    const auto fill = conduit_fill_of(checked, id);
    if (!fill || fill->unknown.empty() || is_too_full(*fill)) continue;
    const Leg& leg = checked.plan.legs[id];
    if (!leg.id.empty()) {
      collector.add(diameter, leg.id, leg.span);
      continue;
    }
    for (const std::string& run : fill->unknown) collector.add(diameter, run, leg.span);
  }
}

std::vector<Finding> check(const Checked& checked) {
  Collector collector(checked.plan);
  add_items(checked, collector);
  add_contacts(checked, collector);
  add_conductors(checked, collector);
  add_sense_leads(checked, collector);
  add_curves(checked, collector);
  add_resistances(checked, collector);
  add_places(checked, collector);
  add_shorts(checked, collector);
  add_conduits(checked, collector);
  for (const ItemId load : checked.study.working.series_loads) collector.add(series, load);
  for (const std::vector<ItemId>& group : checked.study.ways.not_combined) {
    for (const ItemId item : group) collector.add(positions, item);
  }
  return collector.findings();
}

}  // namespace

constexpr Rule not_checked = {
    "not-checked",
    Severity::notice,
    "A check that could not be done because the plan, the stock or the rulebook lacks a figure, and the property "
    "that would allow it. Like gaps are one finding.",
    "No finding is not the same as no fault: what was not looked at may still be wrong.",
    "Write the property that is named. Where the figure cannot be had, `accept not-checked on ID \"why\"` says so "
    "on paper.",
    "Common practice.",
    check};

}  // namespace loomleaf
