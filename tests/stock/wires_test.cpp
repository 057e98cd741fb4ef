// Conductors against published tables.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <string>

#include "support/installed_templates.h"

namespace loomleaf {
namespace {

const WireStock& wire(const WireSize& size) {
  const WireStock* const found = installed_stock().find(size);
  if (!found) throw std::runtime_error(to_text(size) + " is not in the stock");
  return *found;
}
const WireStock& awg(int gauge) { return wire(WireSize::awg(gauge)); }
const WireStock& metric(double area) { return wire(WireSize::metric(square_millimetres(area))); }
double ohm_per_km(const WireStock& stock) { return stock.per_metre_20C.in(ohms)*1000; }

// What GNU units makes of an AWG number, in mm of diameter; nothing where it is not installed.
std::optional<double> diameter_by_gnu_units(int gauge) {
  // units counts 1/0 as 0, 2/0 as -1, as the stock does
  const std::string command = "units -t 'wiregauge(" + std::to_string(gauge) + ")' mm 2>/dev/null";
  double diameter = 0;
  FILE* const pipe = popen(command.c_str(), "r");
  if (!pipe) return std::nullopt;
  const int read = std::fscanf(pipe, "%lf", &diameter);
  pclose(pipe);
  return read == 1 ? std::optional<double>(diameter) : std::nullopt;
}

// ASTM B258: number 36 is 0.005 in, number 4/0 is 0.46 in, 39 equal steps of ratio between (from memory)
TEST(WireStock, AwgAreasFollowTheRuleOfAstmB258) {
  for (int gauge = -3; gauge <= 24; ++gauge) {
    const double steps = 36 - gauge;
    const double diameter = 0.127 * std::pow(0.46 / 0.005, steps / 39);
    EXPECT_NEAR(awg(gauge).area.in(square_millimetres), M_PI / 4 * diameter * diameter, 1e-4) << gauge;
  }
}

TEST(WireStock, AwgAreasAgreeWithGnuUnits) {
  if (!diameter_by_gnu_units(18)) GTEST_SKIP() << "GNU units is not installed";
  for (int gauge = -3; gauge <= 24; ++gauge) {
    const double diameter = diameter_by_gnu_units(gauge).value();
    const double area = M_PI / 4 * diameter * diameter;
    EXPECT_NEAR(awg(gauge).area.in(square_millimetres), area, area * 5e-4) << gauge;
  }
}

// Circular mils of boat cable by AWG number, a cable maker's catalogue (rounded there, hence 2 %)
TEST(WireStock, AwgAreasAreThoseOfBoatCable) {
  const std::pair<int, double> published[] = {{18, 1600},  {16, 2600},   {14, 4100},   {12, 6500},  {10, 10500},
                                              {8, 16800},  {6, 26600},   {4, 42000},   {2, 66500},  {1, 83690},
                                              {0, 105600}, {-1, 133100}, {-2, 167800}, {-3, 211600}};
  constexpr double mm2_per_circular_mil = 5.067075e-4;
  for (const auto& [gauge, circular_mils] : published) {
    const double area = circular_mils * mm2_per_circular_mil;
    EXPECT_NEAR(awg(gauge).area.in(square_millimetres), area, area * 0.02) << gauge;
  }
}

// NEC chapter 9 table 8, stranded uncoated copper at 75 C, ohm per km; 18 to 12 AWG seen, the rest from memory
TEST(WireStock, ResistancesAreThoseOfNecChapter9Table8) {
  const std::pair<int, double> published[] = {{18, 26.1}, {16, 16.4}, {14, 10.3},  {12, 6.5},    {10, 4.07},
                                              {8, 2.551}, {6, 1.608}, {4, 1.01},   {3, 0.802},   {2, 0.634},
                                              {1, 0.505}, {0, 0.399}, {-1, 0.317}, {-2, 0.2512}, {-3, 0.1996}};
  for (const auto& [gauge, at_75C] : published) {
    const double at_20C = at_75C / (1 + 0.00393 * 55);
    EXPECT_NEAR(ohm_per_km(awg(gauge)), at_20C, at_20C * 0.01) << gauge;
  }
}

// IEC 60228 table 3: greatest resistance at 20 C of class 5 plain conductors, ohm per km
TEST(WireStock, MetricResistancesAreTheMaximaOfIec60228) {
  const std::pair<double, double> published[] = {{0.5, 39.0}, {0.75, 26.0}, {1.0, 19.5}, {1.5, 13.3}, {2.5, 7.98},
                                                 {4, 4.95},   {6, 3.30},    {10, 1.91},  {16, 1.21},  {25, 0.780},
                                                 {35, 0.554}, {50, 0.386},  {70, 0.272}, {95, 0.206}, {120, 0.161}};
  EXPECT_DOUBLE_EQ(ohm_per_km(metric(150)), 0.129);  // from memory
  for (const auto& [area, maximum] : published) {
    EXPECT_DOUBLE_EQ(ohm_per_km(metric(area)), maximum) << area;
    EXPECT_EQ(metric(area).resistance_from.known, Known::seen);
  }
}

// ISO 6722-1 (from memory): the vehicle sizes that IEC 60228 lacks
TEST(WireStock, KnowsTheVehicleSizesOfIso6722) {
  EXPECT_DOUBLE_EQ(ohm_per_km(metric(0.35)), 54.4);
  EXPECT_DOUBLE_EQ(ohm_per_km(metric(2)), 9.42);
  EXPECT_EQ(to_text(metric(2).resistance_from), "ISO 6722-1 (from memory)");
}

// SAE J1127 and J1128 least areas, circular mils, a boat-cable maker's catalogue (seen); the resistance is worked out
TEST(WireStock, VehicleWireHasTheLeastAreaOfItsStandardAndTheResistanceOfThat) {
  constexpr double mm2_per_circular_mil = 5.067075e-4;
  const std::pair<int, double> published[] = {{18, 1537}, {16, 2336},   {14, 3702},   {12, 5833},  {10, 9343},
                                              {8, 14810}, {6, 24538},   {4, 37360},   {2, 62450},  {1, 77790},
                                              {0, 98980}, {-1, 125100}, {-2, 158600}, {-3, 205500}};
  std::size_t met = 0;
  for (const auto& [gauge, circular_mils] : published) {
    const WireStock& sae = wire(WireSize::sae(gauge));
    const double area = circular_mils * mm2_per_circular_mil;
    EXPECT_NEAR(sae.area.in(square_millimetres), area, 1e-4) << gauge;
    EXPECT_NEAR(nominal_area(sae.size).in(square_millimetres), area, 1e-4) << gauge;
    EXPECT_NEAR(ohm_per_km(sae), 17.241 * 1.02 / area, 1e-3) << gauge;
    EXPECT_EQ(sae.area_from.known, Known::seen);
    EXPECT_EQ(sae.resistance_from.known, Known::practice);
    ++met;
  }
  for (const WireStock& each : installed_stock().wires) met -= each.size.system == WireSize::System::sae;
  EXPECT_EQ(met, 0U);
}

TEST(WireStock, IsWiderOutsideThanItsCopper) {
  for (const WireStock& each : installed_stock().wires) {
    const double copper = std::sqrt(each.area.in(square_millimetres)*4 / M_PI);
    EXPECT_GT(each.single_od.in(millimetres), copper) << to_text(each.size);
    if (each.two_core_od > Length()) {
      EXPECT_GT(each.two_core_od, each.single_od * 1.5) << to_text(each.size);
    }
  }
}

TEST(WireStock, GoesFromThinToThickInEachSystem) {
  const std::vector<WireStock>& wires = installed_stock().wires;
  for (std::size_t i = 1; i < wires.size(); ++i) {
    if (wires[i].size.system != wires[i - 1].size.system) continue;
    EXPECT_GT(wires[i].area, wires[i - 1].area) << to_text(wires[i].size);
    EXPECT_LT(wires[i].per_metre_20C, wires[i - 1].per_metre_20C) << to_text(wires[i].size);
  }
}

TEST(WireStock, LacksWhatIsNotSold) {
  EXPECT_EQ(installed_stock().find(WireSize::awg(25)), nullptr);
  EXPECT_EQ(installed_stock().find(WireSize::metric(square_millimetres(4.5))), nullptr);
  EXPECT_EQ(installed_stock().find(WireSize::sae(15)), nullptr);
}

}  // namespace
}  // namespace loomleaf
