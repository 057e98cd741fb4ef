// Reads the tables of what can be bought.
#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "load_insulations.h"
#include "loomleaf/stock/stock.h"
#include "template_file.h"

namespace loomleaf {

namespace {

constexpr Bounds kMillimetres{0.1, 1000}, kSquareMillimetres{0.01, 1000}, kOhmPerKilometre{0.01, 2000};
constexpr Bounds kAmperes{0.001, 10000}, kFaultAmperes{1, 1e6}, kVolts{1, 1500}, kMilliohms{0.0001, 1e6};
constexpr Bounds kSeconds{1e-6, 1e9}, kTimes{1, 100}, kWays{1, 100}, kRatio{1.1, 10};

// Ohm x mm2 / m of a stranded conductor: copper is 0.0172, tinned and fine-stranded copper up to a sixth more,
// copper-clad aluminium about 0.027. Anything else is a slip of the pen.
constexpr Bounds kResistivity{0.0150, 0.0300};

WireStock read_wire(TemplateFile& file, pugi::xml_node row) {
  WireStock wire;
  wire.size = file.size(row, "size").value_or(WireSize());
  const double area = file.number(row, "area_mm2", kSquareMillimetres).value_or(0);
  const double ohm_per_km = file.number(row, "ohm_per_km", kOhmPerKilometre).value_or(0);
  wire.area = square_millimetres(area);
  wire.per_metre_20C = ohms(ohm_per_km / 1000);
  wire.single_od = millimetres(file.number(row, "single_mm", kMillimetres).value_or(0));
  wire.area_from = file.provenance(row, "area_");
  wire.resistance_from = file.provenance(row, "resistance_");
  wire.od_from = file.provenance(row, "single_");
  if (file.has(row, "two_core_mm")) {
    wire.two_core_od = millimetres(file.number(row, "two_core_mm", kMillimetres).value_or(0));
    wire.two_core_od_from = file.provenance(row, "two_core_");
  }
  const double resistivity = area * ohm_per_km / 1000;
  if (resistivity > 0 && (resistivity < kResistivity.least || resistivity > kResistivity.most)) {
    file.complain(row,
                  fmt::format("area_mm2=\"{}\" and ohm_per_km=\"{}\" do not belong together: copper of that area has "
                              "about {:.3g} ohm per km",
                              area, ohm_per_km, 17.5 / area));
  }
  return wire;
}

void read_wires(TemplateFile& file, Stock& stock) {
  const auto order = [](const WireStock& a, const WireStock& b) {
    if (a.size.system != b.size.system) return a.size.system < b.size.system;
    return nominal_area(a.size) < nominal_area(b.size);
  };
  const auto same_place = [&](const WireStock& a, const WireStock& b) { return !order(a, b) && !order(b, a); };
  for (const pugi::xml_node group : file.children(file.root(), {"conductors"})) {
    file.only_attributes(group, {"area_source", "area_known", "resistance_source", "resistance_known", "single_source",
                                 "single_known", "two_core_source", "two_core_known"});
    const WireStock* last = nullptr;
    std::vector<WireStock> rows;
    for (const pugi::xml_node row : file.children(group, {"conductor"})) {
      file.only_attributes(row, {"size", "area_mm2", "ohm_per_km", "single_mm", "two_core_mm", "area_source",
                                 "area_known", "resistance_source", "resistance_known", "single_source", "single_known",
                                 "two_core_source", "two_core_known"});
      rows.push_back(read_wire(file, row));
      last = rows.size() > 1 ? &rows[rows.size() - 2] : nullptr;
      if (last && !order(*last, rows.back())) {
        file.complain(row, fmt::format("the sizes should go from thin to thick: {} stands behind {}",
                                       to_text(rows.back().size), to_text(last->size)));
      }
    }
    stock.wires.insert(stock.wires.end(), rows.begin(), rows.end());
  }
  std::stable_sort(stock.wires.begin(), stock.wires.end(), order);
  const auto twice = std::adjacent_find(stock.wires.begin(), stock.wires.end(), same_place);
  if (twice != stock.wires.end()) {
    file.complain(file.root(), fmt::format("{} stands twice in this file", to_text(twice->size)));
  }
  if (stock.wires.empty()) file.complain(file.root(), "there is no <conductor> in this file");
}

std::vector<TimeGate> read_gates(TemplateFile& file, pugi::xml_node group) {
  file.only_attributes(group, {"source", "known"});
  std::vector<TimeGate> gates;
  for (const pugi::xml_node row : file.children(group, {"gate"})) {
    file.only_attributes(row, {"times", "no_sooner_s", "no_later_s"});
    TimeGate gate;
    gate.times = file.number(row, "times", kTimes).value_or(0);
    const auto limit = [&](const char* name) -> std::optional<Duration> {
      if (!file.has(row, name)) return std::nullopt;
      const std::optional<double> value = file.number(row, name, kSeconds);
      return value ? std::optional<Duration>(seconds(*value)) : std::nullopt;
    };
    gate.no_sooner = limit("no_sooner_s");
    gate.no_later = limit("no_later_s");
    if (!gate.no_sooner && !gate.no_later)
      file.complain(row, "this gate limits nothing: give no_sooner_s, no_later_s or both");
    if (gate.no_sooner && gate.no_later && *gate.no_sooner > *gate.no_later) {
      file.complain(row, "no_sooner_s is above no_later_s");
    }
    if (!gates.empty() && gate.times <= gates.back().times) file.complain(row, "the gates should rise in times");
    gates.push_back(gate);
  }
  // A greater current never opens it later.
  std::optional<Duration> sooner, later;
  for (const TimeGate& gate : gates) {
    if ((gate.no_sooner && sooner && *gate.no_sooner > *sooner) ||
        (gate.no_later && later && *gate.no_later > *later)) {
      file.complain(group, fmt::format("at {} times its rating it opens later than at a smaller current", gate.times));
    }
    if (gate.no_sooner) sooner = gate.no_sooner;
    if (gate.no_later) later = gate.no_later;
  }
  return gates;
}

FuseFamily read_family(TemplateFile& file, pugi::xml_node node) {
  file.only_attributes(node, {"name", "what", "kind", "current_limiting", "rated_V", "ratings_A", "source", "known"});
  FuseFamily family;
  family.name = file.text(node, "name").value_or("");
  if (family.name.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-") != std::string::npos) {
    file.complain(node, "the name of a family is made of small letters, digits and hyphens");
  }
  family.what = file.text(node, "what").value_or("");
  const std::string_view kind = node.attribute("kind").value();
  if (kind != "fuse" && kind != "breaker") file.complain(node, "kind should be \"fuse\" or \"breaker\"");
  family.breaker = kind == "breaker";
  family.current_limiting = file.yes(node, "current_limiting");
  family.rated_voltage = volts(file.number(node, "rated_V", kVolts).value_or(0));
  for (const double rating : file.numbers(node, "ratings_A", kAmperes)) family.ratings.push_back(amperes(rating));
  family.from = file.provenance(node);

  file.children(node, {"breaks", "gates", "cold_resistance"});
  for (const pugi::xml_node row : file.named(node, "breaks")) {
    file.only_attributes(row, {"amperes", "at_V", "source", "known"});
    const Current most = amperes(file.number(row, "amperes", kFaultAmperes).value_or(0));
    const Voltage at = volts(file.number(row, "at_V", kVolts).value_or(0));
    if (!family.breaks_up_to.empty() &&
        (at <= family.breaks_up_to.back().first || most > family.breaks_up_to.back().second)) {
      file.complain(row, "several <breaks> go from low voltage to high, and break no more at the higher one");
    }
    family.breaks_up_to.emplace_back(at, most);
    family.breaks = most;
    family.breaks_from = file.provenance(row);
  }
  if (const pugi::xml_node gates = node.child("gates")) {
    file.single(node, "gates");
    family.gates_from = file.provenance(gates);
    family.gates = read_gates(file, gates);
  }
  if (const pugi::xml_node group = node.child("cold_resistance")) {
    file.single(node, "cold_resistance");
    file.only_attributes(group, {"source", "known"});
    family.resistance_from = file.provenance(group);
    for (const pugi::xml_node row : file.children(group, {"at"})) {
      file.only_attributes(row, {"amperes", "milliohms"});
      const Current rating = amperes(file.number(row, "amperes", kAmperes).value_or(1));
      const Resistance cold = milliohms(file.number(row, "milliohms", kMilliohms).value_or(1));
      if (!family.cold_resistance.empty() && rating <= family.cold_resistance.back().first) {
        file.complain(row, "the ratings should rise");
      }
      family.cold_resistance.emplace_back(rating, cold);
    }
  }
  return family;
}

void read_fuses(TemplateFile& file, Stock& stock) {
  std::set<std::string> names;
  for (const pugi::xml_node node : file.children(file.root(), {"family"})) {
    FuseFamily family = read_family(file, node);
    if (!names.insert(family.name).second) {
      file.complain(node, fmt::format("a second family called \"{}\"", family.name));
    }
    stock.families.push_back(std::move(family));
  }
  if (stock.families.empty()) file.complain(file.root(), "there is no <family> in this file");
}

void read_splice(TemplateFile& file, pugi::xml_node row, Stock& stock) {
  file.only_attributes(row, {"what", "ways", "least", "most", "amperes", "solid_only", "source", "known"});
  SpliceKind kind;
  kind.what = file.text(row, "what").value_or("");
  kind.least = file.size(row, "least").value_or(WireSize());
  kind.most = file.size(row, "most").value_or(kind.least);
  if (nominal_area(kind.least) > nominal_area(kind.most)) file.complain(row, "least is thicker than most");
  if (file.has(row, "amperes")) kind.rating = amperes(file.number(row, "amperes", kAmperes).value_or(0));
  kind.solid_only = file.yes(row, "solid_only");
  kind.from = file.provenance(row);
  for (const double ways : file.numbers(row, "ways", kWays)) {
    kind.ways = static_cast<int>(ways);
    if (ways != kind.ways) file.complain(row, "ways should be whole numbers");
    stock.splices.push_back(kind);
  }
}

void read_joints(TemplateFile& file, Stock& stock) {
  file.children(file.root(), {"contact", "splices"});
  if (const std::optional<pugi::xml_node> contact = file.single(file.root(), "contact")) {
    file.only_attributes(*contact, {"milliohms", "source", "known"});
    stock.contact_resistance = {milliohms(file.number(*contact, "milliohms", kMilliohms).value_or(0)),
                                file.provenance(*contact)};
  }
  for (const pugi::xml_node group : file.named(file.root(), "splices")) {
    file.only_attributes(group, {"source", "known"});
    for (const pugi::xml_node row : file.children(group, {"splice"})) read_splice(file, row, stock);
  }
}

void read_sleeves(TemplateFile& file, Stock& stock) {
  for (const pugi::xml_node series : file.children(file.root(), {"series"})) {
    file.only_attributes(series, {"what", "ratio", "source", "known"});
    const std::string kind = file.text(series, "what").value_or("");
    const double ratio = file.number(series, "ratio", kRatio).value_or(2);
    Length last{};
    for (const pugi::xml_node row : file.children(series, {"sleeve"})) {
      file.only_attributes(row, {"name", "supplied_mm", "recovered_mm", "source", "known"});
      Sleeve sleeve;
      sleeve.name = file.text(row, "name").value_or("");
      sleeve.kind = kind;
      sleeve.ratio = ratio;
      sleeve.supplied_bore = millimetres(file.number(row, "supplied_mm", kMillimetres).value_or(0));
      sleeve.recovered_bore = millimetres(file.number(row, "recovered_mm", kMillimetres).value_or(0));
      sleeve.from = file.provenance(row);
      if (sleeve.supplied_bore <= last) file.complain(row, "the sleeves of a series should rise in supplied_mm");
      if (sleeve.recovered_bore >= sleeve.supplied_bore) file.complain(row, "recovered_mm should be below supplied_mm");
      last = sleeve.supplied_bore;
      stock.sleeves.push_back(std::move(sleeve));
    }
  }
  std::stable_sort(stock.sleeves.begin(), stock.sleeves.end(),
                   [](const Sleeve& a, const Sleeve& b) { return a.supplied_bore < b.supplied_bore; });
}

void read_conduits(TemplateFile& file, Stock& stock) {
  for (const pugi::xml_node series : file.children(file.root(), {"series"})) {
    file.only_attributes(series, {"what", "source", "known"});
    const std::string what = file.text(series, "what").value_or("");
    Length last{};
    for (const pugi::xml_node row : file.children(series, {"conduit"})) {
      file.only_attributes(row, {"name", "bore_mm", "source", "known"});
      Conduit conduit;
      conduit.name = what + " " + file.text(row, "name").value_or("");
      conduit.bore = millimetres(file.number(row, "bore_mm", kMillimetres).value_or(0));
      conduit.from = file.provenance(row);
      if (conduit.bore <= last) file.complain(row, "the conduits of a series should rise in bore_mm");
      last = conduit.bore;
      stock.conduits.push_back(std::move(conduit));
    }
  }
}

struct StockFile {
  const char* name;
  const char* root;
  void (*read)(TemplateFile&, Stock&);
};

constexpr StockFile kFiles[] = {
    {"wires.xml", "wires", read_wires},          {"fuses.xml", "fuses", read_fuses},
    {"joints.xml", "joints", read_joints},       {"sleeves.xml", "sleeves", read_sleeves},
    {"conduits.xml", "conduits", read_conduits}, {"insulations.xml", "insulations", read_insulations},
};

}  // namespace

Loaded<Stock> load_stock(const TemplateFolders& folders) {
  Loaded<Stock> loaded;
  for (const StockFile& wanted : kFiles) {
    const std::filesystem::path path = folders.find("stock", wanted.name);
    if (path.empty()) {
      loaded.errors.push_back(
          {fmt::format("stock/{}", wanted.name), 0, "this file is in none of the template folders"});
      continue;
    }
    TemplateFile file(path, wanted.root);
    if (file.root()) {
      file.only_attributes(file.root(), {"format"});
      wanted.read(file, loaded.value);
    }
    for (TemplateError& error : file.take_errors()) loaded.errors.push_back(std::move(error));
  }
  return loaded;
}

}  // namespace loomleaf
