#include "measure.h"

#include <fmt/format.h>

#include <charconv>
#include <cmath>

#include "loomleaf/units/format.h"
#include "property_complaints.h"

namespace loomleaf {
namespace {

using Kind = Token::Kind;

std::optional<double> parse(std::string_view text) {
  if (text.starts_with('+')) text.remove_prefix(1);
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value)) return std::nullopt;
  return value;
}

// 2,5 is 2.5; 1,000 can be meant either way, so both are offered.
std::string without_comma(std::string text, std::string_view unit) {
  const std::string behind = unit.empty() ? "" : fmt::format(" {}", unit);
  const std::size_t comma = text.find(',');
  const bool thousands = text.size() - comma == 4 && text.find('.') == std::string::npos && text[0] != '0';
  std::string point = text;
  point[comma] = '.';
  if (text.find(',', comma + 1) != std::string::npos || text.find('.') < comma || text.find('.') != std::string::npos) {
    std::erase(text, ',');
    return text + behind;
  }
  if (!thousands) return point + behind;
  std::erase(text, ',');
  return fmt::format("{}{}, or {}{} if thousands are meant", point, behind, text, behind);
}

std::string unit_text_ahead(const Cursor& cursor) {
  const bool known = cursor.at(Kind::word) && find_unit(cursor.peek().text);
  return known ? cursor.peek().text : "";
}

// 1/0 to 4/0, and 0 to 0000 as some write them; whole numbers otherwise.
std::optional<double> gauge_number(std::string_view text) {
  if (text.ends_with("/0")) {
    const auto value = parse(text.substr(0, text.size() - 2));
    if (!value || *value < 1 || *value != std::floor(*value)) return std::nullopt;
    return 1 - *value;
  }
  if (text.find_first_not_of('0') == std::string_view::npos) return 1.0 - static_cast<double>(text.size());
  const auto value = parse(text);
  if (!value || *value != std::floor(*value) || *value < 1) return std::nullopt;
  return value;
}

// A word behind a number that no table knows: a unit with a typing slip, or no unit at all.
bool is_unit_slip(const Cursor& cursor) {
  if (!cursor.at(Kind::word)) return false;
  const Token& word = cursor.peek();
  if (word.glued) return true;
  const std::string lower = lower_case(word.text);
  if (is_reserved(lower)) return false;
  return nearest(lower, unit_names()).has_value();
}

std::string_view first_spelling(const UnitRow& row) { return row.words.substr(0, row.words.find(' ')); }

void complain_unit(Cursor& cursor, Span number) {
  const Token word = cursor.take();
  const std::string figure(cursor.source(number));
  const auto near = nearest(word.text, unit_names());
  cursor.complain(word.span, fmt::format("`{}` is no unit", word.text),
                  near ? fmt::format("{} {}", figure, first_spelling(*find_unit(*near)))
                       : figure + " with its unit, such as V, A, W, m, mm2 or AWG");
}

// `4 hours a day`, `4 h per day`, `500 Wh a day`
void take_a_day(Cursor& cursor, Measure& measure) {
  const bool may_follow = measure.dimension == Dimension::hour_count || measure.dimension == Dimension::energy;
  if (!may_follow || !(cursor.at_word("a") || cursor.at_word("per")) || !cursor.at_word("day", 1)) return;
  cursor.skip();
  cursor.skip();
  measure.dimension = measure.dimension == Dimension::hour_count ? Dimension::hours_a_day : Dimension::energy_a_day;
}

std::optional<Measure> take_unit(Cursor& cursor, const Token& number);

// `6 ft 4 in`
void take_inches(Cursor& cursor, Measure& feet) {
  const auto* unit = cursor.at(Kind::number) && cursor.at(Kind::word, 1) ? find_unit(cursor.peek(1).text) : nullptr;
  if (unit == nullptr || unit != find_unit("in")) return;
  if (const auto inches = read_number(cursor)) feet.value += *inches * unit->times / unit->over;
  cursor.skip();
}

std::optional<Measure> take_unit(Cursor& cursor, const Token& number) {
  const bool gauge_form = number.text.find('/') != std::string::npos;
  const auto bare = gauge_form ? gauge_number(number.text) : parse(number.text);
  Measure measure{bare.value_or(0), Dimension::none, {}, number.span};
  const auto* unit = cursor.at(Kind::word) ? find_unit(cursor.peek().text) : nullptr;
  if (unit == nullptr) {
    if (cursor.at(Kind::word) && is_mains_word(cursor.peek().text)) {
      refuse_mains(cursor, join(number.span, cursor.peek().span));
      return std::nullopt;
    }
    if (!is_unit_slip(cursor)) return measure;
    complain_unit(cursor, number.span);
    return std::nullopt;
  }
  cursor.skip();
  measure.dimension = unit->dimension;
  measure.span = cursor.from(number.span);
  const bool gauge = is_gauge(unit->dimension);
  const auto value = gauge ? gauge_number(number.text) : parse(number.text);
  if (!value) {
    cursor.complain(number.span, fmt::format("`{}` is no {}", number.text, gauge ? "number of a wire gauge" : "number"),
                    gauge ? fmt::format("a whole number or 1/0 to 4/0, as in 18 {}", symbol(unit->dimension)) : "");
    return std::nullopt;
  }
  measure.value = gauge ? *value : *value * unit->times / unit->over;
  if (unit->dimension == Dimension::degrees_f) {
    measure.value = (*value - 32) * 5 / 9;
    measure.dimension = Dimension::degrees_c;
  }
  if (unit == find_unit("ft")) take_inches(cursor, measure);
  if (unit->dimension == Dimension::voltage) cursor.take_word("dc");
  take_a_day(cursor, measure);
  measure.span = cursor.from(number.span);
  return measure;
}

// The number token here, with a decimal comma mended.
std::optional<Token> take_number(Cursor& cursor) {
  Token number = cursor.take();
  const std::size_t comma = number.text.find(',');
  if (comma == std::string::npos) return number;
  cursor.complain(number.span, "a comma stands within a number", without_comma(number.text, unit_text_ahead(cursor)));
  number.text[comma] = '.';
  if (!parse(number.text)) return std::nullopt;
  return number;
}

}  // namespace

std::optional<Measure> read_measure(Cursor& cursor) {
  const auto number = take_number(cursor);
  if (!number) {
    if (!unit_text_ahead(cursor).empty()) cursor.skip();
    return std::nullopt;
  }
  const bool counted = cursor.at_word("x") && cursor.at(Kind::number, 1);
  const bool is_size = counted && cursor.at(Kind::word, 2) && find_unit(cursor.peek(2).text) &&
                       is_wire_size(find_unit(cursor.peek(2).text)->dimension);
  if (!is_size) return take_unit(cursor, *number);
  cursor.skip();
  const auto size_number = take_number(cursor);
  if (!size_number) return std::nullopt;
  auto size = take_unit(cursor, *size_number);
  const auto count = parse(number->text);
  if (!size) return size;
  size->span = join(number->span, size->span);
  if (!count || *count < 1 || *count > 1000 || *count != std::floor(*count)) {
    cursor.complain(number->span, fmt::format("`{}` is no number of cores", number->text), "2x1.5 mm2");
    return std::nullopt;
  }
  size->count = static_cast<int>(*count);
  return size;
}

std::optional<double> read_number(Cursor& cursor) {
  const auto number = take_number(cursor);
  if (!number) return std::nullopt;
  const auto value = parse(number->text);
  if (!value) cursor.complain(number->span, fmt::format("`{}` is no number here", number->text), {});
  return value;
}

std::optional<int> read_whole(Cursor& cursor) {
  const Span span = cursor.peek().span;
  const auto value = read_number(cursor);
  if (!value) return std::nullopt;
  if (*value != std::floor(*value) || std::fabs(*value) > 1e6) {
    cursor.complain(span, fmt::format("`{}` is no whole number that fits here", cursor.source(span)), {});
    return std::nullopt;
  }
  return static_cast<int>(*value);
}

Dimension dimension_ahead(const Cursor& cursor) {
  if (!cursor.at(Kind::number) || !cursor.at(Kind::word, 1)) return Dimension::none;
  const auto* unit = find_unit(cursor.peek(1).text);
  return unit == nullptr ? Dimension::none : unit->dimension;
}

WireSize size_of(double value, Dimension dimension) {
  if (dimension == Dimension::gauge) return WireSize::awg(static_cast<int>(value));
  if (dimension == Dimension::vehicle_gauge) return WireSize::sae(static_cast<int>(value));
  return WireSize::metric(square_millimetres(value));
}

std::string written(double value, Dimension dimension) {
  if (is_gauge(dimension)) return to_text(size_of(value, dimension));
  if (dimension == Dimension::share) return to_text(value * 100, 4) + " %";
  const std::string number = to_text(value, 6);
  return dimension == Dimension::none ? number : fmt::format("{} {}", number, symbol(dimension));
}

}  // namespace loomleaf
