#include <fmt/format.h>

#include <algorithm>

#include "measure.h"
#include "property_complaints.h"
#include "read_value.h"
#include "statement_parts.h"

namespace loomleaf {
namespace {

using Kind = Token::Kind;

Property* find_property(Statement& statement, PropertyKind kind) {
  const auto found = std::ranges::find(statement.properties, kind, &Property::kind);
  return found == statement.properties.end() ? nullptr : &*found;
}

// `24 V, 12 V`: each further one joins those before it.
void add_voltage(Cursor& cursor, Statement& statement, Voltage voltage, Span span) {
  Property* before = find_property(statement, PropertyKind::voltages);
  if (before == nullptr)
    return add_property(cursor, statement, PropertyKind::voltages, std::vector<Voltage>{voltage}, span);
  std::get<std::vector<Voltage>>(before->value).push_back(voltage);
  before->span = join(before->span, span);
}

void add_core_count(Cursor& cursor, Statement& statement, int count, Span span) {
  if (has(property_set(statement), Keyword::cable))
    return add_property(cursor, statement, PropertyKind::core_count, count, span);
  cursor.complain(span, "only a cable has several cores", "a cable statement, or the size of one wire");
}

void read_bare_measure(Cursor& cursor, Statement& statement) {
  const Token number = cursor.peek();
  const auto measure = read_measure(cursor);
  if (!measure) return;
  const PropertyRow* row = find_bare_property(measure->dimension, property_set(statement));
  if (row == nullptr) return complain_bare_measure(cursor, statement, number, *measure);
  auto value = value_of(cursor, *measure, *row);
  if (!value) return;
  if (row->kind == PropertyKind::voltages)
    return add_voltage(cursor, statement, std::get<Voltage>(*value), measure->span);
  add_property(cursor, statement, row->kind, std::move(*value), measure->span);
  if (measure->count) add_core_count(cursor, statement, *measure->count, measure->span);
}

// Whether the word here can name a kind of insulation. In front of the ends a word may be the first of them, which
// `to`, a comma or a range follows.
bool at_insulation_kind(const Cursor& cursor, const Statement& statement) {
  if (!cursor.at_free_word() || is_reserved(cursor.peek().text) || colour_of(cursor.peek().text)) return false;
  const bool has_ends = statement.keyword == Keyword::default_ || !statement.ends.empty();
  return has_ends || (cursor.at(Kind::word, 1) && !cursor.at_word("to", 1)) || cursor.at(Kind::number, 1);
}

void take_insulation_kind(Cursor& cursor, Statement& statement) {
  const Token kind = cursor.take();
  add_property(cursor, statement, PropertyKind::insulation_kind, Name{lower_case(kind.text), kind.span}, kind.span);
}

// `insulation 105 C`, `insulation thin-wall`, or both in either order.
void read_insulation(Cursor& cursor, Statement& statement, const std::vector<const PropertyRow*>& rows) {
  const Span word = cursor.take().span;
  const bool kind_first = at_insulation_kind(cursor, statement);
  if (kind_first) take_insulation_kind(cursor, statement);
  const Dimension ahead = dimension_ahead(cursor);
  if (kind_first && ahead != Dimension::degrees_c && ahead != Dimension::degrees_f) return;
  const PropertyRow* row = nullptr;
  auto value = read_value(cursor, rows, word, row);
  if (!value) return;
  add_property(cursor, statement, row->kind, std::move(*value), cursor.from(word));
  const bool is_slip = cursor.at_free_word() && nearest(cursor.peek().text, property_words(property_set(statement)));
  if (!kind_first && !is_slip && at_insulation_kind(cursor, statement)) take_insulation_kind(cursor, statement);
}

void read_worded(Cursor& cursor, Statement& statement, const std::vector<const PropertyRow*>& rows) {
  const Span word = cursor.take().span;
  const PropertyRow* row = nullptr;
  auto value = read_value(cursor, rows, word, row);
  if (value) return add_property(cursor, statement, row->kind, std::move(*value), cursor.from(word));
  const KeywordSet set = property_set(statement);
  while (cursor.at_free_word() && find_properties(cursor.peek().text, set).empty()) cursor.skip();
}

void read_auto(Cursor& cursor, Statement& statement) {
  const Token word = cursor.take();
  const KeywordSet set = property_set(statement);
  const bool device = has(set, Keyword::fuse) || has(set, Keyword::breaker);
  const bool run = has(set, Keyword::wire) || has(set, Keyword::cable);
  if (device || run)
    return add_property(cursor, statement, device ? PropertyKind::rating : PropertyKind::size, Auto{}, word.span);
  cursor.complain(word.span,
                  fmt::format("`auto` stands for a size of wire or a rating of a fuse, not on {}", what_is(statement)),
                  {});
}

void read_word(Cursor& cursor, Statement& statement) {
  const KeywordSet set = property_set(statement);
  const Token word = cursor.peek();
  const std::string lower = lower_case(word.text);
  if (const auto rows = find_properties(lower, set); !rows.empty())
    return rows.front()->form == Form::insulation ? read_insulation(cursor, statement, rows)
                                                  : read_worded(cursor, statement, rows);
  if (lower == "auto") return read_auto(cursor, statement);
  const auto add = [&](PropertyKind kind, PropertyValue value) {
    cursor.skip();
    add_property(cursor, statement, kind, std::move(value), word.span);
  };
  const bool coloured = has(set, Keyword::wire) || has(set, Keyword::spool);
  if (const auto colour = coloured ? colour_of(lower) : std::nullopt) return add(PropertyKind::colour, *colour);
  const auto kinds = kind_words(statement.keyword);
  if (std::ranges::find(kinds, lower) != kinds.end()) return add(PropertyKind::kind, Word{lower});
  const bool run = statement.keyword == Keyword::wire || statement.keyword == Keyword::cable;
  if (run && statement.ends.empty() && !is_reserved(lower)) return read_ends(cursor, statement);
  if (is_mains_word(lower)) return refuse_mains(cursor, cursor.take().span);
  const bool device = has(set, Keyword::fuse) || has(set, Keyword::breaker);
  if (device && !is_reserved(lower) && find_property(statement, PropertyKind::family) == nullptr)
    return add(PropertyKind::family, Word{lower});
  complain_unknown_word(cursor, statement);
}

void read_description(Cursor& cursor, Statement& statement) {
  const Token text = cursor.take();
  if (!statement.description) {
    statement.description = text.text;
    statement.description_span = text.span;
    return;
  }
  Complaint complaint{text.span, "a second description", fmt::format("note \"{}\"", text.text), {}};
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
  constexpr std::size_t usual_count = 4;
  statement.properties.reserve(usual_count);
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
      case Kind::comma:  // parts properties as a space does
        cursor.skip();
        if (cursor.done())
          cursor.complain(cursor.last().span, "nothing stands behind the last comma", "the line without it");
        break;
      case Kind::dots:
        cursor.skip();
        cursor.complain(cursor.last().span, "a range stands between two names or two sizes", "LA1..LA4");
        break;
    }
  }
}

}  // namespace loomleaf
