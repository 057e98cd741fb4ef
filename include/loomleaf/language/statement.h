// The statements of a plan as written: words and quantities with their places, nothing resolved.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "loomleaf/units/colour.h"
#include "loomleaf/language/complaint.h"
#include "loomleaf/language/source_text.h"
#include "loomleaf/units/quantity.h"
#include "loomleaf/units/wire_size.h"

namespace loomleaf {

enum class Keyword {
  plan, system, default_, place, leg, spool, accept,
  source, fuse, breaker, switch_, shunt, dimmer, relay, converter, splice, bus, connector, chassis, tail, load,
  wire, cable,
};
std::string_view name_of(Keyword keyword);  // as written in a plan: "switch"

// A name as written. In ends and `on` it may carry a terminal.
struct Name {
  std::string id;
  Span span;
};

// A terminal as written: BAT+, F1.out, D1.in+, R1.87, 1.out2 behind a dot, or a bare item.
struct TerminalName {
  std::string item;
  std::string terminal;  // "+", "out", "in+", "1.in", "2"; empty for a bare item
  Span span;
};

// A statement's property, by the word it is known under. The comment says what `value` holds and on which statements
// it stands; a word for which the unit speaks ("5 A") is stored under the property that the statement means by it.
enum class PropertyKind {
  // the plan and the system
  language,        // int: plan
  revision,        // string: plan
  date,            // string, ISO 8601, checked to exist: plan
  by,              // string: plan
  voltages,        // vector<Voltage>: system
  rules,           // Name: system
  conductor_temperature,  // Temperature: system
  // places and legs
  cover,           // string: place
  removable,       // none: place
  ambient,         // Temperature: place
  sheathed,        // none: place, leg, wire, cable
  conduit,         // Length (bore): leg
  bundle,          // none: leg
  slack,           // Length: leg
  length,          // Length: leg, wire, cable, spool
  plus,            // Length: wire, cable
  // the spool and conductors
  size,            // WireSize, or Auto: wire, cable, spool, default
  core_count,      // int (the 2 of 2x1.5 mm2): cable, default cable
  cores,           // vector<WireColour>: cable, default cable
  colour,          // WireColour: wire, spool, default wire
  insulation,      // Temperature: wire, cable, default
  insulation_kind, // Name (of the stock): wire, cable, default
  via,             // vector<Name>: wire, cable
  bond, signal,    // none: wire, cable
  // items
  kind,            // Word (battery, charger ...; electronic ...): source, load
  voltage,         // Voltage: source (nominal), load (rated), fuse, breaker, switch, ... (rated for)
  low_voltage, high_voltage,      // Voltage: source
  min_voltage, max_voltage,       // Voltage: load
  in_voltage, out_voltage,        // Voltage: converter
  charge,          // Charge (Ah): source
  max_current,     // Current: source (battery)
  limit_current,   // Current: source (not a battery)
  short_circuit,   // Current: source
  internal_resistance,            // Resistance: source
  yield,           // Energy a day: source
  rating,          // Current, or Auto: fuse, breaker, switch, shunt, dimmer, converter, splice, bus, connector (per pole)
  pole_rating,     // PoleRating, repeatable: connector
  family,          // Word: fuse, breaker (a name from the stock)
  breaks,          // Current: fuse, breaker
  ways,            // int: switch, splice, bus
  poles,           // int: switch, connector
  both,            // none: switch of several ways
  drawn,           // Drawn: switch
  resistance,      // Resistance: shunt
  contact_rating,  // Current: relay
  coil_power,      // Power: relay
  coil_resistance, // Resistance: relay
  efficiency,      // double, a share of 1: converter, load
  isolated,        // none: converter
  takes,           // SizeRange: splice, connector
  power,           // Power: load
  current,         // Current: load
  surge,           // Surge: load
  continuous,      // none: load
  use_hours,       // double, hours a day: load
  use_share,       // double, a share of 1: load
  drop,            // double, a share of 1: system, load
  tails,           // TailLeads: load
  // any item
  at,              // Position
  on,              // TerminalName
  also,            // vector<Name>
  hole,            // Length
  cut_out,         // Rectangle
  later,           // none (conductors too)
  note, part,      // string (conductors too)
};

struct Auto {};                                   // `auto`
struct Word { std::string text; };                // one word, lower case
struct PoleRating { int pole; Current rating; };
struct Drawn { bool open = false; int way = 1; };
struct SizeRange { WireSize least; WireSize most; };
struct Surge { double times; Duration lasting; };
struct TailLeads { WireSize size; Length length; };
struct Position { Name place; std::optional<Length> offset; std::optional<Length> every; };
struct Rectangle { Length width; Length height; };

using PropertyValue =
    std::variant<std::monostate, int, double, std::string, Word, Auto, Voltage, Current, Resistance, Power, Length,
                 Temperature, Charge, Energy, WireSize, WireColour, std::vector<WireColour>, std::vector<Voltage>, Name,
                 std::vector<Name>, TerminalName, PoleRating, Drawn, SizeRange, Surge, TailLeads, Position, Rectangle>;

struct Property {
  PropertyKind kind;
  PropertyValue value;
  Span span;
};

// One end of a wire or cable: the terminals listed for it, ranges already opened. For a chain of three ends there are
// three of these.
struct EndList {
  std::vector<TerminalName> terminals;
  Span span;
};

struct Statement {
  Keyword keyword;
  Span span;                              // the whole statement
  std::vector<Name> ids;                  // ranges opened; what `default` is for, as "wire" or "cable"; empty for plan, system
  std::optional<std::string> description;
  Span description_span;
  std::vector<Property> properties;
  std::vector<EndList> ends;              // wire, cable: two or more
  std::vector<Position> leg_ends;         // leg: two
  std::vector<Name> subjects;             // accept: what it is said of; its rule is ids[0], its reason the description
  bool troubled = false;                  // has a complaint: what it lacks may be what could not be understood
};

struct Document {
  std::vector<Statement> statements;
  std::vector<Complaint> complaints;      // in order of place
  // The words of statements whose keyword could not be understood: a name among them may be what they declare.
  std::vector<std::string> lost_words;
};

// Reads the text of a plan. Never fails: what is not understood becomes a complaint, and reading goes on at the next
// statement. A statement that has a complaint is still given, with what could be read of it.
Document read_document(const SourceText& source);

// All words that cannot be an ID, for `explain words`: keywords, property words and colours, in order.
std::vector<std::string> reserved_words();

// The nearest of `known` to `word` (edit distance, any case), where one is near enough to be meant.
std::optional<std::string> nearest(std::string_view word, const std::vector<std::string>& known);

}  // namespace loomleaf
