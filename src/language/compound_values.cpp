#include "compound_values.h"

#include <fmt/format.h>

#include <cmath>

#include "loomleaf/language/english.h"
#include "measure.h"
#include "names.h"

namespace loomleaf {
namespace {

using Kind = Token::Kind;

constexpr double longest_stretch_m = 10'000;

template <class T>
std::optional<T> needs(Cursor& cursor, Span word, const PropertyRow& row, std::string_view wanted) {
  cursor.complain(word, fmt::format("`{}` needs {} behind it", cursor.source(word), wanted), std::string(row.example));
  return std::nullopt;
}

std::optional<WireSize> size_from(double number, Dimension dimension) {
  const bool is_made = is_gauge(dimension) ? number == std::floor(number) && number >= -3 && number <= 40
                                           : number >= 0.01 && number <= 1000;
  return is_made ? std::optional(size_of(number, dimension)) : std::nullopt;
}

}  // namespace

std::optional<Length> read_length(Cursor& cursor, std::string_view word, double least_m, double most_m) {
  const Token number = cursor.peek();
  const auto measure = read_measure(cursor);
  if (!measure) return std::nullopt;
  const std::string should = fmt::format("{}{}{} m", word, word.empty() ? "" : " ", number.text);
  if (measure->dimension == Dimension::none) {
    cursor.complain(number.span, fmt::format("{} what?", number.text), should);
    return std::nullopt;
  }
  if (measure->dimension != Dimension::length) {
    cursor.complain(measure->span, fmt::format("here stands a length, not {}", noun(measure->dimension)), should);
    return std::nullopt;
  }
  if (measure->value < least_m || measure->value > most_m) {
    cursor.complain(measure->span,
                    fmt::format("a length here is from {} to {}", written(least_m, Dimension::length),
                                written(most_m, Dimension::length)),
                    {});
    return std::nullopt;
  }
  return metres(measure->value);
}

std::optional<Position> read_position(Cursor& cursor, Span word, const PropertyRow& row) {
  if (!cursor.at_free_word()) return needs<Position>(cursor, word, row, "a place");
  auto place = read_name(cursor, "a place");
  if (!place) return std::nullopt;
  Position position{std::move(*place), {}, {}};
  const bool without_unit = cursor.at(Kind::number) && cursor.at_word("every", 1);
  if (dimension_ahead(cursor) == Dimension::length || without_unit) {
    position.offset = read_length(cursor, "", 0, longest_stretch_m);
  }
  if (!cursor.at_word("every")) return position;
  const Span every = cursor.take().span;
  if (!cursor.at(Kind::number)) return needs<Position>(cursor, every, row, "a length");
  position.every = read_length(cursor, "every", 0.001, longest_stretch_m);
  return position;
}

std::optional<SizeRange> read_sizes(Cursor& cursor, Span word, const PropertyRow& row) {
  if (!cursor.at(Kind::number)) return needs<SizeRange>(cursor, word, row, "the thinnest and the thickest size");
  const auto first = read_measure(cursor);
  if (!first) return std::nullopt;
  if (!cursor.at(Kind::dots) || !cursor.at(Kind::number, 1))
    return needs<SizeRange>(cursor, join(word, first->span), row, "both the thinnest and the thickest size");
  cursor.skip();
  const auto second = read_measure(cursor);
  if (!second) return std::nullopt;
  const Span both = join(first->span, second->span);
  if (!is_wire_size(second->dimension)) return needs<SizeRange>(cursor, join(word, both), row, "sizes in mm2 or AWG");
  const Dimension first_dimension = first->dimension == Dimension::none ? second->dimension : first->dimension;
  if (!is_wire_size(first_dimension)) return needs<SizeRange>(cursor, join(word, both), row, "sizes in mm2 or AWG");
  const auto a = size_from(first->value, first_dimension), b = size_from(second->value, second->dimension);
  if (!a || !b) {
    cursor.complain(both, "there is no such size of wire", std::string(row.example));
    return std::nullopt;
  }
  if (nominal_area(*a) > nominal_area(*b)) return SizeRange{*b, *a};
  return SizeRange{*a, *b};
}

std::optional<PoleRating> read_pole(Cursor& cursor, Span word, const PropertyRow& row) {
  if (!cursor.at(Kind::number)) return needs<PoleRating>(cursor, word, row, "its number and its rating");
  const auto pole = read_whole(cursor);
  if (!pole) return std::nullopt;
  if (*pole < 1 || *pole > 1000) {
    cursor.complain(cursor.last().span, fmt::format("there is no pole {}", *pole), std::string(row.example));
    return std::nullopt;
  }
  if (!cursor.at(Kind::number)) return needs<PoleRating>(cursor, cursor.from(word), row, "a rating in A");
  const auto rating = read_measure(cursor);
  if (!rating) return std::nullopt;
  if (rating->dimension != Dimension::current || rating->value < 0.001 || rating->value > 1e4)
    return needs<PoleRating>(cursor, cursor.from(word), row, "a rating in A");
  return PoleRating{*pole, amperes(rating->value)};
}

std::optional<Drawn> read_drawn(Cursor& cursor, Span word, const PropertyRow& row) {
  if (cursor.take_word("open")) return Drawn{true, 1};
  if (!cursor.take_word("way")) return needs<Drawn>(cursor, word, row, "`open` or `way` with its number");
  if (!cursor.at(Kind::number)) return needs<Drawn>(cursor, cursor.from(word), row, "the number of the way");
  const auto way = read_whole(cursor);
  if (!way) return std::nullopt;
  if (*way < 1 || *way > 1000) {
    cursor.complain(cursor.last().span, fmt::format("there is no way {}", *way), "drawn way 2");
    return std::nullopt;
  }
  return Drawn{false, *way};
}

std::optional<Surge> read_surge(Cursor& cursor, Span word, const PropertyRow& row) {
  constexpr std::string_view wanted = "a multiple and a time";
  if (!cursor.at(Kind::number)) return needs<Surge>(cursor, word, row, wanted);
  const auto times = read_measure(cursor);
  if (!times) return std::nullopt;
  if (times->dimension != Dimension::times || !cursor.at(Kind::number))
    return needs<Surge>(cursor, join(word, times->span), row, wanted);
  const auto lasting = read_measure(cursor);
  if (!lasting) return std::nullopt;
  if (lasting->dimension != Dimension::duration) return needs<Surge>(cursor, join(word, lasting->span), row, wanted);
  const bool good = times->value >= 1 && times->value <= 100 && lasting->value > 0 && lasting->value <= 3600;
  if (good) return Surge{times->value, seconds(lasting->value)};
  cursor.complain(join(times->span, lasting->span),
                  "a surge is from 1 to 100 times the working current, for an hour at most", std::string(row.example));
  return std::nullopt;
}

std::optional<TailLeads> read_tails(Cursor& cursor, Span word, const PropertyRow& row) {
  if (!cursor.at(Kind::number)) return needs<TailLeads>(cursor, word, row, "a size and a length");
  const auto first = read_measure(cursor);
  if (!first) return std::nullopt;
  if (!cursor.at(Kind::number)) return needs<TailLeads>(cursor, join(word, first->span), row, "a size and a length");
  const auto second = read_measure(cursor);
  if (!second) return std::nullopt;
  const bool size_first = is_wire_size(first->dimension);
  const Measure& size = size_first ? *first : *second;
  const Measure& length = size_first ? *second : *first;
  if (!is_wire_size(size.dimension) || length.dimension != Dimension::length)
    return needs<TailLeads>(cursor, join(word, second->span), row, "a size and a length");
  const auto wire = size_from(size.value, size.dimension);
  if (wire && length.value >= 0.001 && length.value <= 100) return TailLeads{*wire, metres(length.value)};
  cursor.complain(join(first->span, second->span), "leads have a size that is made and a length up to 100 m",
                  std::string(row.example));
  return std::nullopt;
}

std::optional<Rectangle> read_rectangle(Cursor& cursor, Span word, const PropertyRow& row) {
  constexpr std::string_view wanted = "a width and a height";
  if (!cursor.at(Kind::number)) return needs<Rectangle>(cursor, word, row, wanted);
  const bool own_unit = dimension_ahead(cursor) == Dimension::length;
  const auto width = own_unit ? read_measure(cursor) : std::nullopt;
  const auto bare_width = own_unit ? std::nullopt : read_number(cursor);
  if (!width && !bare_width) return std::nullopt;
  if (!cursor.take_word("x") || !cursor.at(Kind::number))
    return needs<Rectangle>(cursor, cursor.from(word), row, wanted);
  const UnitRow* unit = cursor.at(Kind::word, 1) ? find_unit(cursor.peek(1).text) : nullptr;
  const auto height = read_measure(cursor);
  if (!height) return std::nullopt;
  if (height->dimension != Dimension::length)
    return needs<Rectangle>(cursor, join(word, height->span), row, "a width and a height with their unit");
  // `45 x 22 mm`: the unit stands for both
  const double width_m = own_unit ? width->value : *bare_width * unit->times / unit->over;
  const bool good = width_m >= 0.001 && width_m <= 2 && height->value >= 0.001 && height->value <= 2;
  if (good) return Rectangle{metres(width_m), metres(height->value)};
  cursor.complain(cursor.from(word), "a cut-out is from 1 mm to 2 m wide and high", std::string(row.example));
  return std::nullopt;
}

void complain_no_colour(Cursor& cursor, const Token& word) {
  std::vector<std::string> names;
  for (const ColourName& row : colour_names()) names.emplace_back(row.name);
  const auto near = nearest(word.text, names);
  cursor.complain(word.span, fmt::format("`{}` is no colour that has a letter code", word.text),
                  near.value_or(one_of(names)));
}

}  // namespace loomleaf
