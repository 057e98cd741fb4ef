#include <algorithm>
#include <array>
#include <unordered_map>
#include <unordered_set>

#include "loomleaf/language/words.h"

namespace loomleaf {
namespace {

using K = Keyword;
using P = PropertyKind;
using F = Form;
using D = Dimension;

constexpr KeywordSet on(std::initializer_list<Keyword> keywords) {
  KeywordSet set = 0;
  for (const Keyword keyword : keywords) set |= one(keyword);
  return set;
}

constexpr KeywordSet items = item_keywords;
constexpr KeywordSet runs = on({K::wire, K::cable});
constexpr KeywordSet devices = on({K::fuse, K::breaker});
constexpr KeywordSet rated = on({K::switch_, K::shunt, K::dimmer, K::converter, K::splice, K::bus, K::connector});

// Columns: word, property, how its value is written, on which statements, unit's dimension, least and most it can be
// (both included, in the base unit: V, A, ohm, W, Ah, Wh, m, mm2, C, s, h, share of 1), an example.
//
// The bounds are no limits of good practice: they only keep out what cannot be meant (a rating of 1e9 A, a length of
// zero). What stands at a source, a converter's output or the system is bounded at 60 V DC elsewhere, as a refusal.
constexpr auto rows = std::to_array<PropertyRow>({
    // the plan and the system
    {"language", P::language, F::whole, on({K::plan}), D::none, 1, 1, "language 1"},
    {"revision", P::revision, F::text, on({K::plan}), D::none, 0, 0, "revision B"},
    {"date", P::date, F::date, on({K::plan}), D::none, 0, 0, "date 2026-03-14"},
    {"by", P::by, F::text, on({K::plan}), D::none, 0, 0, "by \"Nell\""},
    {"", P::voltages, F::voltages, on({K::system}), D::voltage, 0.1, 1e5, "12 V"},
    {"rules", P::rules, F::name, on({K::system}), D::none, 0, 0, "rules rv"},
    {"conductor", P::conductor_temperature, F::measure, on({K::system}), D::degrees_c, -60, 250, "conductor 50 C"},
    // places and legs
    {"cover", P::cover, F::text, on({K::place}), D::none, 0, 0, "cover \"Shelf panel\""},
    {"removable", P::removable, F::flag, on({K::place}), D::none, 0, 0, "removable"},
    {"ambient", P::ambient, F::measure, on({K::place}), D::degrees_c, -60, 150, "ambient 40 C"},
    {"sheathed", P::sheathed, F::flag, on({K::place, K::leg}) | runs, D::none, 0, 0, "sheathed"},
    {"conduit", P::conduit, F::measure, on({K::leg}), D::length, 0.001, 0.5, "conduit 16 mm"},
    {"bundle", P::bundle, F::flag, on({K::leg}), D::none, 0, 0, "bundle"},
    {"slack", P::slack, F::measure, on({K::leg}), D::length, 0, 1000, "slack 0.1 m"},
    {"", P::length, F::measure, on({K::leg, K::spool}) | runs, D::length, 0.001, 10000, "2.4 m"},
    {"plus", P::plus, F::measure, runs, D::length, 0.001, 1000, "plus 0.6 m"},
    // conductors
    {"", P::size, F::measure_auto, on({K::spool}) | runs, D::gauge, -3, 40, "18 AWG"},
    {"", P::size, F::measure_auto, on({K::spool}) | runs, D::area, 0.01, 1000, "2.5 mm2"},
    {"", P::size, F::measure_auto, on({K::spool}) | runs, D::vehicle_gauge, -3, 40, "14 SAE"},
    {"cores", P::cores, F::colours, on({K::cable}), D::none, 0, 0, "cores red, black"},
    {"colour", P::colour, F::colour, on({K::wire, K::spool}), D::none, 0, 0, "colour red"},
    {"insulation", P::insulation, F::insulation, runs, D::degrees_c, 40, 300, "insulation 105 C"},
    {"via", P::via, F::names, runs, D::none, 0, 0, "via WALL, ROOF"},
    {"bond", P::bond, F::flag, runs, D::none, 0, 0, "bond"},
    {"signal", P::signal, F::flag, runs, D::none, 0, 0, "signal"},
    // sources
    {"", P::voltage, F::measure, on({K::source}), D::voltage, 0.1, 1e5, "12.8 V"},
    {"low", P::low_voltage, F::measure, on({K::source}), D::voltage, 0.1, 1e5, "low 12.0 V"},
    {"high", P::high_voltage, F::measure, on({K::source}), D::voltage, 0.1, 1e5, "high 14.4 V"},
    {"", P::charge, F::measure, on({K::source}), D::charge, 0.001, 1e6, "100 Ah"},
    {"max", P::max_current, F::measure, on({K::source}), D::current, 0.001, 1e4, "max 100 A"},
    {"limit", P::limit_current, F::measure, on({K::source}), D::current, 0.001, 1e4, "limit 20 A"},
    {"short-circuit", P::short_circuit, F::measure, on({K::source}), D::current, 0.001, 1e6, "short-circuit 2.5 kA"},
    {"internal", P::internal_resistance, F::measure, on({K::source}), D::resistance, 1e-6, 1000, "internal 5 mohm"},
    {"yield", P::yield, F::measure, on({K::source}), D::energy_a_day, 0, 1e6, "yield 500 Wh/day"},
    // devices, contacts, joints
    {"", P::rating, F::measure_auto, devices, D::current, 0.001, 1e4, "5 A"},
    {"", P::rating, F::measure, rated, D::current, 0.001, 1e4, "30 A"},
    {"", P::voltage, F::measure, on({K::switch_}) | devices, D::voltage, 0.1, 2000, "32 V"},
    {"breaks", P::breaks, F::measure, devices, D::current, 0.001, 1e6, "breaks 2 kA"},
    {"", P::ways, F::measure, on({K::switch_, K::splice, K::bus}), D::ways, 1, 1000, "3 ways"},
    {"", P::poles, F::measure, on({K::switch_, K::connector}), D::poles, 1, 1000, "2 poles"},
    {"pole", P::pole_rating, F::pole, on({K::connector}), D::none, 0, 0, "pole 9 20 A"},
    {"both", P::both, F::flag, on({K::switch_}), D::none, 0, 0, "both"},
    {"drawn", P::drawn, F::drawn, on({K::switch_}), D::none, 0, 0, "drawn open"},
    {"", P::resistance, F::measure, on({K::shunt}) | devices, D::resistance, 1e-6, 1000, "0.5 mohm"},
    {"contact", P::contact_rating, F::measure, on({K::relay}), D::current, 0.001, 1e4, "contact 30 A"},
    {"coil", P::coil_power, F::measure, on({K::relay}), D::power, 0.001, 1000, "coil 2 W"},
    {"coil", P::coil_resistance, F::measure, on({K::relay}), D::resistance, 0.1, 1e6, "coil 90 ohm"},
    {"in", P::in_voltage, F::measure, on({K::converter}), D::voltage, 0.1, 1e5, "in 24 V"},
    {"out", P::out_voltage, F::measure, on({K::converter}), D::voltage, 0.1, 1e5, "out 12 V"},
    {"isolated", P::isolated, F::flag, on({K::converter}), D::none, 0, 0, "isolated"},
    {"takes", P::takes, F::sizes, on({K::splice, K::connector}), D::none, 0, 0, "takes 0.2..4 mm2"},
    // loads
    {"", P::power, F::measure, on({K::load}), D::power, 1e-6, 1e5, "3 W"},
    {"", P::current, F::measure, on({K::load}), D::current, 1e-6, 1e4, "0.25 A"},
    {"", P::voltage, F::measure, on({K::load}), D::voltage, 0.1, 1e5, "12 V"},
    {"min", P::min_voltage, F::measure, on({K::load}), D::voltage, 0.1, 1000, "min 10.5 V"},
    {"max", P::max_voltage, F::measure, on({K::load}), D::voltage, 0.1, 1000, "max 15 V"},
    {"efficiency", P::efficiency, F::measure, on({K::converter, K::load}), D::share, 0.01, 1, "efficiency 90 %"},
    {"surge", P::surge, F::surge, on({K::load}), D::none, 0, 0, "surge 6x 0.5 s"},
    {"continuous", P::continuous, F::flag, on({K::load}), D::none, 0, 0, "continuous"},
    {"", P::use_hours, F::measure, on({K::load}), D::hours_a_day, 0, 24, "4 h/day"},
    {"use", P::use_share, F::measure, on({K::load}), D::share, 0, 1, "use 50 %"},
    {"drop", P::drop, F::measure, on({K::load, K::system}), D::share, 0.001, 0.5, "drop 3 %"},
    {"tails", P::tails, F::tails, on({K::load}), D::none, 0, 0, "tails 18 AWG 150 mm"},
    // any item
    {"at", P::at, F::position, items, D::none, 0, 0, "at ROOF 0.3 m"},
    {"on", P::on, F::terminal, items, D::none, 0, 0, "on PB"},
    {"also", P::also, F::extra_names, items, D::none, 0, 0, "also sense"},
    {"hole", P::hole, F::measure, items, D::length, 0.001, 2, "hole 22 mm"},
    {"cut-out", P::cut_out, F::rectangle, items, D::none, 0, 0, "cut-out 45 x 22 mm"},
    {"later", P::later, F::flag, items | runs, D::none, 0, 0, "later"},
    {"note", P::note, F::text, items | runs, D::none, 0, 0, "note \"behind the shelf\""},
    {"part", P::part, F::text, items | runs, D::none, 0, 0, "part \"rocker, 22 mm\""},
});

// Other spellings of the words above.
struct Spelling {
  std::string_view other, word;
};
constexpr auto spellings = std::to_array<Spelling>({
    {"color", "colour"},
    {"cutout", "cut-out"},
});

// Words that stand within a value, or join ends; no names either.
constexpr auto inner_words = std::to_array<std::string_view>({"to", "every", "open", "way", "ways", "poles", "auto"});

std::string_view known_spelling(std::string_view word) {
  const auto* found = std::ranges::find(spellings, word, &Spelling::other);
  return found == spellings.end() ? word : found->word;
}

}  // namespace

std::span<const PropertyRow> property_rows() { return rows; }

std::string_view usual_unit(const PropertyRow& row) { return row.example.substr(row.example.rfind(' ') + 1); }

std::vector<const PropertyRow*> find_properties(std::string_view word, KeywordSet statements) {
  static const auto by_word = [] {
    std::unordered_map<std::string_view, std::vector<const PropertyRow*>> map;
    for (const PropertyRow& row : rows)
      if (!row.word.empty()) map[row.word].push_back(&row);
    return map;
  }();
  std::vector<const PropertyRow*> found;
  const std::string lower = lower_case(word);
  const auto of_word = by_word.find(known_spelling(lower));
  if (of_word == by_word.end()) return found;
  for (const PropertyRow* row : of_word->second)
    if ((row->on & statements) != 0) found.push_back(row);
  return found;
}

const PropertyRow* find_bare_property(Dimension dimension, KeywordSet statements) {
  const auto* found = std::ranges::find_if(rows, [&](const PropertyRow& row) {
    return row.word.empty() && row.dimension == dimension && (row.on & statements) != 0;
  });
  return found == rows.end() ? nullptr : found;
}

bool is_property_word(std::string_view word) {
  static const auto words = [] {
    std::unordered_set<std::string_view> set(inner_words.begin(), inner_words.end());
    for (const PropertyRow& row : rows)
      if (!row.word.empty()) set.insert(row.word);
    for (const Spelling& row : spellings) set.insert(row.other);
    return set;
  }();
  return words.contains(word);
}

std::vector<std::string> property_words(KeywordSet statements) {
  std::vector<std::string> words;
  for (const PropertyRow& row : rows) {
    const bool fits = !row.word.empty() && (row.on & statements) != 0;
    if (fits && std::ranges::find(words, row.word) == words.end()) words.emplace_back(row.word);
  }
  return words;
}

KeywordSet statements_of(std::string_view word) {
  KeywordSet set = 0;
  for (const PropertyRow* row : find_properties(word, ~KeywordSet{0})) set |= row->on;
  return set;
}

bool is_reserved(std::string_view word) {
  static const auto words = [] {
    const auto list = reserved_words();
    return std::unordered_set<std::string>(list.begin(), list.end());
  }();
  return words.contains(lower_case(word));
}

std::vector<std::string> reserved_words() {
  std::vector<std::string> words = keyword_names();
  words.insert(words.end(), {"include", "log", "diode", "gray", "purple"});
  words.insert(words.end(), inner_words.begin(), inner_words.end());
  for (const PropertyRow& row : rows)
    if (!row.word.empty()) words.emplace_back(row.word);
  for (const Spelling& row : spellings) words.emplace_back(row.other);
  for (const ColourName& row : colour_names()) words.emplace_back(row.name);
  std::ranges::sort(words);
  words.erase(std::unique(words.begin(), words.end()), words.end());
  return words;
}

}  // namespace loomleaf
