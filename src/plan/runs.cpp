// Wires and cables: defaults, chains, cores, and what each conductor joins.
#include <fmt/format.h>

#include <algorithm>

#include "bare_names.h"
#include "cores.h"
#include "ends.h"
#include "steps.h"
#include "with_default.h"

namespace loomleaf {

namespace {

using Kind = PropertyKind;

const Statement* default_of(const Document& document, Keyword keyword) {
  for (const Statement& s : document.statements)
    if (s.keyword == Keyword::default_ && !s.ids.empty() && s.ids.front().id == name_of(keyword)) return &s;
  return nullptr;
}

void read_length(const WithDefault& written, Run& run) {
  const Statement* saying = written.saying({Kind::length, Kind::plus});
  if (saying == nullptr) return;
  run.given_length = given<Length>(*saying, Kind::length);
  if (!run.given_length) run.plus = given<Length>(*saying, Kind::plus).value_or(Length{});
}

void read_via(Draft& draft, const WithDefault& written, Run& run) {
  const Statement* saying = written.saying({Kind::via});
  const auto* via = saying == nullptr ? nullptr : value_of<std::vector<Name>>(*saying, Kind::via);
  if (via == nullptr) return;
  for (const Name& name : *via)
    if (const auto found = find_place_or_leg(draft, name)) run.via.push_back(*found);
}

// All but the names and the conductors, which are each link's own.
Run read_run(Draft& draft, const WithDefault& written) {
  const Statement& s = written.own();
  Run run;
  run.description = s.description.value_or("");
  run.is_cable = s.keyword == Keyword::cable;
  run.size = written.given<WireSize>(Kind::size);
  run.auto_size = written.given<Auto>(Kind::size).has_value();
  run.insulation = written.given<Temperature>(Kind::insulation);
  if (const auto kind = written.given<Name>(Kind::insulation_kind)) run.insulation_kind = kind->id;
  run.sheathed = written.says(Kind::sheathed);
  run.bond = written.says(Kind::bond);
  run.signal = written.says(Kind::signal);
  run.later = written.says(Kind::later);
  run.note = written.given<std::string>(Kind::note).value_or("");
  run.part = written.given<std::string>(Kind::part).value_or("");
  run.span = s.span;
  read_length(written, run);
  read_via(draft, written, run);
  const bool is_troubled = s.troubled || (written.fallback() != nullptr && written.fallback()->troubled);
  if (!written.says(Kind::size) && !run.signal && !is_troubled && !s.ids.empty())
    draft.complain(name_span(s), fmt::format("`{}` does not say its size", s.ids.front().id),
                   "its size, such as `2.5 mm2` or `14 AWG`");
  return run;
}

// One link of a chain: a wire or cable with both its ends.
struct Link {
  const Name& name;
  const EndList& from;
  const EndList& to;
};

std::string end_text(const Plan& plan, const std::vector<EndTerminal>& end) {
  std::vector<TerminalId> terminals;
  for (const EndTerminal& terminal : end) terminals.push_back(terminal.terminal);
  return enumerate(texts_of(plan, terminals));
}

std::string count_text(std::size_t count) { return fmt::format("{} {}", count, count == 1 ? "terminal" : "terminals"); }

bool check_counts(Draft& draft, const Link& link, const std::vector<EndTerminal>& from,
                  const std::vector<EndTerminal>& to) {
  if (from.size() == to.size()) return true;
  draft.complain(join(link.from.span, link.to.span),
                 fmt::format("`{}` joins {} ({}) to {} ({})", link.name.id, count_text(from.size()),
                             end_text(draft.plan, from), count_text(to.size()), end_text(draft.plan, to)),
                 "as many terminals at each end: the first core joins the first of each, and so on");
  return false;
}

bool check_cores(Draft& draft, const Link& link, const Cores& cores, std::size_t count) {
  const Span ends = join(link.from.span, link.to.span);
  if (count < 2) {
    draft.complain(ends, fmt::format("a cable has two cores or more, and the ends of `{}` make one", link.name.id),
                   "`wire` for a single one, or all the terminals that it joins");
    return false;
  }
  if (!cores.count || *cores.count == count) return true;
  draft.complain(ends,
                 fmt::format("`{}` has {} cores{} and {} terminals at each end", link.name.id, *cores.count,
                             cores.from_default ? " (by `default cable`)" : "", count),
                 cores.from_default
                     ? fmt::format("its own `cores` with {} colours, or `{}x` before its size", count, count)
                     : "as many terminals as cores; a spare core ends at a `tail`");
  return false;
}

// As many as a large vessel has, many times over; a bare connector in a chain of cables makes them by the thousand.
constexpr std::size_t most_conductors = 500'000;

class RunBuilder {
 public:
  RunBuilder(Draft& draft, const TerminalIndex& terminals) : draft_(draft), terminals_(terminals) {}

  void add(const Link& link, Run run, const Cores& cores) {
    run.id = link.name.id;
    run.id_span = link.name.span;
    run.ends_span = join(link.from.span, link.to.span);
    const bool is_cable = run.is_cable;
    const RunId id = draft_.plan.runs.add(std::move(run));
    draft_.declare(link.name, id);
    const bool is_single = link.from.terminals.size() == 1 && link.to.terminals.size() == 1;
    if (!is_cable && !is_single) return;  // the language complains of it
    const auto from = resolve_end(draft_, terminals_, link.from, Direction::from, is_cable);
    const auto to = resolve_end(draft_, terminals_, link.to, Direction::to, is_cable);
    if (!from || !to || !check_counts(draft_, link, *from, *to)) return;
    if (is_cable && !check_cores(draft_, link, cores, from->size())) return;
    if (draft_.plan.conductors.size() + from->size() > most_conductors) return complain_of_number(link);
    for (std::size_t n = 0; n < from->size(); ++n) join_terminals(id, cores, n, (*from)[n], (*to)[n]);
  }

  const std::vector<Join>& joins() const { return joins_; }

 private:
  void complain_of_number(const Link& link) {
    if (!is_full_)
      draft_.complain(link.name.span, fmt::format("a plan has at most {} conductors", most_conductors),
                      "fewer cables, or fewer cores");
    is_full_ = true;
  }

  void join_terminals(RunId run_id, const Cores& cores, std::size_t n, const EndTerminal& from, const EndTerminal& to) {
    Run& run = draft_.plan.runs[run_id];
    if (from.terminal == to.terminal) {
      draft_.complain(run.ends_span,
                      fmt::format("`{}` would join {} to itself", run.id, terminal_text(draft_.plan, from.terminal)),
                      "the other terminal that it goes to");
      return;
    }
    Conductor conductor{run.is_cable ? core_id(run.id, cores, n) : run.id, run_id, from.terminal, to.terminal, {}};
    if (n < cores.colours.size()) conductor.colour = cores.colours[n];
    const std::string id = conductor.id;
    const ConductorId added = draft_.plan.conductors.add(std::move(conductor));
    if (run.is_cable) draft_.names.declare(id, added, run.id_span);
    run.conductors.push_back(added);
    joins_.push_back({added, from, to});
  }

  Draft& draft_;
  const TerminalIndex& terminals_;
  std::vector<Join> joins_;
  bool is_full_ = false;
};

void add_statement(Draft& draft, RunBuilder& builder, const Statement& s, const Statement* fallback) {
  const std::size_t links = s.ends.empty() ? 0 : s.ends.size() - 1;
  for (std::size_t n = links; n < s.ids.size(); ++n) draft.forgive(s.ids[n].id);
  if (links == 0 || s.ids.empty()) return;
  const WithDefault written(s, fallback);
  const Run run = read_run(draft, written);
  Cores cores;
  if (run.is_cable)
    cores = read_cores(written);
  else if (const auto colour = written.given<WireColour>(Kind::colour))
    cores.colours = {*colour};
  for (std::size_t n = 0; n < std::min(links, s.ids.size()); ++n)
    builder.add({s.ids[n], s.ends[n], s.ends[n + 1]}, run, cores);
}

}  // namespace

void declare_conductors(Draft& draft, const TerminalIndex& terminals) {
  const Statement* default_wire = default_of(draft.document, Keyword::wire);
  const Statement* default_cable = default_of(draft.document, Keyword::cable);
  RunBuilder builder(draft, terminals);
  for (const Statement& s : draft.document.statements) {
    if (s.keyword == Keyword::wire) add_statement(draft, builder, s, default_wire);
    if (s.keyword == Keyword::cable) add_statement(draft, builder, s, default_cable);
  }
  check_bare_names(draft, builder.joins());
}

}  // namespace loomleaf
