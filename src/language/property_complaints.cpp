#include "property_complaints.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "loomleaf/language/english.h"
#include "names.h"
#include "read_value.h"
#include "statement_parts.h"

namespace loomleaf {
namespace {

using Kind = Token::Kind;

constexpr auto mains_words = std::to_array<std::string_view>({"mains", "ac", "vac", "hz", "hertz", "kva"});

// "a place, a leg or a wire"
std::string list_statements(KeywordSet set) {
  std::vector<std::string> names;
  if ((set & item_keywords) == item_keywords) {
    names.emplace_back("any item");
    set &= ~item_keywords;
  }
  for (const std::string& name : keyword_names())
    if (has(set, *find_keyword(name))) names.push_back(with_article(name));
  return or_list(names);
}

// Steps over what follows something unknown, up to the next word that begins a property.
void skip_to_next_property(Cursor& cursor, KeywordSet set) {
  while (!cursor.done() && !cursor.at(Kind::text)) {
    if (cursor.at(Kind::word) && !find_properties(cursor.peek().text, set).empty()) return;
    cursor.skip();
  }
}

// What a number with a unit of this dimension (or without any) could say here: "limit 5 A", "5 A", "2.4 m".
std::string offers(const std::string& number, Dimension dimension, KeywordSet set) {
  constexpr std::size_t most = 4;
  const bool whole = number.find_first_not_of("0123456789") == std::string::npos;
  std::vector<std::string> found;
  for (const PropertyRow& row : property_rows()) {
    const bool measured = row.form == Form::measure || row.form == Form::measure_auto || row.form == Form::voltages ||
                          row.form == Form::insulation;
    // Vehicle wire is the rarer of the two gauges: whoever has it knows that it is no AWG.
    const bool is_usual = row.dimension != Dimension::vehicle_gauge;
    const bool meant = dimension == Dimension::none ? row.word.empty() && is_usual : row.dimension == dimension;
    const bool counts =
        row.dimension == Dimension::ways || row.dimension == Dimension::poles || is_gauge(row.dimension);
    if (!measured || !meant || (row.on & set) == 0 || (counts && !whole) || found.size() == most) continue;
    found.push_back(fmt::format("{}{}{} {}", row.word, row.word.empty() ? "" : " ", number, usual_unit(row)));
  }
  return or_list(found);
}

std::vector<std::string> known_words(const Statement& statement) {
  const KeywordSet set = property_set(statement);
  std::vector<std::string> known = property_words(set);
  for (const std::string_view kind : kind_words(statement.keyword)) known.emplace_back(kind);
  if ((set & (one(Keyword::wire) | one(Keyword::spool))) != 0)
    for (const ColourName& colour : colour_names()) known.emplace_back(colour.name);
  return known;
}

// The nearest word that is known here as it would be written; free text goes into a note.
std::string near_property(Cursor& cursor, const Statement& statement, std::string_view word, Span all) {
  const KeywordSet set = property_set(statement);
  const auto near = nearest(word, known_words(statement));
  if (near) {
    const auto rows = find_properties(*near, set);
    return rows.empty() ? *near : std::string(rows.front()->example);
  }
  const bool may_have_note = word.size() >= 4 && looks_like_id(word) && !find_properties("note", set).empty();
  return may_have_note ? fmt::format("note \"{}\"", cursor.source(all)) : "";
}

// Behind a number: a word that can be nothing but a unit which is none.
bool at_no_unit(const Cursor& cursor, const Statement& statement) {
  if (!cursor.at_free_word() || is_reserved(cursor.peek().text) || is_mains_word(cursor.peek().text)) return false;
  const KeywordSet set = property_set(statement);
  const bool takes_family = has(set, Keyword::fuse) || has(set, Keyword::breaker);
  const bool takes_end =
      (statement.keyword == Keyword::wire || statement.keyword == Keyword::cable) && statement.ends.empty();
  const auto kinds = kind_words(statement.keyword);
  return !takes_family && !takes_end && std::ranges::find(kinds, lower_case(cursor.peek().text)) == kinds.end();
}

}  // namespace

bool is_mains_word(std::string_view word) {
  return std::ranges::find(mains_words, lower_case(word)) != mains_words.end();
}

void refuse_mains(Cursor& cursor, Span span) {
  cursor.refuse(span, "mains AC is named here: that work belongs to licensed practice, and no plan can hold it");
}

std::string what_is(const Statement& statement) {
  if (statement.keyword == Keyword::plan || statement.keyword == Keyword::system)
    return fmt::format("`{}`", name_of(statement.keyword));
  if (statement.keyword == Keyword::default_ && !statement.ids.empty()) return with_article(statement.ids.front().id);
  return with_article(name_of(statement.keyword));
}

void complain_unknown_word(Cursor& cursor, const Statement& statement) {
  const KeywordSet set = property_set(statement);
  const Token word = cursor.take();
  const bool number_follows = cursor.at(Kind::number);
  const std::string number = number_follows ? cursor.peek().text : "";
  skip_to_next_property(cursor, set);
  const Span all = cursor.from(word.span);
  const std::string lower = lower_case(word.text);
  const std::string not_said = fmt::format("`{}` is not said of {}", word.text, what_is(statement));
  if (find_keyword(lower))
    cursor.complain(word.span, fmt::format("`{}` begins a statement, and a statement begins at the margin", word.text),
                    "the line without the space before it");
  else if (const KeywordSet elsewhere = statements_of(lower))
    cursor.complain(word.span, not_said, fmt::format("it on {}, or leave it out", list_statements(elsewhere)));
  else if (lower == "to" && statement.ends.empty())
    cursor.complain(word.span, "`to` needs an end before it", title_of(statement) + " BAT+ to F1");
  else if (const UnitRow* unit = find_unit(lower); number_follows && unit && is_gauge(unit->dimension))
    cursor.complain(word.span, "the number of a wire gauge stands first",
                    fmt::format("{} {}", number, symbol(unit->dimension)));
  else if (colour_of(word.text))
    cursor.complain(word.span, fmt::format("{} has no colour of its own", what_is(statement)),
                    has(set, Keyword::cable) ? fmt::format("cores {}, black", lower) : "");
  else
    cursor.complain(word.span, not_said, near_property(cursor, statement, word.text, all));
}

void complain_bare_measure(Cursor& cursor, const Statement& statement, const Token& number, const Measure& measure) {
  const std::string offer = offers(number.text, measure.dimension, property_set(statement));
  if (measure.dimension == Dimension::none && at_no_unit(cursor, statement)) {
    const Token word = cursor.take();
    return cursor.complain(word.span, fmt::format("`{}` is no unit", word.text), offer);
  }
  if (measure.dimension == Dimension::none)
    cursor.complain(number.span, fmt::format("{} what?", number.text), offer);
  else
    cursor.complain(
        measure.span,
        fmt::format("`{}` by itself says nothing about {}", cursor.source(measure.span), what_is(statement)), offer);
}

}  // namespace loomleaf
