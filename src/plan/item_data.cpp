#include "item_data.h"

#include <algorithm>

#include "properties.h"

namespace loomleaf {

namespace {

using Kind = PropertyKind;

// A word that names one of a few kinds.
template <class T>
struct KindWord {
  std::string_view word;
  T kind;
};

constexpr KindWord<Source::Kind> source_kinds[] = {
    {"battery", Source::Kind::battery},       {"charger", Source::Kind::charger}, {"solar", Source::Kind::solar},
    {"alternator", Source::Kind::alternator}, {"supply", Source::Kind::supply},
};

constexpr KindWord<Load::Kind> load_kinds[] = {
    {"electronic", Load::Kind::electronic}, {"resistive", Load::Kind::resistive},
    {"motor", Load::Kind::motor},           {"constant-current", Load::Kind::constant_current},
    {"starter", Load::Kind::starter},
};

template <class T, std::size_t count>
T kind_of(const Statement& statement, const KindWord<T> (&words)[count], T otherwise) {
  const Word* said = value_of<Word>(statement, Kind::kind);
  if (said != nullptr)
    for (const KindWord<T>& word : words)
      if (word.word == said->text) return word.kind;
  return otherwise;
}

int count_of(const Statement& statement, Kind kind) { return std::max(1, given<int>(statement, kind).value_or(1)); }

Source read_source(const Statement& s) {
  Source source;
  source.kind = kind_of(s, source_kinds, Source::Kind::battery);
  source.nominal = given<Voltage>(s, Kind::voltage).value_or(Voltage{});
  source.low = given<Voltage>(s, Kind::low_voltage);
  source.high = given<Voltage>(s, Kind::high_voltage);
  source.charge = given<Charge>(s, Kind::charge);
  source.max_current = given<Current>(s, Kind::max_current);
  source.short_circuit = given<Current>(s, Kind::short_circuit);
  source.internal = given<Resistance>(s, Kind::internal_resistance);
  source.limit = given<Current>(s, Kind::limit_current).value_or(Current{});
  source.yield_a_day = given<Energy>(s, Kind::yield);
  return source;
}

Device read_device(const Statement& s) {
  Device device;
  device.is_breaker = s.keyword == Keyword::breaker;
  device.rating = given<Current>(s, Kind::rating);
  if (const Word* family = value_of<Word>(s, Kind::family)) device.family = family->text;
  device.rated_voltage = given<Voltage>(s, Kind::voltage);
  device.breaks = given<Current>(s, Kind::breaks);
  device.resistance = given<Resistance>(s, Kind::resistance);
  return device;
}

Switch read_switch(const Statement& s) {
  Switch contact;
  contact.rating = given<Current>(s, Kind::rating);
  contact.rated_voltage = given<Voltage>(s, Kind::voltage);
  contact.ways = count_of(s, Kind::ways);
  contact.poles = count_of(s, Kind::poles);
  contact.both = says(s, Kind::both);
  contact.drawn = given<Drawn>(s, Kind::drawn).value_or(Drawn{});
  return contact;
}

Relay read_relay(const Statement& s) {
  return {given<Current>(s, Kind::contact_rating), given<Power>(s, Kind::coil_power),
          given<Resistance>(s, Kind::coil_resistance)};
}

Converter read_converter(const Statement& s) {
  Converter converter;
  converter.in_voltage = given<Voltage>(s, Kind::in_voltage);
  converter.out_voltage = given<Voltage>(s, Kind::out_voltage).value_or(Voltage{});
  converter.rating = given<Current>(s, Kind::rating);
  converter.efficiency = given<double>(s, Kind::efficiency);
  converter.isolated = says(s, Kind::isolated);
  return converter;
}

Splice read_splice(const Statement& s) {
  return {given<int>(s, Kind::ways), given<Current>(s, Kind::rating), given<SizeRange>(s, Kind::takes)};
}

Connector read_connector(const Statement& s) {
  Connector connector;
  connector.poles = count_of(s, Kind::poles);
  connector.pole_ratings.assign(static_cast<std::size_t>(connector.poles), given<Current>(s, Kind::rating));
  for (const Property& property : s.properties) {
    const PoleRating* rating = std::get_if<PoleRating>(&property.value);
    if (rating != nullptr && rating->pole >= 1 && rating->pole <= connector.poles)
      connector.pole_ratings[static_cast<std::size_t>(rating->pole - 1)] = rating->rating;
  }
  connector.takes = given<SizeRange>(s, Kind::takes);
  return connector;
}

Load read_load(const Statement& s) {
  Load load;
  load.kind = kind_of(s, load_kinds, Load::Kind::electronic);
  load.power = given<Power>(s, Kind::power);
  load.current = given<Current>(s, Kind::current);
  load.rated_voltage = given<Voltage>(s, Kind::voltage);
  load.min_voltage = given<Voltage>(s, Kind::min_voltage);
  load.max_voltage = given<Voltage>(s, Kind::max_voltage);
  load.efficiency = given<double>(s, Kind::efficiency);
  load.surge = given<Surge>(s, Kind::surge);
  load.continuous = says(s, Kind::continuous);
  load.hours_a_day = given<double>(s, Kind::use_hours);
  load.use_share = given<double>(s, Kind::use_share).value_or(1.0);
  load.drop_limit = given<double>(s, Kind::drop);
  load.tails = given<TailLeads>(s, Kind::tails);
  return load;
}

}  // namespace

bool declares_item(Keyword keyword) {
  switch (keyword) {
    case Keyword::plan:
    case Keyword::system:
    case Keyword::default_:
    case Keyword::place:
    case Keyword::leg:
    case Keyword::spool:
    case Keyword::accept:
    case Keyword::wire:
    case Keyword::cable:
      return false;
    default:
      return true;
  }
}

ItemData read_item_data(const Statement& s) {
  switch (s.keyword) {
    case Keyword::source:
      return read_source(s);
    case Keyword::fuse:
    case Keyword::breaker:
      return read_device(s);
    case Keyword::switch_:
      return read_switch(s);
    case Keyword::shunt:
      return Shunt{given<Current>(s, Kind::rating), given<Resistance>(s, Kind::resistance)};
    case Keyword::dimmer:
      return Dimmer{given<Current>(s, Kind::rating)};
    case Keyword::relay:
      return read_relay(s);
    case Keyword::converter:
      return read_converter(s);
    case Keyword::splice:
      return read_splice(s);
    case Keyword::bus:
      return Bus{given<Current>(s, Kind::rating), given<int>(s, Kind::ways)};
    case Keyword::connector:
      return read_connector(s);
    case Keyword::chassis:
      return Chassis{};
    case Keyword::load:
      return read_load(s);
    default:
      return Tail{};
  }
}

}  // namespace loomleaf
