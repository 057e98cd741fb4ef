#include "item_rules.h"

#include <fmt/format.h>

#include "loomleaf/plan/bounds.h"
#include "loomleaf/units/format.h"
#include "properties.h"

namespace loomleaf {

namespace {

using Kind = PropertyKind;

// A figure without which nothing can be worked out.
struct Needed {
  Keyword on;
  Kind what;
  std::string_view missing;
  std::string_view write;
};
constexpr Needed needed[] = {
    {Keyword::source, Kind::voltage, "does not say its voltage", "its V, such as `12.8 V`"},
    {Keyword::fuse, Kind::rating, "does not say its rating", "its A, such as `10 A`"},
    {Keyword::breaker, Kind::rating, "does not say its rating", "its A, such as `10 A`"},
    {Keyword::converter, Kind::out_voltage, "does not say what it gives", "its output, such as `out 12 V`"},
    {Keyword::converter, Kind::rating, "does not say what its output can deliver",
     "the A of its output, such as `15 A`"},
    {Keyword::connector, Kind::poles, "does not say how many poles it has", "their number, such as `7 poles`"},
};

// Two ways to say one thing.
struct EitherOr {
  Keyword on;
  Kind a, b;
  std::string_view a_text, b_text;
};
constexpr EitherOr either_or[] = {
    {Keyword::load, Kind::power, Kind::current, "W", "A"},
    {Keyword::source, Kind::short_circuit, Kind::internal_resistance, "short-circuit A", "internal mohm"},
    {Keyword::relay, Kind::coil_power, Kind::coil_resistance, "coil W", "coil ohm"},
};

// What belongs to batteries alone, or to all other sources alone.
struct SourceProperty {
  Kind kind;
  bool of_battery;
  std::string_view message;
  std::string_view write;
};
constexpr SourceProperty source_properties[] = {
    {Kind::limit_current, false, "a battery has no `limit`: nothing holds its current back",
     "`max` for what it may deliver all day; if this is no battery, its kind: charger, solar, alternator or supply"},
    {Kind::yield, false, "a battery has no `yield`", "`yield` on what charges it"},
    {Kind::max_current, true, "`max` is for a battery", "`limit` for the most that it can give"},
    {Kind::charge, true, "Ah is for a battery", "nothing here, or `battery`"},
    {Kind::short_circuit, true, "`short-circuit` is for a battery", "`limit` for the most that it can give"},
    {Kind::internal_resistance, true, "`internal` is for a battery", "`limit` for the most that it can give"},
};

// Voltages of one statement that must not fall in this order.
struct Order {
  Keyword on;
  Kind lower, upper;
  std::string_view message;
};
constexpr Order orders[] = {
    {Keyword::source, Kind::low_voltage, Kind::voltage, "`low` is above the source's own voltage"},
    {Keyword::source, Kind::voltage, Kind::high_voltage, "`high` is below the source's own voltage"},
    {Keyword::source, Kind::low_voltage, Kind::high_voltage, "`high` is below `low`"},
    {Keyword::load, Kind::min_voltage, Kind::max_voltage, "`max` is below `min`"},
    {Keyword::load, Kind::min_voltage, Kind::voltage, "`min` is above the voltage that the load is rated at"},
    {Keyword::load, Kind::voltage, Kind::max_voltage, "`max` is below the voltage that the load is rated at"},
};

// Voltages that stand between two points, and so keep to extra-low voltage: IEC 61140, DC not above 60 V (from memory).
struct Limited {
  Keyword on;
  Kind what;
};
constexpr Limited limited_voltages[] = {
    {Keyword::source, Kind::voltage},        {Keyword::source, Kind::high_voltage},
    {Keyword::source, Kind::low_voltage},    {Keyword::converter, Kind::in_voltage},
    {Keyword::converter, Kind::out_voltage},
};

Span span_under(const Statement& statement, Kind kind) {
  const Property* property = find_property(statement, kind);
  return property == nullptr ? name_span(statement) : property->span;
}

std::string called(const Statement& statement) {
  return statement.ids.empty() ? fmt::format("this {}", name_of(statement.keyword))
                               : fmt::format("`{}`", statement.ids.front().id);
}

void check_needed(Draft& draft, const Statement& s) {
  for (const Needed& row : needed)
    if (row.on == s.keyword && !says(s, row.what))
      draft.complain(name_span(s), fmt::format("{} {}", called(s), row.missing), std::string(row.write));
  if (s.keyword == Keyword::load && !says(s, Kind::power) && !says(s, Kind::current))
    draft.complain(name_span(s), fmt::format("{} does not say what it uses", called(s)),
                   "its W or its A, such as `3 W`");
  if (s.keyword == Keyword::load && !says(s, Kind::voltage) && draft.plan.system.voltages.size() > 1)
    draft.complain(name_span(s), fmt::format("{} does not say its voltage, and `system` names several", called(s)),
                   fmt::format("the V it is rated at, such as `{} V`", draft.plan.system.voltages.front().in(volts)));
}

void check_either_or(Draft& draft, const Statement& s) {
  for (const EitherOr& row : either_or)
    if (row.on == s.keyword && says(s, row.a) && says(s, row.b))
      draft.complain(
          span_under(s, row.b),
          fmt::format("{} says {} and {}, and each follows from the other", called(s), row.a_text, row.b_text),
          "one of the two");
}

void check_source(Draft& draft, const Statement& s, const Source& source) {
  for (const SourceProperty& row : source_properties)
    if (says(s, row.kind) && row.of_battery == source.is_limited())
      draft.complain(span_under(s, row.kind), std::string(row.message), std::string(row.write));
  const bool has_limit = says(s, Kind::limit_current) || says(s, Kind::max_current);
  if (source.is_limited() && !has_limit && !draft.was_misread(s))
    draft.complain(name_span(s), fmt::format("{} does not say the most that it can give", called(s)),
                   "its `limit`, such as `limit 20 A`");
}

void check_voltages(Draft& draft, const Statement& s) {
  for (const Order& row : orders) {
    const auto lower = given<Voltage>(s, row.lower), upper = given<Voltage>(s, row.upper);
    if (row.on == s.keyword && lower && upper && *upper < *lower)
      draft.complain(span_under(s, row.upper == Kind::voltage ? row.lower : row.upper), std::string(row.message),
                     "the two in their order");
  }
  for (const Limited& row : limited_voltages) {
    const auto voltage = given<Voltage>(s, row.what);
    if (row.on == s.keyword && voltage && *voltage > highest_voltage)
      draft.refuse(span_under(s, row.what), fmt::format("{} is above 60 V DC", to_text(*voltage)),
                   std::string(above_highest_voltage));
  }
}

void check_count(Draft& draft, const Statement& s, Kind kind, int most, std::string_view what) {
  const auto count = given<int>(s, kind);
  if (!count || (*count >= 1 && *count <= most)) return;
  draft.complain(span_under(s, kind), fmt::format("{} cannot be {} {}", called(s), *count, what),
                 fmt::format("a number from 1 to {}", most));
}

void check_switch(Draft& draft, const Statement& s, const Switch& contact) {
  check_count(draft, s, Kind::ways, most_ways, "ways");
  check_count(draft, s, Kind::poles, most_poles, "poles");
  if (contact.drawn.open || (contact.drawn.way >= 1 && contact.drawn.way <= contact.ways)) return;
  draft.complain(span_under(s, Kind::drawn), fmt::format("{} has no way {}", called(s), contact.drawn.way),
                 contact.ways == 1 ? "`drawn open`, or how many ways it has, such as `2 ways`"
                                   : fmt::format("a way from 1 to {}", contact.ways));
}

void check_connector(Draft& draft, const Statement& s, const Connector& connector) {
  check_count(draft, s, Kind::poles, most_poles, "poles");
  for (const Property& property : s.properties) {
    const PoleRating* rating = std::get_if<PoleRating>(&property.value);
    if (rating != nullptr && (rating->pole < 1 || rating->pole > connector.poles))
      draft.complain(property.span, fmt::format("{} has no pole {}", called(s), rating->pole),
                     fmt::format("a pole from 1 to {}", connector.poles));
  }
}

}  // namespace

void check_item(Draft& draft, const Statement& statement, const ItemData& data) {
  if (!draft.was_misread(statement)) check_needed(draft, statement);
  check_either_or(draft, statement);
  check_voltages(draft, statement);
  if (const Source* source = std::get_if<Source>(&data)) check_source(draft, statement, *source);
  if (const Switch* contact = std::get_if<Switch>(&data)) check_switch(draft, statement, *contact);
  if (const Connector* connector = std::get_if<Connector>(&data)) check_connector(draft, statement, *connector);
}

}  // namespace loomleaf
