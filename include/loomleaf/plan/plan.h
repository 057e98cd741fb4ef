// The installation as declared: items, conductors, places and legs, with every name resolved.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "loomleaf/language/complaint.h"
#include "loomleaf/language/statement.h"
#include "loomleaf/plan/item.h"
#include "loomleaf/units/index.h"

namespace loomleaf {

using LegId = Index<struct LegOf>;
using RunId = Index<struct RunOf>;
using ConductorId = Index<struct ConductorOf>;

struct Place {
  std::string id, description;
  std::string cover;              // empty: none
  bool removable = false;
  std::optional<Temperature> ambient;
  bool sheathed = false;
  Span span;
};

// A measured stretch between two places.
struct Leg {
  std::string id;                 // empty where none is given
  Standing from, to;
  Length length{};
  std::optional<Length> conduit_bore;
  bool bundle = false;
  Length slack{};                 // per pass
  bool sheathed = false;
  Span span;
};

struct Spool {
  std::optional<WireSize> size;
  std::optional<WireColour> colour;
  Length on_hand{};
  Span span;
};

// `accept RULE on IDs "why"`.
struct Acceptance {
  std::string rule;
  std::vector<std::string> subjects;
  std::string reason;
  Span span;
};

// A single wire, or a cable with its cores: what is cut, pulled and labelled as one piece.
struct Run {
  std::string id, description;
  bool is_cable = false;
  std::vector<ConductorId> conductors;   // one for a wire, the cores in order for a cable
  std::optional<WireSize> size;          // of each core; absent for `auto` and for signals without a size
  bool auto_size = false;
  std::optional<Temperature> insulation;
  std::string insulation_kind;           // a name from the stock; empty: none given
  bool sheathed = false;                 // as declared; a cable is sheathed anyway
  bool bond = false, signal = false;
  std::optional<Length> given_length;    // replaces the route
  Length plus{};                         // added to the route
  std::vector<std::variant<PlaceId, LegId>> via;
  bool later = false;
  std::string note, part;
  Span span;                             // the statement's
  Span id_span;
  Span ends_span;
};

// One core: an electrical conductor between two terminals.
struct Conductor {
  std::string id;                        // "W1", "C1.red", "C1.2"
  RunId run;
  TerminalId from, to;
  std::optional<WireColour> colour;
};

struct Heading {
  std::string title, revision, date, by;  // date as YYYY-MM-DD, or empty
  std::string file;                       // the file's name as given
};

struct System {
  std::vector<Voltage> voltages;          // as declared; may be empty
  std::string rules;                      // the rulebook's name in lower case; empty where the plan names none
  Span rules_span;
  std::optional<double> drop_limit;       // share of 1
  std::optional<Temperature> conductor_temperature;
};

struct Plan {
  Heading heading;
  System system;
  IndexedList<PlaceOf, Place> places;
  IndexedList<LegOf, Leg> legs;
  bool ways_unclear = false;              // a place, a leg or an `at` was not understood: ways may be missing for that reason
  std::vector<Spool> spools;
  std::vector<Acceptance> acceptances;
  IndexedList<ItemOf, Item> items;
  IndexedList<TerminalOf, Terminal> terminals;
  IndexedList<RunOf, Run> runs;
  IndexedList<ConductorOf, Conductor> conductors;
};

// "F1.out", "BAT+", "1.out2" behind its item's dot; a node is its item's ID alone.
std::string terminal_text(const Plan& plan, TerminalId terminal);

struct PlanReading {
  Plan plan;                        // whatever could be understood
  std::vector<Complaint> complaints;
};

// Names that the plan may use of the stock: sizes and families are checked against these by the caller's choice, so
// that this stage knows no templates. An empty list leaves the check out.
struct KnownNames {
  std::vector<std::string> families;      // fuse and breaker families
  std::vector<std::string> rulebooks;
  std::vector<std::string> rules;         // names of findings, for `accept`
  std::vector<std::string> danger_rules;  // of these, the ones that cannot be accepted
  std::vector<WireSize> sizes;
  std::vector<std::string> insulations;   // kinds of insulation
};

// Builds the installation from its statements: defaults, ranges, chains, bare names, cables to cores, `on`, places.
// Complaints cover what the language alone cannot know (unknown names, missing figures, a terminal used twice by bare
// names, lengths that cannot be worked out, over 60 V between two points). The statements' own complaints are not
// repeated. Meaningful also where there are complaints: nothing in the plan refers to what is missing.
PlanReading build_plan(const Document& document, const SourceText& source, const KnownNames& known);

}  // namespace loomleaf
