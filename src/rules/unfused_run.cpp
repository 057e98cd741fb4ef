#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include "catalogue.h"
#include "cure.h"
#include "found.h"
#include "loomleaf/units/format.h"
#include "steps.h"

namespace loomleaf {

namespace {

bool is_at_battery(const Checked& checked, TerminalId terminal) {
  const NodeId node = checked.circuit.node_of[terminal];
  for (const TwoPole& source : checked.circuit.sources) {
    const Source* as = checked.plan.items[source.item].as<Source>();
    if (as && !as->is_limited() && (source.plus == node || source.minus == node)) return true;
  }
  return false;
}

// The length that the rulebook would tolerate here if the run were sheathed all the way; zero where that earns nothing.
Length tolerated_if_sheathed(const Checked& checked, const ConductorProtection& protection) {
  Length longest{};
  for (const PositionRow& row : checked.rulebook.positions) {
    if (!row.only_sheathed || row.only_starter || row.only_from_charger) continue;
    if (row.only_from_battery && !(protection.fed_at && is_at_battery(checked, *protection.fed_at))) continue;
    longest = std::max(longest, row.longest.value_or(metres(std::numeric_limits<double>::infinity())));
  }
  return longest;
}

std::string start_of(const Checked& checked, const ConductorProtection& protection) {
  return protection.fed_at ? terminal_text(checked.plan, *protection.fed_at) : std::string("where it is fed");
}

Finding too_far(const Checked& checked, ConductorId conductor, const ConductorProtection& protection) {
  Finding finding = found(unfused_run, checked.plan, conductor);
  const Length is = protection.reach.value_or(checked.study.conductors[conductor].length);
  const Length may_be =
      protection.tolerance && protection.tolerance->longest ? *protection.tolerance->longest : Length{};
  const FigureTexts texts = set_values(finding, is, may_be);
  const std::string start = start_of(checked, protection);
  finding.message = fmt::format("{} reaches {} from {} before any fuse, at most {} is allowed", finding.subjects[0],
                                texts.is, start, texts.may_be);
  finding.mend = fmt::format("shorten the way from {} to the first fuse to {}, or {}", start, texts.may_be,
                             fuse_text(checked, conductor, "that near"));
  const Route& route = checked.routes.runs[checked.plan.conductors[conductor].run];
  if (is <= tolerated_if_sheathed(checked, protection) && !route.sheathed_throughout) {
    finding.mend += fmt::format(", or sheathe {} all the way", run_of(checked.plan, conductor).id);
  }
  if (protection.tolerance) finding.source = to_text(protection.tolerance->from);
  return finding;
}

Finding never_tolerated(const Checked& checked, ConductorId conductor, const ConductorProtection& protection) {
  Finding finding = found(unfused_run, checked.plan, conductor);
  const ConductorFigures& figures = checked.study.conductors[conductor];
  const Length is = protection.reach.value_or(figures.length);
  const FigureTexts texts = set_values(finding, is, Length{});
  const std::string& id = finding.subjects[0];
  if (protection.exposure == Exposure::exposed_return) {
    finding.message = fmt::format(
        "{} of {} bring back all that a battery can give, through no fuse: no length of it is allowed", texts.is, id);
    finding.mend =
        fuse_text(checked, conductor, fmt::format("where the current that comes back through {} sets out", id));
  } else {
    std::vector<std::string> ends = names_of(checked.plan, protection.beyond);
    for (const ConductorId further : protection.further) ends.push_back(id_of(checked.plan, further));
    const std::string end = listed(ends);
    const std::string start = start_of(checked, protection);
    finding.message = fmt::format(
        "a short on {} draws all that a battery can give: it reaches {} from {} through no fuse{}, no length is "
        "allowed",
        id, texts.is, start, end.empty() ? "" : " on the way to " + end);
    finding.mend = fuse_text(checked, conductor, "close to " + start);
    finding.subjects.insert(finding.subjects.end(), ends.begin(), ends.end());
  }
  std::vector<Provenance> sources;
  for (const PositionRow& row : checked.rulebook.positions) {
    if (!row.only_starter && !row.only_from_charger) sources.push_back(row.from);
  }
  finding.source = sources_text(sources);
  return finding;
}

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  for (const ConductorId conductor : checked.plan.conductors.ids()) {
    const ConductorProtection& protection = checked.study.protection.conductors[conductor];
    if (!protection.unbounded || only_by_a_short(checked, conductor)) continue;
    switch (protection.exposure) {
      case Exposure::protected_:
      case Exposure::tolerated:
      case Exposure::too_thin_for_device:
        break;  // the last is gauge-mismatch
      case Exposure::too_far:
        findings.push_back(too_far(checked, conductor, protection));
        break;
      case Exposure::open_stretch:
      case Exposure::exposed_return:
        findings.push_back(never_tolerated(checked, conductor, protection));
        break;
    }
  }
  return findings;
}

Steps work_out(const Checked& checked, const Subject& subject) {
  const ConductorId* conductor = std::get_if<ConductorId>(&subject);
  if (!conductor) return {};
  const ConductorProtection& protection = checked.study.protection.conductors[*conductor];
  if (!protection.unbounded) {
    const std::vector<std::string> before = names_of(checked.plan, protection.protected_by);
    if (before.empty()) return {"no battery's fault current reaches it: no finding"};
    return {fmt::format("{} before it {} through {}: no finding", listed(before), before.size() > 1 ? "let" : "lets",
                        to_text(protection.let_through.value_or(Current{})))};
  }
  Steps steps{
      fmt::format("a battery's fault current reaches it through no device, from {}", start_of(checked, protection))};
  if (protection.reach) steps.push_back(fmt::format("from there to its far end it is {}", to_text(*protection.reach)));
  const auto& row = protection.tolerance;
  if (row)
    steps.push_back(fmt::format("the rulebook lets it be {} ({})", row->longest ? to_text(*row->longest) : "any length",
                                to_text(row->from)));
  const bool silent =
      protection.exposure == Exposure::tolerated || protection.exposure == Exposure::too_thin_for_device;
  if (protection.exposure == Exposure::open_stretch)
    steps.push_back("but it ends in something other than a device or a source, where no length is tolerated");
  if (protection.exposure == Exposure::exposed_return) steps.push_back("as a return no length of it is tolerated");
  steps.push_back(silent ? "no finding" : "a finding");
  return steps;
}

}  // namespace

constexpr Rule unfused_run = {
    "unfused-run",
    Severity::danger,
    "A battery's fault current reaches a conductor through no fuse or breaker, over a longer way than the "
    "rulebook tolerates, or on a stretch that ends in something other than a fuse, a breaker or another battery.",
    "A battery drives hundreds or thousands of amperes through a short. Without a fuse nothing stops them but the "
    "wire itself, which glows within seconds and sets light to what lies beside it.",
    "Put a fuse that suits the wire close to the battery's + terminal, or make the way from there to the first "
    "fuse shorter; some rulebooks allow more where the wire is sheathed all the way.",
    "The rulebook's length before the first overcurrent device; each finding names the clause.",
    check,
    "The way is measured along the conductors, from the terminal where a battery feeds them to their far end, "
    "and held against the rulebook's length for how they run.",
    "A battery lead of 300 mm, then 250 mm on from a stud to the fuse: 550 mm in all, where 457.2 mm is the "
    "most.",
    work_out};

}  // namespace loomleaf
