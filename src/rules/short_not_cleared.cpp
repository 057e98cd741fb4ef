#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "battery_bonds.h"
#include "catalogue.h"
#include "cure.h"
#include "found.h"
#include "fuse_places.h"
#include "loomleaf/study/adiabatic.h"
#include "loomleaf/study/fuse_curve.h"
#include "loomleaf/units/format.h"
#include "steps.h"

namespace loomleaf {

namespace {

// What its work asks a device to let pass for long.
double needed_amperes(const Checked& checked, ItemId device) {
  const auto& lasting = checked.study.working.continuous[device];
  return lasting ? lasting->value.in(amperes) : 0.0;
}

// The time in which the short must be over.
Duration time_left(const LastingShort& lasting) {
  return lasting.bears ? std::min(*lasting.bears, longest_short) : longest_short;
}

// What a conductor of the loop that is too thin for its devices lets them be at the most: the mend of that finding and
// of this one then agree.
std::optional<Current> most_for_the_thin(const Checked& checked, const LastingShort& lasting) {
  std::optional<Current> most;
  const auto take = [&](ConductorId conductor) {
    const auto& may_carry = checked.study.conductors[conductor].may_carry;
    if (may_carry && too_much_for(checked.study.protection.conductors[conductor]))
      most = most ? std::min(*most, *may_carry) : *may_carry;
  };
  take(lasting.subject);
  for (const ConductorId conductor : lasting.shorted) take(conductor);
  return most;
}

// The largest rating of its family that opens in time and stays closed in normal work.
std::optional<Current> rating_in_time(const Checked& checked, const LastingShort& lasting, ItemId id) {
  const Device& device = *checked.plan.items[id].as<Device>();
  const FuseFamily* family = checked.stock.find_family(device.family);
  if (!family || !checked.study.working.surges[id].empty()) return std::nullopt;
  const auto most = most_for_the_thin(checked, lasting);
  std::optional<Current> best;
  for (const Current rating : family->ratings) {
    if (most && exceeds(rating.in(amperes), most->in(amperes))) break;
    if (rating >= *device.rating || exceeds(needed_amperes(checked, id), rating.in(amperes))) continue;
    const Opening opening = opens_no_later(*family, rating, lasting.device_current);
    if (opening.no_later && *opening.no_later <= time_left(lasting)) best = rating;
  }
  return best;
}

// Nothing where one of the devices has no such rating.
std::optional<std::string> changes_text(const Checked& checked, const LastingShort& lasting) {
  std::vector<std::string> changes;
  for (const ItemId device : lasting.devices) {
    const auto rating = rating_in_time(checked, lasting, device);
    if (!rating) return std::nullopt;
    changes.push_back(fmt::format("{} to {}", id_of(checked.plan, device), to_text(*rating)));
  }
  return "change " + listed(changes);
}

// The thinnest that bears the short until it ends, and that the rulebook lets be such a bond.
std::string thicker_bond_text(const Checked& checked, const LastingShort& lasting) {
  const Run& run = run_of(checked.plan, lasting.subject);
  const ConductorFigures& figures = checked.study.conductors[lasting.subject];
  Area least{};
  for (const BatteryBond& bond : battery_bonds(checked))
    if (const auto asked = least_size_of(checked, bond); asked && bond.conductor == lasting.subject)
      least = nominal_area(asked->value);
  for (const WireStock* wire : thicker_stock(checked.stock, figures.size, run.is_cable))
    if (lasting.opens && nominal_area(wire->size) >= least &&
        bears_for(wire->area, figures.insulation, lasting.current) >= *lasting.opens)
      return fmt::format("make {} {} or thicker", run.id, to_text(wire->size));
  return fmt::format("make {} as thick as the thickest lead of the supply", run.id);
}

std::string mend_text(const Checked& checked, const FusePlaces& places, const LastingShort& lasting) {
  if (lasting.metal) return thicker_bond_text(checked, lasting);
  if (const auto spare = places.spare_text(lasting.subject)) return *spare;
  if (const auto changes = changes_text(checked, lasting)) return *changes;
  std::vector<std::string> runs;
  for (const ConductorId id : lasting.shorted) runs.push_back(run_of(checked.plan, id).id);
  runs.erase(std::unique(runs.begin(), runs.end()), runs.end());
  return fmt::format(
      "make the conductors on the way thicker or the way shorter, so that more current flows and {} {} sooner; or put "
      "a smaller fuse at the start of {}",
      listed(names_of(checked.plan, lasting.devices)), lasting.devices.size() > 1 ? "open" : "opens", listed(runs));
}

std::string opens_text(const LastingShort& lasting) {
  return lasting.opens ? fmt::format("may take {} to open", to_text(*lasting.opens)) : "may never open";
}

std::string at_text(const Plan& plan, const LastingShort& lasting) {
  std::vector<std::string> ends;
  for (const TerminalId id : lasting.at) ends.push_back(terminal_text(plan, id));
  const std::string to = lasting.metal ? " to the metalwork " + id_of(plan, *lasting.metal) : "";
  return (ends.size() > 1 ? "any of " : "") + listed(ends) + to;
}

// Where it is so in the ordinary case nothing more is said.
std::string ways_text(const Study& study, const LastingShort& lasting) {
  std::vector<std::string> texts;
  for (const std::size_t ways : lasting.ways) {
    if (study.ways.all[ways].text.empty()) return "";
    texts.push_back(study.ways.all[ways].text);
  }
  return fmt::format(" with {}", fmt::join(texts, " or "));
}

std::vector<Provenance> sources_of(const Checked& checked, const LastingShort& lasting) {
  std::vector<Provenance> sources;
  if (lasting.overheats)
    sources = {{"IEC 60364-5-54 annex A", Known::memory}, {"BS 7671 table 43.1", Known::seen}};
  else
    sources = {{"BS 7671 434.5.2", Known::memory}};
  for (const ItemId device : lasting.devices)
    if (const FuseFamily* family = checked.stock.find_family(checked.plan.items[device].as<Device>()->family))
      sources.push_back(family->gates_from);
  return sources;
}

// Subjects: what suffers, then the devices, then what else is shorted.
Finding finding_of(const Checked& checked, const FusePlaces& places, const LastingShort& lasting) {
  Finding finding = found(short_not_cleared, checked.plan, lasting.subject);
  const std::string at = at_text(checked.plan, lasting), ways = ways_text(checked.study, lasting);
  const std::string devices = listed(names_of(checked.plan, lasting.devices)), current = to_text(lasting.current);
  if (lasting.opens) set_values(finding, lasting.opens->in(seconds), time_left(lasting).in(seconds), "s");
  if (lasting.overheats) {
    finding.message = fmt::format("a short circuit at {} draws {}{} through {}{}, which bears that for {}; {} {}", at,
                                  current, lasting.in_stages ? " on average" : "", finding.subjects[0], ways,
                                  to_text(*lasting.bears), devices, opens_text(lasting));
  } else {
    finding.severity = Severity::caution;
    finding.message = fmt::format("a short circuit at {} draws only {}{}; {} {}, it should within {}", at, current,
                                  ways, devices, opens_text(lasting), to_text(longest_short));
  }
  finding.source = sources_text(sources_of(checked, lasting));
  finding.mend = mend_text(checked, places, lasting);
  for (const std::string& device : names_of(checked.plan, lasting.devices)) finding.subjects.push_back(device);
  for (const ConductorId id : lasting.shorted)
    if (id != lasting.subject) finding.subjects.push_back(id_of(checked.plan, id));
  return finding;
}

std::vector<Finding> check(const Checked& checked) {
  std::vector<Finding> findings;
  const FusePlaces places(checked);
  for (const LastingShort& lasting : checked.study.shorts.lasting)
    findings.push_back(finding_of(checked, places, lasting));
  return findings;
}

Steps work_out(const Checked& checked, const Subject& subject) {
  const ConductorId* conductor = std::get_if<ConductorId>(&subject);
  if (!conductor) return {};
  const auto found_lasting = std::ranges::find(checked.study.shorts.lasting, *conductor, &LastingShort::subject);
  const bool is_found = found_lasting != checked.study.shorts.lasting.end();
  const auto& far = checked.study.shorts.conductors[*conductor];
  if (!far)
    return is_found ? Steps{finding_of(checked, FusePlaces(checked), *found_lasting).message + ": a finding"} : Steps{};
  const ConductorFigures& figures = checked.study.conductors[*conductor];
  const Temperature limit = short_circuit_limit(figures.insulation);
  Steps steps{
      fmt::format("a short at its far end draws {}{}", to_text(far->current), in_ways_text(checked.study, far->ways)),
      far->clears ? fmt::format("it is over after {} at the latest", to_text(*far->clears))
                  : std::string("no device is sure to end it"),
      fmt::format("k = 226 x sqrt(ln((234.5 + {}) / (234.5 + {}))) = {} A s^0.5 / mm2", to_text(limit.in(celsius), 0),
                  to_text(figures.insulation.in(celsius), 0), to_text(adiabatic_k(figures.insulation, limit), 0)),
      fmt::format("of {} it bears that for ({} x {} / {})^2 = {}", to_text(figures.area),
                  to_text(adiabatic_k(figures.insulation, limit), 0), to_text(figures.area.in(square_millimetres), 3),
                  to_text(far->current), to_text(bears_for(figures.area, figures.insulation, far->current)))};
  if (figures.ampacity && far->current <= *figures.ampacity)
    steps.push_back(fmt::format("and it may carry {} without end", to_text(*figures.ampacity)));
  if (far->in_stages)
    steps.push_back("its supplies are cut off one after the other, and what counts is the heat of all stages together");
  if (checked.study.protection.conductors[*conductor].exposure == Exposure::tolerated)
    steps.push_back("on its way to its own device the rulebook tolerates it as it is");
  steps.push_back(is_found ? finding_of(checked, FusePlaces(checked), *found_lasting).message + ": a finding"
                           : "no finding");
  return steps;
}

}  // namespace

constexpr Rule short_not_cleared = {
    "short-not-cleared",
    Severity::warning,
    "A short circuit at the far end of a conductor, with the battery low and the real way out and back in the "
    "loop, lasts so long that a conductor in that loop passes its adiabatic limit before the device opens. It is a "
    "CAUTION where the device merely may not open within 5 s. Bonds are held to what a wire that chafes through on the "
    "metalwork drives over them. Nothing is said of a conductor that the rulebook "
    "tolerates as it is on its way to its own device.",
    "Long thin wires let so little current flow that a fuse takes its time, or never opens: it looks like an "
    "overload to it, and the wire heats all the way.",
    "A smaller fuse, or one that opens sooner; a thicker conductor or a shorter way, so that more current flows.",
    "The published gates of the fuse's family, upper limit; k = 226 sqrt(ln((234.5 + limit) / (234.5 + start))) of "
    "IEC 60364-5-54 annex A with the limits of BS 7671 table 43.1; 5 s is how far the formula holds.",
    check,
    "I = low voltage / (battery + all conductors and devices out and back). The device opens by the upper "
    "limit of its gates, log-log between them. A conductor of S mm2 bears I for (k S / I)^2 seconds. Where several "
    "supplies feed the short, their devices open in turn, and the heat, I^2 t, of the stages is added up.",
    "0.82 mm2 of PVC wire, k = 115, on a short of 100 A: (115 x 0.82 / 100)^2 = 0.9 s. A 5 A blade fuse is "
    "open after 9 ms; a 20 A one of the slow kind may take 1.4 s.",
    work_out,
    Severity::caution};

}  // namespace loomleaf
