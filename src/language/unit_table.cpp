#include <algorithm>
#include <array>
#include <string_view>
#include <unordered_map>

#include "loomleaf/language/words.h"

namespace loomleaf {
namespace {

using D = Dimension;

constexpr auto units = std::to_array<UnitRow>({
    {"V volt volts vdc", D::voltage, 1, 1},
    {"mV millivolt millivolts", D::voltage, 1, 1000},
    {"kV kilovolt kilovolts", D::voltage, 1000, 1},
    {"A amp amps ampere amperes", D::current, 1, 1},
    {"mA milliamp milliamps milliampere milliamperes", D::current, 1, 1000},
    {"kA kiloamp kiloamps kiloampere kiloamperes", D::current, 1000, 1},
    {"ohm ohms \u03A9 \u2126", D::resistance, 1, 1},
    {"mohm mohms milliohm milliohms m\u03A9 m\u2126", D::resistance, 1, 1000},
    {"W watt watts", D::power, 1, 1},
    {"kW kilowatt kilowatts", D::power, 1000, 1},
    {"Ah amp-hour amp-hours ampere-hour ampere-hours amphour amphours", D::charge, 1, 1},
    {"mAh", D::charge, 1, 1000},
    {"Wh watt-hour watt-hours", D::energy, 1, 1},
    {"kWh kilowatt-hour kilowatt-hours", D::energy, 1000, 1},
    {"Wh/day Wh/d watt-hours/day", D::energy_a_day, 1, 1},
    {"kWh/day kWh/d kilowatt-hours/day", D::energy_a_day, 1000, 1},
    {"m metre metres meter meters", D::length, 1, 1},
    {"mm millimetre millimetres millimeter millimeters", D::length, 1, 1000},
    {"cm centimetre centimetres centimeter centimeters", D::length, 1, 100},
    {"ft foot feet '", D::length, 3048, 10000},
    {"in inch inches \" ''", D::length, 254, 10000},
    {"mm2 mm\u00B2 mm^2 sqmm", D::area, 1, 1},
    {"AWG", D::gauge, 1, 1},
    {"SAE", D::vehicle_gauge, 1, 1},
    {"C \u00B0C \u2103 celsius", D::degrees_c, 1, 1},
    {"F \u00B0F \u2109 fahrenheit", D::degrees_f, 1, 1},
    {"s sec secs second seconds", D::duration, 1, 1},
    {"ms millisecond milliseconds", D::duration, 1, 1000},
    {"h hr hrs hour hours", D::hour_count, 1, 1},
    {"h/day h/d hr/day hrs/day hour/day hours/day", D::hours_a_day, 1, 1},
    {"% percent", D::share, 1, 100},
    {"ways way", D::ways, 1, 1},
    {"poles pole", D::poles, 1, 1},
    {"x times", D::times, 1, 1},
});

struct DimensionRow {
  Dimension dimension;
  std::string_view symbol;
  std::string_view noun;
};

// In the order of the enum.
constexpr auto dimensions = std::to_array<DimensionRow>({
    {D::none, "", "a number"},
    {D::voltage, "V", "a voltage"},
    {D::current, "A", "a current"},
    {D::resistance, "ohm", "a resistance"},
    {D::power, "W", "a power"},
    {D::charge, "Ah", "a charge"},
    {D::energy, "Wh", "an energy"},
    {D::energy_a_day, "Wh/day", "an energy a day"},
    {D::length, "m", "a length"},
    {D::area, "mm2", "a size"},
    {D::gauge, "AWG", "a size"},
    {D::vehicle_gauge, "SAE", "a size"},
    {D::degrees_c, "C", "a temperature"},
    {D::degrees_f, "F", "a temperature"},
    {D::duration, "s", "a time"},
    {D::hour_count, "h", "a time"},
    {D::hours_a_day, "h/day", "hours a day"},
    {D::share, "%", "a share"},
    {D::ways, "ways", "a number of ways"},
    {D::poles, "poles", "a number of poles"},
    {D::times, "x", "a multiple"},
});

// One spelling after the other of a row's words.
template <class Take>
void for_each_spelling(const UnitRow& row, Take take) {
  for (std::string_view rest = row.words; !rest.empty();) {
    const std::size_t end = std::min(rest.find(' '), rest.size());
    take(rest.substr(0, end));
    rest.remove_prefix(std::min(end + 1, rest.size()));
  }
}

}  // namespace

const UnitRow* find_unit(std::string_view word) {
  static const auto by_spelling = [] {
    std::unordered_map<std::string, const UnitRow*> map;
    for (const UnitRow& row : units)
      for_each_spelling(row, [&](std::string_view spelling) { map.emplace(lower_case(spelling), &row); });
    return map;
  }();
  const auto found = by_spelling.find(lower_case(word));
  return found == by_spelling.end() ? nullptr : found->second;
}

const std::vector<std::string>& unit_names() {
  static const auto names = [] {
    std::vector<std::string> list;
    for (const UnitRow& row : units)
      for_each_spelling(row, [&](std::string_view spelling) { list.emplace_back(spelling); });
    return list;
  }();
  return names;
}

std::string_view symbol(Dimension dimension) { return dimensions[static_cast<std::size_t>(dimension)].symbol; }
std::string_view noun(Dimension dimension) { return dimensions[static_cast<std::size_t>(dimension)].noun; }

}  // namespace loomleaf
