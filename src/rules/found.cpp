#include "found.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "loomleaf/units/format.h"

namespace loomleaf {

namespace {

Finding begun(const Rule& rule, const std::string& subject, Span span) {
  Finding finding;
  finding.rule = std::string(rule.name);
  finding.severity = rule.severity;
  finding.subjects.push_back(subject);
  finding.span = span;
  return finding;
}

template <class Id>
std::vector<std::string> ids_of(const Plan& plan, std::span<const Id> list) {
  std::vector<std::string> names;
  for (const Id id : list) names.push_back(id_of(plan, id));
  return names;
}

}  // namespace

Finding found(const Rule& rule, const Plan& plan, ItemId subject) {
  return begun(rule, plan.items[subject].id, plan.items[subject].id_span);
}

Finding found(const Rule& rule, const Plan& plan, ConductorId subject) {
  return begun(rule, plan.conductors[subject].id, run_of(plan, subject).id_span);
}

bool exceeds(double is, double may_be) {
  // A millionth: far under what anybody can measure, far over what Newton's method leaves.
  return is > may_be + 1e-6 * std::fabs(may_be) + 1e-9;
}

FigureTexts apart(double is, double may_be, const std::string& unit) {
  const int fewest = std::fabs(is) < 10 && std::fabs(may_be) < 10 ? 2 : 1;
  for (int decimals = fewest;; ++decimals) {
    FigureTexts texts{to_text(is, decimals), to_text(may_be, decimals)};
    if (texts.is == texts.may_be && decimals < 6) continue;
    const std::string behind = unit.empty() ? "" : " " + unit;
    return {texts.is + behind, texts.may_be + behind};
  }
}

FigureTexts set_values(Finding& finding, double is, double may_be, const std::string& unit) {
  finding.values = FindingValues{is, may_be, unit};
  return apart(is, may_be, unit);
}

FigureTexts set_values(Finding& finding, Current is, Current may_be) {
  return set_values(finding, is.in(amperes), may_be.in(amperes), "A");
}

FigureTexts set_values(Finding& finding, Voltage is, Voltage may_be) {
  return set_values(finding, is.in(volts), may_be.in(volts), "V");
}

FigureTexts set_values(Finding& finding, Length is, Length may_be) {
  const FigureTexts exact = set_values(finding, is.in(metres), may_be.in(metres), "m");
  const FigureTexts handy{to_text(is), to_text(may_be)};
  return handy.is == handy.may_be ? exact : handy;
}

std::string at_least(Current current) {
  const double steps = current.in(amperes) < 10 ? 10.0 : 1.0;
  return to_text(std::ceil(current.in(amperes)*steps - 1e-6) / steps, 1) + " A";
}

std::string listed(const std::vector<std::string>& names) {
  constexpr std::size_t most = 8;
  if (names.empty()) return "";
  if (names.size() == 1) return names.front();
  const bool cut = names.size() > most;
  const std::size_t shown = cut ? most : names.size() - 1;
  const auto end = names.begin() + static_cast<std::ptrdiff_t>(shown);
  return fmt::format("{} and {}", fmt::join(names.begin(), end, ", "),
                     cut ? fmt::format("{} more", names.size() - shown) : names.back());
}

std::string all_listed(const std::vector<std::string>& names) {
  if (names.size() < 2) return listed(names);
  return fmt::format("{} and {}", fmt::join(names.begin(), names.end() - 1, ", "), names.back());
}

const std::string& id_of(const Plan& plan, ItemId item) { return plan.items[item].id; }
const std::string& id_of(const Plan& plan, ConductorId conductor) { return plan.conductors[conductor].id; }
std::vector<std::string> names_of(const Plan& plan, std::span<const ItemId> items) { return ids_of(plan, items); }
std::vector<std::string> names_of(const Plan& plan, std::span<const ConductorId> conductors) {
  return ids_of(plan, conductors);
}

const Run& run_of(const Plan& plan, ConductorId conductor) { return plan.runs[plan.conductors[conductor].run]; }

std::string in_case_text(const Study& study, std::size_t in_case) {
  if (in_case >= study.working.cases.size()) return "";
  const Case& at = study.working.cases[in_case];
  const bool ordinary = at.kind == Case::Kind::load && !at.at_highest && study.ways.all[at.ways].text.empty();
  return ordinary ? "" : fmt::format(" (case `{}`)", at.name);
}

std::string in_ways_text(const Study& study, std::size_t ways) {
  const std::string& text = study.ways.all[ways].text;
  return text.empty() ? "" : fmt::format(" with {}", text);
}

std::string sources_text(const std::vector<Provenance>& sources) {
  std::vector<std::string> names, texts;
  for (const Provenance& source : sources) {
    if (source.source.empty() || std::ranges::find(names, source.source) != names.end()) continue;
    names.push_back(source.source);
    texts.push_back(to_text(source));
  }
  return fmt::format("{}", fmt::join(texts, "; "));
}

bool is_too_thin(const ConductorProtection& protection) {
  switch (protection.exposure) {
    case Exposure::protected_:
    case Exposure::tolerated:
      return false;
    case Exposure::too_thin_for_device:
      return true;
    case Exposure::too_far:
    case Exposure::open_stretch:
    case Exposure::exposed_return:
      return !protection.unbounded && protection.let_through;
  }
  return false;
}

bool only_by_a_short(const Checked& checked, ConductorId conductor) {
  const ConductorProtection& protection = checked.study.protection.conductors[conductor];
  if (protection.exposure != Exposure::exposed_return) return false;
  const Sides& sides = checked.study.sides[protection.ways];
  const NodeId node = checked.circuit.branches[checked.circuit.branch_of[conductor]].a;
  return sides.is_feed(node) && sides.is_return(node);
}

IndexedList<TerminalOf, bool> joined_terminals(const Plan& plan) {
  IndexedList<TerminalOf, bool> joined(plan.terminals.size());
  for (const Conductor& conductor : plan.conductors) {
    joined[conductor.from] = true;
    joined[conductor.to] = true;
  }
  for (const Item& item : plan.items) {
    if (item.on) joined[*item.on] = true;
    if (item.on_terminal) joined[*item.on_terminal] = true;
  }
  return joined;
}

std::vector<std::string> free_terminals(const Plan& plan, ItemId item, const IndexedList<TerminalOf, bool>& joined) {
  std::vector<std::string> free;
  for (const TerminalId terminal : plan.items[item].terminals) {
    if (plan.terminals[terminal].role == TerminalRole::also || joined[terminal]) continue;
    free.push_back(terminal_text(plan, terminal));
  }
  return free;
}

}  // namespace loomleaf
