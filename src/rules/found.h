// How a finding is begun and worded: its subject and place, its figures, lists of names.
#pragma once

#include <span>
#include <string>
#include <utility>
#include <vector>

#include "loomleaf/rules/rule.h"

namespace loomleaf {

// A finding of this rule on this subject, still without its words.
Finding found(const Rule& rule, const Plan& plan, ItemId subject);
Finding found(const Rule& rule, const Plan& plan, ConductorId subject);

// Whether a worked-out figure is over its limit by more than the rounding of the solution.
bool exceeds(double is, double may_be);

// Two figures of one unit with as many decimals as it takes to tell them apart: "10.004 A", "10 A".
struct FigureTexts {
  std::string is, may_be;
};
FigureTexts apart(double is, double may_be, const std::string& unit);

// Fills in the values of a finding and gives their texts.
FigureTexts set_values(Finding& finding, double is, double may_be, const std::string& unit);
FigureTexts set_values(Finding& finding, Current is, Current may_be);
FigureTexts set_values(Finding& finding, Voltage is, Voltage may_be);
FigureTexts set_values(Finding& finding, Length is, Length may_be);  // values in m, texts in mm below 1 m

// A current rounded up to what one would ask for in a shop: "8.1 A", "13 A".
std::string at_least(Current current);

// "F1", "F1 and F2", "F1, F2 and F3"; a long list ends with "... and 12 more".
std::string listed(const std::vector<std::string>& names);
// The same with all of them: for what has to be done.
std::string all_listed(const std::vector<std::string>& names);
std::vector<std::string> names_of(const Plan& plan, std::span<const ItemId> items);
std::vector<std::string> names_of(const Plan& plan, std::span<const ConductorId> conductors);

// "W5", "C1.red"; of a run "C1".
const std::string& id_of(const Plan& plan, ItemId item);
const std::string& id_of(const Plan& plan, ConductorId conductor);
const Run& run_of(const Plan& plan, ConductorId conductor);

// " in case S1=2", or nothing where the case is the first one: for the end of a message.
std::string in_case_text(const Study& study, std::size_t in_case);
std::string in_ways_text(const Study& study, std::size_t ways);

// Sources joined with "; ", each once, unknown ones left out.
std::string sources_text(const std::vector<Provenance>& sources);

// Whether more than it may carry can flow in a conductor; a battery's own current is a matter for unfused-run.
bool is_too_thin(const ConductorProtection& protection);

// Whether what is said of this conductor as a return comes from a dead short alone: it lies on the feed side too, and
// the short is the finding.
bool only_by_a_short(const Checked& checked, ConductorId conductor);

// Whether any conductor, `on` or an `on` of another item joins each terminal.
IndexedList<TerminalOf, bool> joined_terminals(const Plan& plan);
// The terminals of an item that nothing joins, sense leads and the like (`also`) left out.
std::vector<std::string> free_terminals(const Plan& plan, ItemId item, const IndexedList<TerminalOf, bool>& joined);

}  // namespace loomleaf
