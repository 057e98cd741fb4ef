#include <fmt/format.h>

#include <algorithm>

#include "compound_values.h"
#include "measure.h"
#include "names.h"
#include "read_value.h"
#include "statement_parts.h"

namespace loomleaf {
namespace {

using Kind = Token::Kind;

const Property* find_property(const Statement& statement, PropertyKind kind) {
  const auto found = std::ranges::find(statement.properties, kind, &Property::kind);
  return found == statement.properties.end() ? nullptr : &*found;
}

std::string kind_of_statement(const Statement& statement) {
  if (statement.keyword == Keyword::plan || statement.keyword == Keyword::system)
    return fmt::format("`{}`", name_of(statement.keyword));
  if (statement.keyword == Keyword::default_ && !statement.ids.empty()) return with_article(statement.ids.front().id);
  return with_article(name_of(statement.keyword));
}

// "a place, a leg or a wire"
std::string list_statements(KeywordSet set) {
  std::vector<std::string> names;
  for (const std::string& name : keyword_names())
    if (has(set, *find_keyword(name))) names.push_back(with_article(name));
  std::string text;
  for (std::size_t k = 0; k < names.size(); ++k) {
    if (k > 0) text += k + 1 == names.size() ? " or " : ", ";
    text += names[k];
  }
  return text;
}

// After something that is no property: on to the next word that begins one.
void skip_to_next_property(Cursor& cursor, KeywordSet set) {
  while (!cursor.done() && !cursor.at(Kind::text)) {
    const bool begins = cursor.at(Kind::word) && !find_properties(cursor.peek().text, set).empty();
    if (begins) return;
    cursor.skip();
  }
}

// What a number with this unit (or without one) could say here: "limit 5 A", "5 A", "2.4 m".
std::string offers(const std::string& number, Dimension dimension, KeywordSet set) {
  std::vector<std::string> found;
  for (const PropertyRow& row : property_rows()) {
    const bool measured = row.form == Form::measure || row.form == Form::measure_auto || row.form == Form::voltages;
    if (!measured || (row.on & set) == 0) continue;
    if (dimension == Dimension::none ? !row.word.empty() : row.dimension != dimension) continue;
    const bool count = row.dimension == Dimension::ways || row.dimension == Dimension::poles;
    const bool whole = number.find_first_not_of("0123456789") == std::string::npos;
    if ((count || row.dimension == Dimension::gauge) && !whole) continue;
    found.push_back(fmt::format("{}{}{} {}", row.word, row.word.empty() ? "" : " ", number, symbol(row.dimension)));
    if (found.size() == 4) break;
  }
  std::string text;
  for (std::size_t k = 0; k < found.size(); ++k)
    text += (k == 0 ? "" : k + 1 == found.size() ? " or " : ", ") + found[k];
  return text;
}

void read_bare_measure(Cursor& cursor, Statement& statement) {
  const KeywordSet set = property_set(statement);
  const Token number = cursor.peek();
  const auto measure = read_measure(cursor);
  if (!measure) return;
  if (measure->dimension == Dimension::none)
    return cursor.complain(number.span, fmt::format("{} what?", number.text),
                           offers(number.text, Dimension::none, set));
  const PropertyRow* row = find_bare_property(measure->dimension, set);
  if (row == nullptr)
    return cursor.complain(
        measure->span,
        fmt::format("`{}` by itself says nothing about {}", cursor.source(measure->span), kind_of_statement(statement)),
        offers(number.text, measure->dimension, set));
  auto value = value_of(cursor, *measure, *row);
  if (!value) return;
  if (row->kind == PropertyKind::voltages) {
    const auto before = std::ranges::find(statement.properties, PropertyKind::voltages, &Property::kind);
    if (before != statement.properties.end()) {
      std::get<std::vector<Voltage>>(before->value).push_back(std::get<Voltage>(*value));
      before->span = join(before->span, measure->span);
      return;
    }
    value = std::vector<Voltage>{std::get<Voltage>(*value)};
  }
  add_property(cursor, statement, row->kind, std::move(*value), measure->span);
  if (!measure->count) return;
  if (has(set, Keyword::cable))
    add_property(cursor, statement, PropertyKind::core_count, *measure->count, measure->span);
  else
    cursor.complain(measure->span, "only a cable has several cores", "a cable statement, or the size of one wire");
}

void read_worded(Cursor& cursor, Statement& statement, const std::vector<const PropertyRow*>& rows) {
  const Span word = cursor.take().span;
  const PropertyRow* row = nullptr;
  auto value = read_value(cursor, rows, word, row);
  if (value) add_property(cursor, statement, row->kind, std::move(*value), cursor.from(word));
}

void read_auto(Cursor& cursor, Statement& statement) {
  const Token word = cursor.take();
  const KeywordSet set = property_set(statement);
  const bool device = has(set, Keyword::fuse) || has(set, Keyword::breaker);
  const bool run = has(set, Keyword::wire) || has(set, Keyword::cable);
  if (device || run)
    return add_property(cursor, statement, device ? PropertyKind::rating : PropertyKind::size, Auto{}, word.span);
  cursor.complain(
      word.span,
      fmt::format("`auto` stands for a size of wire or a rating of a fuse, not on {}", kind_of_statement(statement)),
      {});
}

bool is_mains(std::string_view lower) {
  return lower == "mains" || lower == "ac" || lower == "vac" || lower == "hz" || lower == "hertz";
}

void complain_unknown(Cursor& cursor, const Token& word, const Statement& statement) {
  const KeywordSet set = property_set(statement);
  const std::string lower = lower_case(word.text);
  const KeywordSet elsewhere = statements_of(lower);
  if (elsewhere != 0)
    return cursor.complain(word.span, fmt::format("`{}` is not said of {}", word.text, kind_of_statement(statement)),
                           fmt::format("it on {}, or leave it out", list_statements(elsewhere)));
  if (lower == "to" && statement.ends.empty())
    return cursor.complain(word.span, "`to` needs an end before it", fmt::format("{} BAT+ to F1", title_of(statement)));
  if (lower == "awg" && cursor.at(Kind::number))
    return cursor.complain(join(word.span, cursor.peek().span), "the number of a wire gauge stands first",
                           cursor.peek().text + " AWG");
  if (colour_of(word.text))
    return cursor.complain(word.span, fmt::format("{} has no colour of its own", kind_of_statement(statement)),
                           has(set, Keyword::cable) ? fmt::format("cores {}, black", lower) : "");
  std::vector<std::string> known = property_words(set);
  for (const std::string_view kind : kind_words(statement.keyword)) known.emplace_back(kind);
  if (set & (one(Keyword::wire) | one(Keyword::spool)))
    for (const ColourName& colour : colour_names()) known.emplace_back(colour.name);
  const auto near = nearest(word.text, known);
  const auto rows = near ? find_properties(*near, set) : std::vector<const PropertyRow*>{};
  cursor.complain(word.span, fmt::format("`{}` is not said of {}", word.text, kind_of_statement(statement)),
                  !rows.empty() ? std::string(rows.front()->example) : near.value_or(""));
}

void read_word(Cursor& cursor, Statement& statement) {
  const KeywordSet set = property_set(statement);
  const Token word = cursor.peek();
  const std::string lower = lower_case(word.text);
  if (const auto rows = find_properties(lower, set); !rows.empty()) return read_worded(cursor, statement, rows);
  if (lower == "auto") return read_auto(cursor, statement);
  const bool coloured = has(set, Keyword::wire) || has(set, Keyword::spool);
  if (const auto colour = coloured ? colour_of(lower) : std::nullopt) {
    cursor.skip();
    return add_property(cursor, statement, PropertyKind::colour, *colour, word.span);
  }
  const auto kinds = kind_words(statement.keyword);
  if (std::ranges::find(kinds, lower) != kinds.end()) {
    cursor.skip();
    return add_property(cursor, statement, PropertyKind::kind, Word{lower}, word.span);
  }
  const bool run = statement.keyword == Keyword::wire || statement.keyword == Keyword::cable;
  if (run && statement.ends.empty() && !is_reserved(lower)) return read_ends(cursor, statement);
  cursor.skip();
  if (is_mains(lower))
    return cursor.refuse(word.span,
                         "mains AC is named here: that work belongs to licensed practice, and no plan can hold it");
  const bool device = has(set, Keyword::fuse) || has(set, Keyword::breaker);
  const bool family = device && !is_reserved(lower) && find_property(statement, PropertyKind::family) == nullptr;
  if (family) return add_property(cursor, statement, PropertyKind::family, Word{lower}, word.span);
  complain_unknown(cursor, word, statement);
  skip_to_next_property(cursor, set);
}

void read_description(Cursor& cursor, Statement& statement) {
  const Token text = cursor.take();
  if (!statement.description) {
    statement.description = text.text;
    statement.description_span = text.span;
    return;
  }
  Complaint complaint{text.span, "a second description", "note \"" + text.text + '"', {}};
  complaint.also = Complaint::Also{statement.description_span, "the first is here"};
  cursor.complain(std::move(complaint));
}

}  // namespace

void add_property(Cursor& cursor, Statement& statement, PropertyKind kind, PropertyValue value, Span span) {
  const Property* before = kind == PropertyKind::pole_rating ? nullptr : find_property(statement, kind);
  if (before == nullptr) {
    statement.properties.push_back({kind, std::move(value), span});
    return;
  }
  Complaint complaint{
      span, fmt::format("`{}` says again what is said before", cursor.source(span)), "one of the two", {}};
  complaint.also = Complaint::Also{before->span, "said first here"};
  cursor.complain(std::move(complaint));
}

void read_properties(Cursor& cursor, Statement& statement) {
  while (!cursor.done()) {
    switch (cursor.peek().kind) {
      case Kind::text:
        read_description(cursor, statement);
        break;
      case Kind::number:
        read_bare_measure(cursor, statement);
        break;
      case Kind::word:
        read_word(cursor, statement);
        break;
      case Kind::comma:
        cursor.skip();
        if (cursor.done())
          cursor.complain(cursor.last().span, "nothing stands behind the last comma",
                          "the line without it, or the next line with a space before it");
        break;
      case Kind::dots:
        cursor.skip();
        cursor.complain(cursor.last().span, "a range stands between two names or two sizes", "LA1..LA4");
        break;
    }
  }
}

}  // namespace loomleaf
