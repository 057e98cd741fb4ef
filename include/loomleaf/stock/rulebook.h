// A book of rules as data: what a conductor may carry, where its device may sit, what drop is acceptable.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "loomleaf/units/colour.h"
#include "loomleaf/stock/stock.h"
#include "loomleaf/units/quantity.h"
#include "loomleaf/units/wire_size.h"

namespace loomleaf {

// A row without insulation is a cap as well: a limit on the device (NEC 552.10(E)(1), 240.4(D)) that neither insulation
// nor factors move.
struct AmpacityRow {
  WireSize size;
  std::optional<Temperature> insulation;   // absent: whatever the insulation
  Current may_carry{};
  Provenance from;
};

// Factor on the ampacity at an ambient of up to `up_to`, for one insulation.
struct AmbientRow {
  Temperature insulation{};
  Temperature up_to{};
  double factor = 1.0;
  Provenance from;
};

// Factor where at least `from_count` run together. What counts: conductors that carry current, or circuits.
struct GroupingRow {
  int from_count = 1;
  double factor = 1.0;
  Provenance from;
};

// How long a conductor may run before its device.
struct PositionRow {
  std::optional<Length> longest;           // absent: no device asked for
  bool only_sheathed = false;              // holds only if sheathed or enclosed all the way
  bool only_from_battery = false;          // holds only for a stretch fed at a battery's terminal
  bool only_from_charger = false;          // holds only for a stretch fed at a charger, solar controller or alternator
  bool only_starter = false;               // holds only for a starter's stretch
  Provenance from;
};

// How far a device may exceed the ampacity of the conductor it protects.
struct AllowanceRow {
  double share = 1.0;                      // device rating over ampacity, 1 to 1.5
  std::optional<Voltage> below;            // holds where less than this can stand; absent: for all the rest
  Provenance from;
};

// A size and an insulation, as which a conductor is looked up in the ampacity tables.
struct LookedUpAs {
  WireSize size;
  std::optional<Temperature> insulation;
};

struct MinSizeRow {
  bool in_sheath = false;                  // for cores of a cable
  WireSize least;
  Provenance from;
};

// The lead that bonds a battery's - to metalwork.
struct LeastBond {
  WireSize least;
  bool as_lead = false;                    // nor thinner than the lead on the battery's other pole
  Provenance from;
};

struct ColourRow {
  std::string use;                         // "positive", "negative", "bond"
  std::vector<WireColour> colours;
  Provenance from;
};

struct Rulebook {
  std::string name;                        // "rv"
  std::string title;                       // "recreational vehicles, after NEC 552.10 and ANSI/RVIA LV"
  std::vector<AmpacityRow> ampacity;
  std::vector<AmbientRow> ambient;
  std::vector<GroupingRow> grouping;
  bool grouping_counts_circuits = false;   // else current-carrying conductors
  Temperature ambient_reference{};         // the tables hold up to this ambient
  std::vector<AllowanceRow> device_allowances;  // rising in `below`, the one for all the rest last
  Figure<bool> sae_counts_as_awg;          // vehicle wire is looked up under its number in AWG; else by its area
  std::vector<PositionRow> positions;
  Figure<double> drop_limit;               // share of 1
  std::vector<MinSizeRow> least_sizes;
  std::optional<LeastBond> least_bond;     // absent: the book is silent
  std::optional<Figure<WireSize>> parallel_from;  // from this size on alike conductors side by side may carry their sum;
                                                  // absent: each is held to all
  std::vector<ColourRow> colours;
  Figure<bool> return_alone_may_be_switched;
  Figure<bool> chassis_may_carry;          // working current through metalwork
  Figure<double> continuous_factor;        // 1.25
  Figure<Duration> continuous_from;        // 3 h
  std::vector<std::pair<int, double>> conduit_fill;  // from so many cables, share of 1 of the bore's area
  Provenance conduit_fill_from;
  std::optional<Figure<Length>> longest_tail;  // leads that an appliance comes with; absent: the book is silent

  // The size under which the book judges one: for vehicle wire AWG of the same number, where it counts so; else itself.
  WireSize judged_as(const WireSize& size) const;
  // Ampacity of a size in free air at the reference ambient. Without an insulation rating: the lowest that the book has a
  // table for at this size. A rating between two tables takes the lower. A size that the book lacks takes the next
  // thinner listed area (never more than its copper earns). Nothing where the book knows no thinner size either.
  std::optional<Figure<Current>> ampacity_of(const WireSize& size, std::optional<Temperature> insulation) const;
  // The same with a factor for ambient and grouping. The factor acts on the table of the insulation, and a cap holds
  // beside it; where the cap is all that the book has for this insulation, the factor acts on that.
  std::optional<Figure<Current>> derated_ampacity(const WireSize& size, std::optional<Temperature> insulation,
                                                  double factor) const;
  // Where ampacity_of has nothing, what surely carries no less: the same size with the coolest insulation that has a table,
  // or, of a size thinner than all that the book knows, the thinnest of them. Nothing where the book has no table at all.
  std::optional<LookedUpAs> nearest_above(const WireSize& size, std::optional<Temperature> insulation) const;
  // Of a circuit in which up to this voltage can stand.
  Figure<double> device_allowance(Voltage highest) const;
  // 1 up to the reference ambient, 0 where it is not permitted. It belongs to the table that the ampacity of this size
  // came from; a cap has none of its own and takes that of the insulation, the lowest where that is not known.
  Figure<double> ambient_factor(const WireSize& size, std::optional<Temperature> insulation, Temperature ambient) const;
  Figure<double> grouping_factor(int count) const;
  // A book without a row for cores in a sheath holds them to the size of single conductors.
  std::optional<Figure<WireSize>> least_size(bool in_sheath) const;
};

// Reads rulebooks/NAME.xml, NAME in any case.
Loaded<Rulebook> load_rulebook(const TemplateFolders& folders, std::string_view name);

}  // namespace loomleaf
