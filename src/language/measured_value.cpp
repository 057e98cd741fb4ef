#include <fmt/format.h>

#include <cmath>

#include "read_value.h"

namespace loomleaf {
namespace {

// Where the figure stands at a supply, more than this between two points is out of the program's bounds.
constexpr double extra_low_volts = 60;

bool is_supply_voltage(PropertyKind kind) {
  switch (kind) {
    case PropertyKind::voltages:
    case PropertyKind::low_voltage:
    case PropertyKind::high_voltage:
    case PropertyKind::in_voltage:
    case PropertyKind::out_voltage:
      return true;
    default:
      return false;
  }
}

bool stands_at_supply(const PropertyRow& row) {
  const bool source_or_load = has(row.on, Keyword::source) || has(row.on, Keyword::load);
  return is_supply_voltage(row.kind) || (row.kind == PropertyKind::voltage && source_or_load);
}

PropertyValue quantity(const Measure& measure) {
  const double value = measure.value;
  switch (measure.dimension) {
    case Dimension::voltage:
      return volts(value);
    case Dimension::current:
      return amperes(value);
    case Dimension::resistance:
      return ohms(value);
    case Dimension::power:
      return watts(value);
    case Dimension::charge:
      return ampere_hours(value);
    case Dimension::energy:
    case Dimension::energy_a_day:
      return watt_hours(value);
    case Dimension::length:
      return metres(value);
    case Dimension::area:
    case Dimension::gauge:
    case Dimension::vehicle_gauge:
      return size_of(value, measure.dimension);
    case Dimension::degrees_c:
    case Dimension::degrees_f:
      return celsius(value);
    case Dimension::ways:
    case Dimension::poles:
      return static_cast<int>(value);
    case Dimension::duration:
    case Dimension::hour_count:
    case Dimension::hours_a_day:
    case Dimension::share:
    case Dimension::times:
    case Dimension::none:
      break;
  }
  return value;
}

bool is_count(Dimension dimension) { return dimension == Dimension::ways || dimension == Dimension::poles; }

}  // namespace

std::optional<PropertyValue> value_of(Cursor& cursor, const Measure& measure, const PropertyRow& row) {
  const std::string example(row.example);
  if (stands_at_supply(row) && measure.value > extra_low_volts) {
    cursor.refuse(measure.span,
                  fmt::format("{} is above 60 V DC: that work belongs to licensed practice, and no plan can hold it",
                              cursor.source(measure.span)));
    return std::nullopt;
  }
  const bool size = is_wire_size(measure.dimension);
  if (measure.value < row.least || measure.value > row.most) {
    const std::string figure(cursor.source(measure.span));
    const std::string message = size ? fmt::format("there is no wire of {}", figure)
                                : measure.value <= 0 && row.least > 0 && measure.dimension != Dimension::degrees_c
                                    ? fmt::format("{} is not above zero", figure)
                                    : fmt::format("{} is beyond what can stand here: from {} to {}", figure,
                                                  written(row.least, row.dimension), written(row.most, row.dimension));
    cursor.complain(measure.span, message, example);
    return std::nullopt;
  }
  if (is_count(measure.dimension) && measure.value != std::floor(measure.value)) {
    cursor.complain(measure.span, fmt::format("`{}` is no whole number", cursor.source(measure.span)), example);
    return std::nullopt;
  }
  return quantity(measure);
}

}  // namespace loomleaf
