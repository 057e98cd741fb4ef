#include "read_value.h"

#include <fmt/format.h>

#include "calendar.h"
#include "compound_values.h"
#include "names.h"

namespace loomleaf {
namespace {

using Kind = Token::Kind;

// Nothing that fits stands behind the word.
void complain_missing(Cursor& cursor, Span word, const PropertyRow& row, std::string_view wanted) {
  cursor.complain(word, fmt::format("`{}` needs {} behind it", cursor.source(word), wanted), std::string(row.example));
}

bool fits(const Measure& measure, const PropertyRow& row) {
  if (measure.dimension == row.dimension) return true;
  return is_wire_size(row.dimension) && is_wire_size(measure.dimension);
}

std::optional<PropertyValue> read_measured(Cursor& cursor, const std::vector<const PropertyRow*>& rows, Span word,
                                           const PropertyRow*& row) {
  row = rows.front();
  if (!cursor.at(Kind::number)) {
    const bool may_be_kind = row->form == Form::insulation;
    complain_missing(cursor, word, *row, may_be_kind ? "a temperature or a kind" : noun(row->dimension));
    return std::nullopt;
  }
  const Token number = cursor.peek();
  const auto measure = read_measure(cursor);
  if (!measure) return std::nullopt;
  for (const PropertyRow* candidate : rows)
    if (fits(*measure, *candidate)) return value_of(cursor, *measure, *(row = candidate));
  if (measure->dimension == Dimension::none)
    cursor.complain(measure->span, fmt::format("{} what?", number.text),
                    fmt::format("{} {} {}", row->word, number.text, usual_unit(*row)));
  else
    cursor.complain(measure->span,
                    fmt::format("`{}` is {} in {}, not {}", row->word, noun(row->dimension), usual_unit(*row),
                                noun(measure->dimension)),
                    std::string(row->example));
  return std::nullopt;
}

std::optional<PropertyValue> read_whole_value(Cursor& cursor, Span word, const PropertyRow& row) {
  if (!cursor.at(Kind::number)) {
    complain_missing(cursor, word, row, "a number");
    return std::nullopt;
  }
  const Span span = cursor.peek().span;
  const auto value = read_whole(cursor);
  if (!value) return std::nullopt;
  if (*value < row.least || *value > row.most) {
    cursor.complain(span, fmt::format("{} {} is not known here", row.word, *value), std::string(row.example));
    return std::nullopt;
  }
  return PropertyValue(*value);
}

std::optional<PropertyValue> read_text(Cursor& cursor, Span word, const PropertyRow& row) {
  if (cursor.at(Kind::text)) return PropertyValue(cursor.take().text);
  const bool single = cursor.at(Kind::number) || (cursor.at_free_word());
  if (single) return PropertyValue(cursor.take_glued().text);
  complain_missing(cursor, word, row, "a text in quotes");
  return std::nullopt;
}

std::optional<PropertyValue> read_date(Cursor& cursor, Span word, const PropertyRow& row) {
  if (!cursor.at(Kind::number)) {
    complain_missing(cursor, word, row, "a date");
    return std::nullopt;
  }
  const Token date = cursor.take_glued();
  switch (look_at_date(date.text)) {
    case DateLook::good:
      return PropertyValue(date.text);
    case DateLook::no_such_day:
      cursor.complain(date.span, fmt::format("there is no day {}", date.text), std::string(row.example));
      break;
    case DateLook::other_form:
      cursor.complain(date.span, "a date is written year-month-day", std::string(row.example));
      break;
  }
  return std::nullopt;
}

std::optional<PropertyValue> read_colours(Cursor& cursor, Span word, const PropertyRow& row) {
  std::vector<WireColour> colours;
  while (cursor.at(Kind::word)) {
    const auto colour = colour_of(cursor.peek().text);
    if (!colour) {
      const Token other = cursor.take();
      complain_no_colour(cursor, other);
      return std::nullopt;
    }
    const Token taken = cursor.take();
    for (const WireColour& before : colours)
      if (before == *colour)
        cursor.complain(taken.span, fmt::format("two cores of one cable are {}", to_text(*colour)),
                        std::string(row.example));
    colours.push_back(*colour);
    const bool more = cursor.at(Kind::comma) && cursor.at_free_word(1);
    if (!more) break;
    cursor.skip();
  }
  if (!colours.empty()) return PropertyValue(std::move(colours));
  complain_missing(cursor, word, row, "the cores' colours in order");
  return std::nullopt;
}

std::optional<PropertyValue> read_colour(Cursor& cursor, Span word, const PropertyRow& row) {
  if (!cursor.at_free_word()) {
    complain_missing(cursor, word, row, "a colour");
    return std::nullopt;
  }
  const Token name = cursor.take();
  if (const auto colour = colour_of(name.text)) return PropertyValue(*colour);
  complain_no_colour(cursor, name);
  return std::nullopt;
}

std::optional<PropertyValue> read_naming(Cursor& cursor, Span word, const PropertyRow& row) {
  if (!cursor.at_free_word()) {
    complain_missing(cursor, word, row, row.form == Form::name || row.form == Form::terminal ? "a name" : "names");
    return std::nullopt;
  }
  switch (row.form) {
    case Form::name: {
      const Token name = cursor.take_glued();
      return PropertyValue(Name{lower_case(name.text), name.span});
    }
    case Form::terminal:
      if (auto terminal = read_terminal(cursor)) return PropertyValue(std::move(*terminal));
      return std::nullopt;
    default: {
      auto names = read_names(cursor, "a place or leg");
      if (names.empty()) return std::nullopt;
      return PropertyValue(std::move(names));
    }
  }
}

std::optional<PropertyValue> read_extra(Cursor& cursor, Span word, const PropertyRow& row) {
  if (!cursor.at(Kind::number) && !cursor.at_free_word()) {
    complain_missing(cursor, word, row, "the names of the further terminals");
    return std::nullopt;
  }
  auto names = read_extra_names(cursor);
  if (names.empty()) return std::nullopt;
  return PropertyValue(std::move(names));
}

template <class T>
std::optional<PropertyValue> wrap(std::optional<T> value) {
  if (!value) return std::nullopt;
  return PropertyValue(std::move(*value));
}

}  // namespace

std::optional<PropertyValue> read_value(Cursor& cursor, const std::vector<const PropertyRow*>& rows, Span word,
                                        const PropertyRow*& row) {
  row = rows.front();
  switch (row->form) {
    case Form::flag:
      return PropertyValue(std::monostate{});
    case Form::measure:
    case Form::measure_auto:
    case Form::voltages:
    case Form::insulation:
      return read_measured(cursor, rows, word, row);
    case Form::whole:
      return read_whole_value(cursor, word, *row);
    case Form::text:
      return read_text(cursor, word, *row);
    case Form::date:
      return read_date(cursor, word, *row);
    case Form::name:
    case Form::names:
    case Form::terminal:
      return read_naming(cursor, word, *row);
    case Form::extra_names:
      return read_extra(cursor, word, *row);
    case Form::colour:
      return read_colour(cursor, word, *row);
    case Form::colours:
      return read_colours(cursor, word, *row);
    case Form::position:
      return wrap(read_position(cursor, word, *row));
    case Form::sizes:
      return wrap(read_sizes(cursor, word, *row));
    case Form::pole:
      return wrap(read_pole(cursor, word, *row));
    case Form::drawn:
      return wrap(read_drawn(cursor, word, *row));
    case Form::surge:
      return wrap(read_surge(cursor, word, *row));
    case Form::tails:
      return wrap(read_tails(cursor, word, *row));
    case Form::rectangle:
      return wrap(read_rectangle(cursor, word, *row));
  }
  return std::nullopt;
}

std::optional<WireColour> colour_of(std::string_view word) {
  const std::size_t slash = word.find('/');
  const auto base = find_colour(word.substr(0, slash));
  if (!base) return std::nullopt;
  if (slash == std::string_view::npos) return WireColour{*base, {}};
  const auto tracer = find_colour(word.substr(slash + 1));
  if (!tracer) return std::nullopt;
  return WireColour{*base, tracer};
}

}  // namespace loomleaf
