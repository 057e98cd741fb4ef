// The items of an installation: everything that has terminals.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "loomleaf/language/statement.h"
#include "loomleaf/units/index.h"
#include "loomleaf/units/quantity.h"

namespace loomleaf {

using ItemId = Index<struct ItemOf>;
using TerminalId = Index<struct TerminalOf>;
using PlaceId = Index<struct PlaceOf>;

struct Source {
  enum class Kind { battery, charger, solar, alternator, supply };
  Kind kind = Kind::battery;
  Voltage nominal{};
  std::optional<Voltage> low, high;
  std::optional<Charge> charge;
  std::optional<Current> max_current;        // battery: what it may deliver all day
  std::optional<Current> short_circuit;      // battery
  std::optional<Resistance> internal;        // battery
  Current limit{};                           // all but a battery
  std::optional<Energy> yield_a_day;
  bool is_limited() const { return kind != Kind::battery; }
  Voltage low_or_nominal() const { return low.value_or(nominal); }
  Voltage high_or_nominal() const { return high.value_or(nominal); }
};

// A fuse or breaker.
struct Device {
  bool is_breaker = false;
  std::optional<Current> rating;             // absent: `auto`
  std::string family;                        // a name from the stock; empty where none is given
  std::optional<Voltage> rated_voltage;      // overrides the family's
  std::optional<Current> breaks;             // overrides the family's interrupt rating
  std::optional<Resistance> resistance;      // overrides the family's
};

struct Switch {
  std::optional<Current> rating;
  std::optional<Voltage> rated_voltage;
  int ways = 1;                              // 1: make/break
  int poles = 1;                             // poles move together
  bool both = false;                         // one more position, in which all its ways are closed
  Drawn drawn;
};

struct Shunt { std::optional<Current> rating; std::optional<Resistance> resistance; };
struct Dimmer { std::optional<Current> rating; };

struct Relay {
  std::optional<Current> contact_rating;
  std::optional<Power> coil_power;
  std::optional<Resistance> coil_resistance;
};

struct Converter {
  std::optional<Voltage> in_voltage;
  Voltage out_voltage{};
  std::optional<Current> rating;             // of its output
  std::optional<double> efficiency;          // share of 1
  bool isolated = false;
};

struct Splice { std::optional<int> ways; std::optional<Current> rating; std::optional<SizeRange> takes; };
struct Bus { std::optional<Current> rating; std::optional<int> ways; };

struct Connector {
  int poles = 1;
  std::vector<std::optional<Current>> pole_ratings;  // one a pole
  std::optional<SizeRange> takes;
};

struct Chassis {};
struct Tail {};

struct Load {
  enum class Kind { electronic, resistive, motor, constant_current, starter };
  Kind kind = Kind::electronic;
  std::optional<Power> power;                // one of power and current is given
  std::optional<Current> current;
  std::optional<Voltage> rated_voltage;      // as given; the study knows what stands for it otherwise
  std::optional<Voltage> min_voltage, max_voltage;
  std::optional<double> efficiency;
  std::optional<Surge> surge;
  bool continuous = false;
  std::optional<double> hours_a_day;
  double use_share = 1.0;
  std::optional<double> drop_limit;          // share of 1
  std::optional<TailLeads> tails;
};

using ItemData = std::variant<Source, Device, Switch, Shunt, Dimmer, Relay, Converter, Splice, Bus, Connector, Chassis, Tail, Load>;

// What a terminal is to its item, so that nobody compares names.
enum class TerminalRole {
  plus, minus,                    // source, load
  in, out,                        // device, shunt, contact, connector pole; `out` with `way` on a changeover
  in_plus, in_minus, out_plus, out_minus,  // dimmer, converter
  coil_85, coil_86, common_30, make_87, break_87a,  // relay
  node,                           // splice, bus, chassis, tail
  also,                           // a further terminal such as a sense lead; no part of the item's work
};

struct Terminal {
  ItemId item;
  TerminalRole role = TerminalRole::node;
  std::string name;               // "+", "1.out2"; empty for a node
  int pole = 1;                   // from 1
  int way = 1;                    // from 1, for `out` of a changeover
};

// Where an item stands.
struct Standing {
  PlaceId place;
  std::optional<Length> offset;   // from the place's datum
};

struct Item {
  std::string id;
  std::string keyword;            // as declared: "fuse", "breaker", "load"
  std::string description;
  ItemData data;
  std::vector<TerminalId> terminals;
  std::optional<Standing> standing;        // an item `on` something stands where that stands
  std::optional<TerminalId> on;            // the terminal of another item that this item's `on_terminal` is joined to
  std::optional<TerminalId> on_terminal;   // this item's own terminal that is joined so
  std::optional<Length> hole;
  std::optional<Rectangle> cut_out;
  bool later = false;
  std::string note, part;
  Span span;                      // the statement's
  Span id_span;                   // its own name (for a range, the range as written)

  template <class T> const T* as() const { return std::get_if<T>(&data); }
  template <class T> bool is() const { return std::holds_alternative<T>(data); }
};

}  // namespace loomleaf
