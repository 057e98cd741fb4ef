// What can be bought, as tables read once from templates/stock/*.xml.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "loomleaf/stock/provenance.h"
#include "loomleaf/units/quantity.h"
#include "loomleaf/units/wire_size.h"

namespace loomleaf {

// A stranded copper conductor of a size that is sold.
struct WireStock {
  WireSize size;
  Area area{};
  Resistance per_metre_20C{};           // ohm in one metre at 20 C
  Length single_od{};                   // outside diameter of a single insulated conductor
  Length two_core_od{};                 // of a round two-core cable (flat: its width); zero where not sold
  Provenance area_from, resistance_from, od_from;
  Provenance two_core_od_from;          // empty where not sold
};

// A device opens no sooner than `no_sooner` and no later than `no_later` at `times` its rating; absent: not limited.
struct TimeGate {
  double times = 1.0;
  std::optional<Duration> no_sooner, no_later;
};

struct FuseFamily {
  std::string name;                     // "blade", "class-t"
  std::string what;
  bool breaker = false;
  bool current_limiting = false;
  std::vector<Current> ratings;         // rising
  Voltage rated_voltage{};
  std::optional<Current> breaks;        // interrupt rating at its full voltage; absent: not known
  std::vector<std::pair<Voltage, Current>> breaks_up_to;  // interrupt rating up to a voltage, rising in voltage
  std::vector<TimeGate> gates;          // rising in `times`; empty: no published curve
  std::vector<std::pair<Current, Resistance>> cold_resistance;  // by rating
  Provenance from, breaks_from, gates_from, resistance_from;

  // Cold resistance at a rating, log-log between the listed ones; beyond them in inverse proportion to the rating (the
  // drop at rating stays that of the nearest listed one); absent where none is listed.
  std::optional<Resistance> resistance(Current rating) const;
  // Interrupt rating at a voltage: a family may break more at 12 V than at 48 V. Absent where it is not known.
  std::optional<Current> breaks_at(Voltage voltage) const;
};

// A kind of insulation by the name it is sold under, and how thick what wears it is on the outside. It says nothing of the
// warmth that it bears.
struct InsulationKind {
  struct Row {
    WireSize size;
    Length outside{};                   // diameter of a single wire or of a round two-core cable (flat: its width)
    Provenance from;
  };
  std::string name;                     // "thin-wall", "h07v-k"
  std::string what;
  std::vector<Row> singles, two_core;

  // The row of a size. Vehicle wire is sold under AWG numbers as well, so that one number counts as the other.
  static const Row* find(const std::vector<Row>& rows, const WireSize& size);
};

struct SpliceKind {
  std::string what;
  int ways = 2;
  WireSize least, most;
  std::optional<Current> rating;
  bool solid_only = false;              // takes no stranded conductor
  Provenance from;
};

// Heat-shrink sleeve, before and after recovery.
struct Sleeve {
  std::string name;                     // "3/8 in", "9 mm"
  std::string kind;                     // "single wall", "adhesive-lined", "marker sleeve, sold flat"
  Length supplied_bore{}, recovered_bore{};
  double ratio = 2.0;
  Provenance from;
};

struct Conduit { std::string name; Length bore{}; Provenance from; };  // "rigid PVC 20 mm"

struct Stock {
  std::vector<WireStock> wires;         // AWG, then metric, then SAE, each from thin to thick
  std::vector<InsulationKind> insulations;
  std::vector<FuseFamily> families;
  std::vector<SpliceKind> splices;
  std::vector<Sleeve> sleeves;          // rising in supplied bore
  std::vector<Conduit> conduits;
  Figure<Resistance> contact_resistance;   // of any contact whose own is not given

  const WireStock* find(const WireSize& size) const;
  const FuseFamily* find_family(std::string_view name) const;   // any case
  const InsulationKind* find_insulation(std::string_view name) const;  // any case
};

// What is wrong with a template: "FILE:LINE: ...", with what the file should say.
struct TemplateError {
  std::string file;
  int line = 0;                         // 0: the file as a whole
  std::string message;
};

template <class T>
struct Loaded {
  T value{};
  std::vector<TemplateError> errors;    // empty: good
};

// Folders to look in for templates, first match wins: the user's own beside the plan, then the installed one.
struct TemplateFolders {
  std::vector<std::filesystem::path> roots;   // each holds stock/, rulebooks/, labels/, sheets/, symbols/
  // The first root that has this file, its name in any case; empty where none has or the name leads out of the folder.
  std::filesystem::path find(std::string_view folder, std::string_view file) const;
  // The names (without ".xml", in small letters) in that folder over all roots, sorted, each once.
  std::vector<std::string> list(std::string_view folder) const;
};

// Reads stock/wires.xml, insulations.xml, fuses.xml, joints.xml, sleeves.xml and conduits.xml; each says in its head what it holds.
Loaded<Stock> load_stock(const TemplateFolders& folders);

}  // namespace loomleaf
