// The words of the language: keywords, units and properties, each a table of rows.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "loomleaf/language/english.h"
#include "loomleaf/language/statement.h"

namespace loomleaf {

std::string lower_case(std::string_view word);  // ASCII letters alone

// --- keywords ---

// A set of keywords, one bit each.
using KeywordSet = std::uint32_t;
constexpr KeywordSet one(Keyword keyword) { return KeywordSet{1} << static_cast<unsigned>(keyword); }
constexpr bool has(KeywordSet set, Keyword keyword) { return (set & one(keyword)) != 0; }

// The statements that declare an item.
constexpr KeywordSet item_keywords =
    one(Keyword::source) | one(Keyword::fuse) | one(Keyword::breaker) | one(Keyword::switch_) | one(Keyword::shunt) |
    one(Keyword::dimmer) | one(Keyword::relay) | one(Keyword::converter) | one(Keyword::splice) | one(Keyword::bus) |
    one(Keyword::connector) | one(Keyword::chassis) | one(Keyword::tail) | one(Keyword::load);

std::optional<Keyword> find_keyword(std::string_view lower_case_word);
std::vector<std::string> keyword_names();
bool is_reserved_for_later(std::string_view lower_case_word);  // include, log, diode

// --- units ---

enum class Dimension {
  none,  // a number without a unit
  voltage,
  current,
  resistance,
  power,
  charge,
  energy,
  energy_a_day,
  length,
  area,
  gauge,
  vehicle_gauge,
  degrees_c,
  degrees_f,
  duration,
  hour_count,
  hours_a_day,
  share,
  ways,
  poles,
  times,
};

struct UnitRow {
  std::string_view words;  // the spellings, a space between; the first is the one that messages write
  Dimension dimension;
  double times;  // a value in this unit, times this and over that, is the value in the base unit,
  double over;   // the one that quantities are made with: V, A, ohm, W, Ah, Wh, m, mm2, C, s, h, %
};
const UnitRow* find_unit(std::string_view word);  // any case
const std::vector<std::string>& unit_names();
std::string_view symbol(Dimension dimension);  // of the base unit: "A"
std::string_view noun(Dimension dimension);    // "a current"

// The dimensions that say the size of a wire: mm2, and the two gauges, in which 1/0 is a number.
constexpr bool is_gauge(Dimension of) { return of == Dimension::gauge || of == Dimension::vehicle_gauge; }
constexpr bool is_wire_size(Dimension of) { return of == Dimension::area || is_gauge(of); }

// --- properties ---

// How a property's value is written behind its word.
enum class Form {
  flag,          // nothing follows
  measure,       // a number and its unit; may stand without a word where the table's word is empty
  measure_auto,  // a measure or `auto`
  voltages,      // a list of voltages
  whole,         // a whole number without a unit
  text,          // a text in quotes, or a single word
  date,          // 2026-03-14
  name,          // one word, kept in lower case
  names,         // a list of IDs
  extra_names,   // a list of terminals that the item has besides
  terminal,      // BAT+, PB
  position,      // ROOF 0.3 m every 0.8 m
  colour,        // red/white
  colours,       // red, black
  insulation,    // 105 C, thin-wall, or both
  sizes,         // 0.2..4 mm2
  pole,          // 9 20 A
  drawn,         // open, way 2
  surge,         // 6x 0.5 s
  tails,         // 18 AWG 150 mm
  rectangle,     // 45 x 22 mm
};

struct PropertyRow {
  std::string_view word;  // as written before the value; empty: the unit alone says it
  PropertyKind kind;
  Form form;
  KeywordSet on;             // the statements it stands on
  Dimension dimension;       // of a measure
  double least, most;        // what it can be, both included, in the base unit
  std::string_view example;  // for `write:`
};
std::span<const PropertyRow> property_rows();
std::string_view usual_unit(const PropertyRow& row);  // that of its example

// The rows of a word (any case, both spellings) that stand on these statements; none: no such property there.
std::vector<const PropertyRow*> find_properties(std::string_view word, KeywordSet statements);
// The row that a bare quantity of this dimension has on these statements.
const PropertyRow* find_bare_property(Dimension dimension, KeywordSet statements);

bool is_property_word(std::string_view lower_case_word);
std::vector<std::string> property_words(KeywordSet statements);
KeywordSet statements_of(std::string_view property_word);

// Words for the kind of a source or load; none for other statements.
std::span<const std::string_view> kind_words(Keyword keyword);

// No name may be one of these: keywords, property words, colours (in any case).
bool is_reserved(std::string_view word);

}  // namespace loomleaf
