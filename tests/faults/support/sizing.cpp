#include "faults/support/sizing.h"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

namespace loomleaf::test {

namespace {

struct Wire {
  std::string size;
  double mm2;
  double table;    // A: by the rulebook's table, insulated for 105 C
  double common;   // A: the same for 60 C
  double grouped;  // A: the largest device on it among five others, insulated for 105 C
};

// NEC 552.10(E)(1) to 10 AWG and 310.16 at 90 C beyond, x 0.8 for four to six conductors where that is less.
const std::vector<Wire> rv_wires = {
    {"18 AWG", 0.823, 6, 6, 6},       {"16 AWG", 1.31, 8, 8, 8},        {"14 AWG", 2.08, 15, 15, 15},
    {"12 AWG", 3.31, 20, 20, 20},     {"10 AWG", 5.26, 30, 30, 30},     {"8 AWG", 8.37, 55, 40, 44},
    {"6 AWG", 13.3, 75, 55, 60},      {"4 AWG", 21.2, 95, 70, 76},      {"2 AWG", 33.6, 130, 95, 104},
    {"1 AWG", 42.4, 145, 110, 116},   {"1/0 AWG", 53.5, 170, 125, 136}, {"2/0 AWG", 67.4, 195, 145, 156},
    {"3/0 AWG", 85.0, 225, 165, 180}, {"4/0 AWG", 107.2, 260, 195, 208}};
// 33 CFR 183.425 Table 5 at 105 C, x 0.6 for four to six conductors (ABYC E-11).
const std::vector<Wire> marine_wires = {
    {"18 AWG", 0.823, 20, 10, 12},    {"16 AWG", 1.31, 25, 15, 15},     {"14 AWG", 2.08, 35, 20, 21},
    {"12 AWG", 3.31, 45, 25, 27},     {"10 AWG", 5.26, 60, 40, 36},     {"8 AWG", 8.37, 80, 55, 48},
    {"6 AWG", 13.3, 120, 80, 72},     {"4 AWG", 21.2, 160, 105, 96},    {"2 AWG", 33.6, 210, 140, 126},
    {"1 AWG", 42.4, 245, 165, 147},   {"1/0 AWG", 53.5, 285, 195, 171}, {"2/0 AWG", 67.4, 330, 225, 198},
    {"3/0 AWG", 85.0, 385, 260, 231}, {"4/0 AWG", 107.2, 445, 300, 267}};
// ISO 10133 Table A.1 at 105 C, x 0.7 for four to six conductors.
const std::vector<Wire> metric_wires = {
    {"1 mm2", 1, 20, 8, 14},        {"1.5 mm2", 1.5, 25, 12, 17},  {"2.5 mm2", 2.5, 35, 17, 24},
    {"4 mm2", 4, 45, 22, 31},       {"6 mm2", 6, 60, 29, 42},      {"10 mm2", 10, 90, 40, 63},
    {"16 mm2", 16, 130, 54, 91},    {"25 mm2", 25, 170, 71, 119},  {"35 mm2", 35, 210, 87, 147},
    {"50 mm2", 50, 270, 105, 189},  {"70 mm2", 70, 330, 135, 231}, {"95 mm2", 95, 390, 165, 273},
    {"120 mm2", 120, 450, 190, 315}};

const std::vector<Wire>& wires_of(const std::string& rulebook) {
  if (rulebook == "rv") return rv_wires;
  if (rulebook == "marine") return marine_wires;
  return metric_wires;
}

const Wire& wire_of(const std::string& rulebook, const std::string& size) {
  const auto& wires = wires_of(rulebook);
  const auto found = std::ranges::find(wires, size, &Wire::size);
  if (found == wires.end()) throw std::out_of_range("no wire of " + size);
  return *found;
}

// 33 CFR 183.455(c)(1) lets a device be 150 % of the table.
double allowance(const std::string& rulebook) { return rulebook == "marine" ? 1.5 : 1.0; }

// 0.0205 ohm mm2/m: class 5 copper at 30 C and a little above.
double ohm_per_metre(const Wire& wire) { return 0.0205 / wire.mm2; }

}  // namespace

double device_rating(const std::string& family, double ampere) {
  static const std::vector<double> small = {1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30},
                                   panel = {2.5, 5, 7.5, 10, 15, 20, 25, 30, 40, 50},
                                   large = {30, 40, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300};
  const auto& ratings = family == "blade" || family == "low-profile-mini" ? small
                        : family == "breaker-panel"                       ? panel
                                                                          : large;
  const auto found = std::ranges::lower_bound(ratings, family == "low-profile-mini" ? std::max(ampere, 2.0) : ampere);
  if (found == ratings.end()) throw std::out_of_range(fmt::format("no {} of {} A", family, ampere));
  return *found;
}

std::string small_family(int system_volt) { return system_volt > 30 ? "low-profile-mini" : "blade"; }
std::string large_family() { return "class-t"; }

std::string wire_size(const std::string& rulebook, double device, double ampere, double metre, double volt) {
  for (const Wire& wire : wires_of(rulebook)) {
    if (rulebook == "marine" && wire.size == "18 AWG") continue;  // for cores of a cable alone
    if (wire.grouped >= device && ohm_per_metre(wire) * metre * ampere <= volt) return wire.size;
  }
  throw std::out_of_range(fmt::format("no {} wire for {} A over {} m", rulebook, device, metre));
}

std::string thinnest_wire(const std::string& rulebook) {
  return rulebook == "rv" ? "18 AWG" : rulebook == "marine" ? "16 AWG" : "1 mm2";
}

std::string other_size(const std::string& rulebook, const std::string& size, int steps) {
  const auto& wires = wires_of(rulebook);
  const std::ptrdiff_t at = &wire_of(rulebook, size) - wires.data() + steps;
  if (at < 0 || at >= std::ssize(wires)) return {};
  return wires[static_cast<std::size_t>(at)].size;
}

double best_ampere(const std::string& rulebook, const std::string& size) {
  return wire_of(rulebook, size).table * allowance(rulebook);
}
double common_ampere(const std::string& rulebook, const std::string& size) {
  return wire_of(rulebook, size).common * allowance(rulebook);
}
double table_ampere(const std::string& rulebook, const std::string& size) { return wire_of(rulebook, size).table; }
double ohm_per_metre(const std::string& rulebook, const std::string& size) {
  return ohm_per_metre(wire_of(rulebook, size));
}

int contact_rating(double ampere) {
  for (const int rating : {6, 10, 16, 20, 30, 50, 80, 120, 200, 300, 500}) {
    if (rating >= ampere) return rating;
  }
  throw std::out_of_range(fmt::format("no contact of {} A", ampere));
}

std::string ampere_text(double ampere) { return fmt::format("{:g} A", ampere); }
std::string metre_text(double metre) { return fmt::format("{:.2f} m", metre); }

}  // namespace loomleaf::test
