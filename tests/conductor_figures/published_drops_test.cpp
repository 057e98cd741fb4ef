// Voltage drops that others have published, worked out again from length, stock and temperature.
#include <gtest/gtest.h>

#include "conductor_figures/support/hand_made_plan.h"
#include "conductor_figures/support/other_wires.h"
#include "support/installed_templates.h"
#include "support/template_folder.h"

namespace loomleaf {
namespace {

WireSize awg(int gauge) { return WireSize::awg(gauge); }
WireSize mm2(double area) { return WireSize::metric(square_millimetres(area)); }

Voltage drop(const Stock& stock, const WireSize& size, Length length, Current current, Temperature conductor) {
  static const Rulebook rulebook = installed_rulebook("marine");
  HandMadePlan made;
  made.plan.system.conductor_temperature = conductor;
  const RunId run = made.wire(size, length);
  return made.figures(run, stock, rulebook).resistance * current;
}

// The AWG sizes that wire tables list, from thin to thick.
constexpr int kListed[] = {18, 16, 14, 12, 10, 8, 6, 4, 2, 1, 0, -1, -2, -3};

std::optional<WireSize> thinnest_within(const Stock& stock, Voltage limit, Length length, Current current,
                                        Temperature conductor) {
  for (const int gauge : kListed) {
    if (!stock.find(awg(gauge))) continue;
    if (drop(stock, awg(gauge), length, current, conductor) <= limit) return awg(gauge);
  }
  return std::nullopt;
}

Stock stock_of(std::initializer_list<OtherWire> wires) {
  const TemplateFolder own;
  own.write("stock", "wires.xml", wires_template(wires));
  Loaded<Stock> loaded = load_stock({{own.path(), LOOMLEAF_ROOT "/templates"}});
  EXPECT_TRUE(loaded.errors.empty()) << loaded.errors.front().message;
  return std::move(loaded.value);
}

struct Choice {
  const char* row;
  double volts, amperes, out_and_back_m, percent;
  int gauge;
};

void expect_choices(const Stock& stock, const std::vector<Choice>& choices) {
  for (const Choice& choice : choices) {
    const Voltage limit = volts(choice.volts * choice.percent / 100);
    const auto chosen =
        thinnest_within(stock, limit, metres(choice.out_and_back_m), amperes(choice.amperes), celsius(30));
    ASSERT_TRUE(chosen) << choice.row;
    EXPECT_EQ(to_text(*chosen), to_text(awg(choice.gauge))) << choice.row;
  }
}

// ABYC E-11 3 % and 10 % tables in reprints, a boat-cable maker's tables C and D, a chandler's catalogue: K = 10.75
// with AWG areas, lengths out and back
TEST(PublishedDrops, TablesMadeWithAwgAreasChooseTheSameSize) {
  expect_choices(installed_stock(), {{"boat-cable maker's table C, 5 A 10 ft", 12, 5, 3.048, 3, 18},
                                     {"boat-cable maker's table C, 40 A 10 ft", 12, 40, 3.048, 3, 8},
                                     {"boat-cable maker's table C, 60 A 15 ft", 12, 60, 4.572, 3, 4},
                                     {"boat-cable maker's table C, 25 A 20 ft", 12, 25, 6.096, 3, 8},
                                     {"boat-cable maker's table C, 15 A 30 ft", 12, 15, 9.144, 3, 8},
                                     {"boat-cable maker's table C, 5 A 50 ft", 12, 5, 15.24, 3, 10},
                                     {"boat-cable maker's table C, 60 A 50 ft", 12, 60, 15.24, 3, 0},
                                     {"boat-cable maker's table C, 30 A 80 ft", 12, 30, 24.384, 3, 1},
                                     {"boat-cable maker's table D, 25 A 10 ft", 12, 25, 3.048, 10, 16},
                                     {"ABYC E-11 3 % table, 10 A 40 ft", 12, 10, 12.192, 3, 8},
                                     {"ABYC E-11 3 % table, 50 A 40 ft", 12, 50, 12.192, 3, 2},
                                     {"ABYC E-11 10 % table, 100 A 60 ft", 12, 100, 18.288, 10, 2},
                                     {"chandler's catalogue, 10 A pump at 10 %", 12, 10, 6.401, 10, 16}});
}

const std::vector<Choice>& abyc_table_ix() {
  static const std::vector<Choice> rows = {{"5 A 15 ft", 12, 5, 4.572, 3, 16},  {"5 A 40 ft", 12, 5, 12.192, 3, 10},
                                           {"5 A 100 ft", 12, 5, 30.48, 3, 6},  {"10 A 20 ft", 12, 10, 6.096, 3, 10},
                                           {"10 A 50 ft", 12, 10, 15.24, 3, 6}, {"10 A 130 ft", 12, 10, 39.624, 3, 2},
                                           {"15 A 30 ft", 12, 15, 9.144, 3, 8}, {"15 A 120 ft", 12, 15, 36.576, 3, 2},
                                           {"20 A 50 ft", 12, 20, 15.24, 3, 4}, {"20 A 150 ft", 12, 20, 45.72, 3, 0},
                                           {"25 A 30 ft", 12, 25, 9.144, 3, 6}, {"25 A 90 ft", 12, 25, 27.432, 3, 1}};
  return rows;
}

// ABYC E-11 table IX in a reprint: K = 10.75 circular mil ohm per ft (copper near 31 C) with SAE minimum areas
TEST(PublishedDrops, AbycTableIxFollowsFromSaeAreas) {
  constexpr double mm2_per_circular_mil = 5.067075e-4;
  const auto sae = [](const char* size, double circular_mils) {
    const double at_31C = 10.75 / circular_mils / 0.0003048;
    return OtherWire{size, circular_mils * mm2_per_circular_mil, at_31C / (1 + 0.00393 * 11)};
  };
  expect_choices(
      stock_of({sae("18 AWG", 1537), sae("16 AWG", 2336), sae("14 AWG", 3702), sae("12 AWG", 5833), sae("10 AWG", 9343),
                sae("8 AWG", 14810), sae("6 AWG", 24538), sae("4 AWG", 37360), sae("2 AWG", 62450), sae("1 AWG", 77790),
                sae("1/0 AWG", 98980), sae("2/0 AWG", 125100), sae("3/0 AWG", 158600), sae("4/0 AWG", 205500)}),
      abyc_table_ix());
}

// The same with AWG copper, which is 6 to 12 % thicker than the SAE minimum: never thicker than ABYC's own choice, and
// one size thinner in five of the twelve cells
TEST(PublishedDrops, AwgCopperNeedsNoMoreThanAbycTableIx) {
  int thinner = 0;
  for (const Choice& choice : abyc_table_ix()) {
    const auto chosen = thinnest_within(installed_stock(), volts(0.36), metres(choice.out_and_back_m),
                                        amperes(choice.amperes), celsius(30));
    ASSERT_TRUE(chosen);
    EXPECT_GE(chosen->gauge, choice.gauge) << choice.row;
    EXPECT_LE(chosen->gauge, choice.gauge + 2) << choice.row;
    thinner += chosen->gauge != choice.gauge;
  }
  EXPECT_EQ(thinner, 5);
}

// An engineering firm's worked example, 24 V 100 A 10 ft: the drop allows 8 AWG, its 80 A do not, so 6 AWG
TEST(PublishedDrops, AmpacityHasTheLastWordOverDrop) {
  const auto by_drop = thinnest_within(installed_stock(), volts(0.72), metres(3.048), amperes(100), celsius(30));
  EXPECT_EQ(by_drop, awg(8));
  const Rulebook marine = installed_rulebook("marine");
  EXPECT_LT(marine.ampacity_of(awg(8), celsius(105))->value, amperes(100));
  EXPECT_GE(marine.ampacity_of(awg(6), celsius(105))->value, amperes(100));
}

// A solar builder's 2 % chart for 12 V: two-conductor copper, longest run in ft one way, within 10 %
TEST(PublishedDrops, TheLongestRunsOfATwoPercentChartDropTwoPercent) {
  struct Run {
    double amperes, one_way_ft;
    int gauge;
  };
  const Run runs[] = {{1, 45, 14},   {1, 115, 10},  {2, 22.5, 14}, {2, 145, 6},    {4, 17.5, 12},
                      {4, 180, 2},   {6, 17.5, 10}, {6, 193, 0},   {10, 7, 12},    {10, 18, 8},
                      {10, 45.5, 4}, {10, 230, -3}, {20, 9, 8},    {20, 22.5, 4},  {30, 6, 8},
                      {30, 24, 2},   {50, 9, 4},    {100, 4.6, 4}, {100, 14.5, -1}};
  for (const Run& run : runs) {
    const Voltage lost =
        drop(installed_stock(), awg(run.gauge), feet(2 * run.one_way_ft), amperes(run.amperes), celsius(30));
    EXPECT_NEAR(lost.in(volts), 0.24, 0.024) << run.amperes << " A over " << run.one_way_ft << " ft";
  }
}

// FAA AC 43.13-1B tables 11-7 to 11-9: tinned aircraft wire at 20 C
TEST(PublishedDrops, AircraftExamplesFollowFromAircraftWire) {
  const Stock aircraft =
      stock_of({{"12 AWG", 2.976, 6.627}, {"10 AWG", 4.740, 4.134}, {"8 AWG", 8.605, 2.297}, {"6 AWG", 13.59, 1.444}});
  const auto lost = [&](int gauge, double feet_of_wire) {
    return drop(aircraft, awg(gauge), feet(feet_of_wire), amperes(20), celsius(20)).in(volts);
  };
  EXPECT_NEAR(lost(6, 107), 0.942, 0.942 * 0.02);
  EXPECT_NEAR(lost(12, 88), 3.6, 3.6 * 0.03);
  EXPECT_NEAR(lost(10, 39), 0.98, 0.98 * 0.02);
  EXPECT_NEAR(lost(10, 156), 3.93, 3.93 * 0.02);
  EXPECT_EQ(thinnest_within(aircraft, volts(1), feet(50), amperes(20), celsius(20)), awg(8));
  EXPECT_EQ(thinnest_within(installed_stock(), volts(1), feet(50), amperes(20), celsius(20)), awg(8));
}

// A British vehicle-cable table: 5 m of one conductor at 20 C, nominal resistances
TEST(PublishedDrops, VehicleCableExamplesFollowFromVehicleCable) {
  const Stock vehicle = stock_of({{"0.65 mm2", 0.65, 29.4}, {"1.5 mm2", 1.5, 12.5}, {"2.5 mm2", 2.5, 7.5}});
  const auto lost = [&](double area, double amps) {
    return drop(vehicle, mm2(area), metres(5), amperes(amps), celsius(20)).in(volts);
  };
  EXPECT_NEAR(lost(0.65, 5.75), 0.845, 0.845 * 0.01);
  EXPECT_NEAR(lost(1.5, 12.75), 0.797, 0.797 * 0.01);
  EXPECT_NEAR(lost(2.5, 21.75), 0.816, 0.816 * 0.01);
}

// A formula that takes 0.0164 ohm mm2 per m flatters copper: the stock's wire loses a good fifth more (masthead light,
// 1.6 A over 22 m of 1.5 mm2, published as 0.38 V)
TEST(PublishedDrops, AreNeverBelowAFormulaThatFlattersCopper) {
  const double lost = drop(installed_stock(), mm2(1.5), metres(22), amperes(1.6), celsius(20)).in(volts);
  EXPECT_GT(lost, 0.38 * 1.2);
  EXPECT_LT(lost, 0.38 * 1.3);
}

}  // namespace
}  // namespace loomleaf
