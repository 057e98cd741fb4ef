#include <fmt/format.h>
#include <fmt/ranges.h>

#include <string>
#include <vector>

#include "loomleaf/report/report.h"
#include "loomleaf/stock/rulebook.h"
#include "loomleaf/units/format.h"
#include "wrapped.h"

namespace loomleaf {

namespace {

std::string known_text(const Provenance& from) {
  switch (from.known) {
    case Known::seen:
      return from.source + "; seen";
    case Known::memory:
      return from.source + "; from memory";
    case Known::practice:
      return "common practice, no source";
  }
  return "";
}

bool same(const Provenance& a, const Provenance& b) { return a.source == b.source && a.known == b.known; }

// A page of limits: a heading, what it says, and below it where that is from.
class Page {
 public:
  explicit Page(std::string opening) : text_(std::move(opening)) {}
  void heading(std::string_view words, std::string_view why) {
    text_ += fmt::format("\n{}:\n{}", words, wrapped(why, "  "));
  }
  void limit(const std::string& words, const Provenance& from) {
    text_ += wrapped(printable(words), "  ", "    ") + wrapped(printable("(" + known_text(from) + ")"), "      ");
  }
  // Rows that share what stands before them and their source go into one limit.
  void row(const std::string& before, const std::string& words, const Provenance& from) {
    if (!rows_.empty() && (before != before_ || !same(from, from_))) end_rows();
    before_ = before;
    from_ = from;
    rows_.push_back(words);
  }
  void end_rows() {
    if (!rows_.empty()) limit(fmt::format("{}{}", before_, fmt::join(rows_, ", ")), from_);
    rows_.clear();
  }
  const std::string& text() const { return text_; }

 private:
  std::string text_;
  std::string before_;
  Provenance from_;
  std::vector<std::string> rows_;
};

std::string position_text(const PositionRow& row) {
  std::string text = row.longest ? to_text(*row.longest) : "any length";
  if (row.only_sheathed) text += ", sheathed or enclosed all the way";
  if (row.only_from_battery) text += ", from a battery's terminal";
  if (row.only_from_charger) text += ", from a charger, solar controller or alternator";
  if (row.only_starter) text += ", to a starter";
  return text;
}

std::string allowance_text(const AllowanceRow& row) {
  std::string text = row.share == 1.0 ? "no more than the ampacity"
                                      : fmt::format("at most {} times the ampacity", to_text(row.share, 2));
  if (row.below) text += fmt::format(", where less than {} can stand", to_text(*row.below));
  return text;
}

void add_carrying(const Rulebook& book, Page& page) {
  page.heading(fmt::format("What a conductor may carry, in free air of up to {}", to_text(book.ambient_reference)),
               "Current warms a conductor; the insulation sets how warm it may get and still last. See gauge-mismatch "
               "and overloaded-wire.");
  for (const AmpacityRow& row : book.ampacity)
    page.row(row.insulation ? fmt::format("insulation {}: ", to_text(*row.insulation))
                            : "whatever the insulation, and a cap: ",
             fmt::format("{} {}", to_text(row.size), to_text(row.may_carry)), row.from);
  page.end_rows();
  if (book.parallel_from)
    page.limit(fmt::format("from {} on conductors side by side, alike in size, insulation and length, may carry their "
                           "sum",
                           to_text(book.parallel_from->value)),
               book.parallel_from->from);
  page.limit(book.sae_counts_as_awg.value ? "SAE vehicle wire counts as AWG of the same number"
                                          : "SAE vehicle wire counts by its area, as the next thinner size",
             book.sae_counts_as_awg.from);
  page.heading("In a warmer place, up to this ambient",
               "Where it is warm already less heating is left: ampacity times this factor. A place that is warmer "
               "still is not permitted.");
  for (const AmbientRow& row : book.ambient)
    page.row(fmt::format("insulation {}: ", to_text(row.insulation)),
             fmt::format("{} x {}", to_text(row.up_to), to_text(row.factor, 3)), row.from);
  page.end_rows();
  page.heading(fmt::format("Run together, {} counted",
                           book.grouping_counts_circuits ? "circuits" : "conductors that carry current"),
               "Each warms the other: ampacity times this factor, in a conduit, a bundle or a cable.");
  for (const GroupingRow& row : book.grouping)
    page.row("", fmt::format("from {} x {}", row.from_count, to_text(row.factor, 3)), row.from);
  page.end_rows();
}

void add_protection(const Rulebook& book, Page& page) {
  page.heading("Rating of a device against the ampacity of its conductor",
               "A fuse protects the wire: it should open before the wire is too warm. See gauge-mismatch.");
  for (const AllowanceRow& row : book.device_allowances) page.limit(allowance_text(row), row.from);
  page.heading("How far a conductor may run before its device",
               "Until its first fuse nothing protects it, so that piece is short, or sheathed where that counts. See "
               "unfused-run.");
  for (const PositionRow& row : book.positions) page.limit(position_text(row), row.from);
  page.heading("Loads that last",
               "A device is tested in open air; shut in a block it warms up over hours. See fuse-too-small.");
  page.limit(fmt::format("count {} times at a device", to_text(book.continuous_factor.value, 2)),
             book.continuous_factor.from);
  page.limit(fmt::format("from {} h on", to_text(book.continuous_from.value.in(hours), 2)), book.continuous_from.from);
}

void add_wiring(const Rulebook& book, Page& page) {
  page.heading("Voltage drop, out and back",
               "What is lost on the way does not reach the load: (supply - load) / supply. See voltage-drop.");
  page.limit(fmt::format("{} at most, where neither load nor plan gives a limit", percent_text(book.drop_limit.value)),
             book.drop_limit.from);
  page.heading("Least size", "Thin wires break where they shake and where they are crimped. See least-size.");
  for (const MinSizeRow& row : book.least_sizes)
    page.limit(fmt::format("{} for {}", to_text(row.least), row.in_sheath ? "the cores of a cable" : "a single wire"),
               row.from);
  if (book.least_bond)
    page.limit(fmt::format("{} for the bond of a battery to metalwork{}", to_text(book.least_bond->least),
                           book.least_bond->as_lead ? ", nor thinner than the battery's other lead" : ""),
               book.least_bond->from);
  page.heading("Colours", "Whoever opens the panel later trusts them. See colour-clash.");
  for (const ColourRow& row : book.colours) {
    std::vector<std::string> colours;
    for (const WireColour& colour : row.colours) colours.push_back(to_text(colour));
    page.limit(fmt::format("{}: {}", row.use, fmt::join(colours, ", ")), row.from);
  }
  page.heading("The return",
               "A switch there leaves the load live; metalwork as a return rusts and its joints go unseen. See "
               "switched-return and chassis-return.");
  page.limit(fmt::format("a device or contact in the return alone is {}",
                         book.return_alone_may_be_switched.value ? "allowed" : "not allowed"),
             book.return_alone_may_be_switched.from);
  page.limit(
      fmt::format("working current through metalwork is {}", book.chassis_may_carry.value ? "allowed" : "not allowed"),
      book.chassis_may_carry.from);
  page.heading("Fill of a conduit",
               "What is packed tight jams, is scraped in pulling, and cannot cool: sum of the sections over the "
               "section of the bore. See full-conduit.");
  for (const auto& [from, share] : book.conduit_fill)
    page.row("", fmt::format("from {} cable{} {}", from, from == 1 ? "" : "s", percent_text(share)),
             book.conduit_fill_from);
  page.end_rows();
  if (!book.longest_tail) return;
  page.heading("Leads that an appliance comes with", "Thin loose leads chafe. See long-tail.");
  page.limit(fmt::format("{} at most", to_text(book.longest_tail->value)), book.longest_tail->from);
}

}  // namespace

std::string rulebook_heading(const Rulebook& book) {
  return wrapped(printable(fmt::format("{}: {}", book.name, book.title)), "", "  ");
}

std::string explain_rulebook(const Rulebook& book) {
  Page page(
      rulebook_heading(book) + "\n" +
      wrapped(
          "Behind each limit stands where it is from and how that is known: seen, it stood in a published source or "
          "a reprint of it that was read for this book; from memory, it was not, so check it where it matters to "
          "you.",
          ""));
  add_carrying(book, page);
  add_protection(book, page);
  add_wiring(book, page);
  return page.text();
}

}  // namespace loomleaf
