// The installed rulebooks against the tables they are named after, and both sides of every boundary.
#include <gtest/gtest.h>

#include "support/installed_templates.h"

namespace loomleaf {
namespace {

struct Cell {
  WireSize size;
  std::optional<double> insulation;
  double amperes;
};

WireSize awg(int gauge) { return WireSize::awg(gauge); }
WireSize mm2(double area) { return WireSize::metric(square_millimetres(area)); }
std::optional<Temperature> rated(std::optional<double> insulation) {
  return insulation ? std::optional<Temperature>(celsius(*insulation)) : std::nullopt;
}

void expect_cells(const Rulebook& book, const std::vector<Cell>& cells) {
  for (const Cell& cell : cells) {
    const auto found = book.ampacity_of(cell.size, rated(cell.insulation));
    ASSERT_TRUE(found) << to_text(cell.size);
    EXPECT_DOUBLE_EQ(found->value.in(amperes), cell.amperes)
        << to_text(cell.size) << " at " << cell.insulation.value_or(0) << " C";
  }
}

// NEC 552.10(E)(1) (from memory; that a device may not exceed it was seen)
TEST(RvRulebook, ThinConductorsHaveTheLimitsOfNec552WhateverTheirInsulation) {
  const Rulebook rv = installed_rulebook("rv");
  const std::pair<int, double> limits[] = {{18, 6}, {16, 8}, {14, 15}, {12, 20}, {10, 30}};
  for (const auto& [gauge, limit] : limits) {
    expect_cells(rv,
                 {{awg(gauge), {}, limit}, {awg(gauge), 60, limit}, {awg(gauge), 75, limit}, {awg(gauge), 105, limit}});
  }
  EXPECT_EQ(to_text(rv.ampacity_of(awg(18), {})->from), "NEC 552.10(E)(1), 2008 (from memory)");
}

// NEC 310.16, copper, seen in makers' reprints
TEST(RvRulebook, ThickConductorsCarryWhatNec310Says) {
  const Rulebook rv = installed_rulebook("rv");
  expect_cells(rv, {{awg(8), 60, 40},
                    {awg(8), 75, 50},
                    {awg(8), 90, 55},
                    {awg(6), 60, 55},
                    {awg(6), 75, 65},
                    {awg(6), 90, 75},
                    {awg(3), 90, 115},
                    {awg(1), 90, 145},
                    {awg(0), 75, 150},
                    {awg(-3), 60, 195},
                    {awg(-3), 75, 230},
                    {awg(-3), 90, 260},
                    {awg(-1), 75, 175}});
  EXPECT_EQ(rv.ampacity_of(awg(6), celsius(75))->from.known, Known::seen);
}

TEST(RvRulebook, ARatingBetweenTwoTablesTakesTheLower) {
  const Rulebook rv = installed_rulebook("rv");
  expect_cells(rv, {{awg(6), 74, 55}, {awg(6), 89, 65}, {awg(6), 105, 75}, {awg(6), 200, 75}});
}

TEST(RvRulebook, WithoutInsulationTheLowestTableHolds) {
  expect_cells(installed_rulebook("rv"), {{awg(8), {}, 40}, {awg(-3), {}, 195}});
}

TEST(RvRulebook, InsulationBelowEveryTableHasNoAmpacity) {
  EXPECT_FALSE(installed_rulebook("rv").ampacity_of(awg(8), celsius(55)));
}

TEST(RvRulebook, ASizeItLacksTakesTheNextThinner) {
  const Rulebook rv = installed_rulebook("rv");
  expect_cells(rv, {{mm2(1), {}, 6},
                    {mm2(1.5), {}, 8},
                    {mm2(2.5), {}, 15},
                    {mm2(4), {}, 20},
                    {mm2(6), {}, 30},
                    {mm2(10), 75, 50},
                    {mm2(16), 90, 75},
                    {mm2(120), 90, 260},
                    {awg(15), {}, 8},
                    {awg(5), 75, 65}});
  EXPECT_FALSE(rv.ampacity_of(mm2(0.75), {}));
  EXPECT_FALSE(rv.ampacity_of(awg(20), celsius(105)));
}

// NEC 310.15(B)(1), seen
TEST(RvRulebook, WarmPlacesTakeTheirFactorFromTheReferenceOn) {
  const Rulebook rv = installed_rulebook("rv");
  const auto factor = [&](double insulation, double ambient) {
    return rv.ambient_factor(awg(8), celsius(insulation), celsius(ambient)).value;
  };
  EXPECT_DOUBLE_EQ(factor(75, 30), 1.0);
  EXPECT_DOUBLE_EQ(factor(75, 31), 0.94);
  EXPECT_DOUBLE_EQ(factor(75, 35), 0.94);
  EXPECT_DOUBLE_EQ(factor(75, 36), 0.88);
  EXPECT_DOUBLE_EQ(factor(60, 40), 0.82);
  EXPECT_DOUBLE_EQ(factor(90, 50), 0.82);
  EXPECT_DOUBLE_EQ(factor(105, 60), 0.71);
  EXPECT_DOUBLE_EQ(factor(90, 10), 1.0);
  EXPECT_EQ(to_text(rv.ambient_factor(awg(8), celsius(75), celsius(40)).from), "NEC 310.15(B)(1), 2020");
}

TEST(RvRulebook, BeyondTheLastRowIsNotPermitted) {
  const Rulebook rv = installed_rulebook("rv");
  EXPECT_DOUBLE_EQ(rv.ambient_factor(awg(8), celsius(60), celsius(55)).value, 0.41);
  EXPECT_DOUBLE_EQ(rv.ambient_factor(awg(8), celsius(60), celsius(56)).value, 0.0);
}

TEST(RvRulebook, UnknownInsulationIsTakenForTheLowest) {
  EXPECT_DOUBLE_EQ(installed_rulebook("rv").ambient_factor(awg(8), {}, celsius(40)).value, 0.82);
}

// A book of one's own may list a size in some of its columns alone.
TEST(Rulebooks, TheFactorIsThatOfTheColumnWhichTheAmpacityCameFrom) {
  Rulebook book;
  book.ambient_reference = celsius(30);
  book.ampacity = {{mm2(1), celsius(60), amperes(10), {}},
                   {mm2(1), celsius(90), amperes(20), {}},
                   {mm2(4), celsius(60), amperes(30), {}},
                   {mm2(6), celsius(90), amperes(60), {}}};
  book.ambient = {{celsius(60), celsius(50), 0.58, {}}, {celsius(90), celsius(50), 0.82, {}}};
  const auto factor = [&](double area, std::optional<double> insulation) {
    return book.ambient_factor(mm2(area), rated(insulation), celsius(50)).value;
  };
  EXPECT_EQ(factor(1, 90), 0.82);
  EXPECT_EQ(factor(1, {}), 0.58);  // as the ampacity, the lowest
  EXPECT_EQ(factor(4, 90), 0.58);  // 30 A is the 60 C column's, whatever the insulation bears
  EXPECT_EQ(factor(6, {}), 0.82);
  EXPECT_EQ(factor(6, 60), 0.58);
}

TEST(RvRulebook, AnAmbientGivenInFahrenheitMeetsItsRow) {
  const auto fahrenheit = [](double f) { return celsius((f - 32) * 5 / 9); };
  const Rulebook rv = installed_rulebook("rv");
  EXPECT_DOUBLE_EQ(rv.ambient_factor(awg(8), celsius(75), fahrenheit(86)).value, 1.0);
  EXPECT_DOUBLE_EQ(rv.ambient_factor(awg(8), celsius(75), fahrenheit(113)).value, 0.82);
}

// NEC 310.15(C)(1), seen
TEST(RvRulebook, GroupingStartsAtFourConductors) {
  const Rulebook rv = installed_rulebook("rv");
  const std::pair<int, double> rows[] = {{1, 1},    {3, 1},    {4, 0.8},   {6, 0.8},   {7, 0.7},
                                         {9, 0.7},  {10, 0.5}, {20, 0.5},  {21, 0.45}, {30, 0.45},
                                         {31, 0.4}, {40, 0.4}, {41, 0.35}, {400, 0.35}};
  for (const auto& [count, factor] : rows) EXPECT_DOUBLE_EQ(rv.grouping_factor(count).value, factor) << count;
  EXPECT_FALSE(rv.grouping_counts_circuits);
}

// A solar installer's worked examples on NEC tables, seen: 12 AWG 90 C at 61 to 70 C carries 17.4 A; 10 AWG 90 C there,
// ten in a conduit, carries 11.6 A. So the factors act on the table and not on the cap.
TEST(RvRulebook, FactorsActOnTheTableAndTheCapHoldsBeside) {
  const Rulebook rv = installed_rulebook("rv");
  const double warm = rv.ambient_factor(awg(12), celsius(90), celsius(65)).value;
  EXPECT_NEAR(rv.derated_ampacity(awg(12), celsius(90), warm)->value.in(amperes), 17.4, 0.01);
  EXPECT_NEAR(rv.derated_ampacity(awg(10), celsius(90), warm * rv.grouping_factor(10).value)->value.in(amperes), 11.6,
              0.01);
  EXPECT_DOUBLE_EQ(rv.derated_ampacity(awg(14), celsius(90), 0.8)->value.in(amperes), 15);
  EXPECT_DOUBLE_EQ(rv.derated_ampacity(awg(14), celsius(60), 0.8)->value.in(amperes), 12);
}

TEST(RvRulebook, WhereTheCapIsAllThatIsKnownTheFactorActsOnIt) {
  const Rulebook rv = installed_rulebook("rv");
  EXPECT_DOUBLE_EQ(rv.derated_ampacity(awg(18), celsius(75), 0.8)->value.in(amperes), 4.8);
  EXPECT_DOUBLE_EQ(rv.derated_ampacity(awg(18), {}, 0.8)->value.in(amperes), 4.8);
  EXPECT_DOUBLE_EQ(rv.derated_ampacity(awg(18), celsius(90), 0.8)->value.in(amperes), 6);
}

// NEC 552.10(E)(4): 18 in, seen
TEST(RvRulebook, ADeviceSitsWithin18InchesOfTheSupply) {
  const Rulebook rv = installed_rulebook("rv");
  ASSERT_EQ(rv.positions.size(), 1U);
  EXPECT_DOUBLE_EQ(rv.positions[0].longest.value().in(inches), 18);
  EXPECT_FALSE(rv.positions[0].only_sheathed || rv.positions[0].only_from_battery || rv.positions[0].only_starter);
}

// NEC chapter 9 table 1, seen
TEST(RvRulebook, ConduitFillIsThatOfNecChapter9Table1) {
  const Rulebook rv = installed_rulebook("rv");
  EXPECT_EQ(rv.conduit_fill, (std::vector<std::pair<int, double>>{{1, 0.53}, {2, 0.31}, {3, 0.40}}));
}

// NEC 210.20(A), 215.3, seen (3 h from memory); 3 % is advice
TEST(RvRulebook, HoldsTheSingleFigures) {
  const Rulebook rv = installed_rulebook("rv");
  EXPECT_DOUBLE_EQ(rv.device_allowance(volts(60)).value, 1.0);
  EXPECT_DOUBLE_EQ(rv.continuous_factor.value, 1.25);
  EXPECT_NEAR(rv.continuous_factor.value * 10.585, 13.23, 0.01);  // a solar installer's worked example, seen
  EXPECT_EQ(rv.continuous_from.value, hours(3));
  EXPECT_DOUBLE_EQ(rv.drop_limit.value, 0.03);
  EXPECT_EQ(rv.least_size(false)->value, awg(18));
  EXPECT_EQ(rv.least_size(true)->value, awg(18));
  ASSERT_TRUE(rv.least_bond && rv.parallel_from);  // NEC 552.10(C)(4), seen; NEC 310.10(G), from memory
  EXPECT_EQ(rv.least_bond->least, awg(8));
  EXPECT_TRUE(rv.least_bond->as_lead);
  EXPECT_EQ(rv.least_bond->from.known, Known::seen);
  EXPECT_EQ(rv.parallel_from->value, WireSize::awg(0));
  EXPECT_EQ(rv.parallel_from->from.known, Known::memory);
  EXPECT_TRUE(rv.chassis_may_carry.value);
  EXPECT_FALSE(rv.return_alone_may_be_switched.value);
  EXPECT_FALSE(rv.longest_tail);
}

// 33 CFR 183.425 table 5, seen
TEST(MarineRulebook, CarriesWhat33Cfr183Says) {
  expect_cells(installed_rulebook("marine"), {{awg(18), 60, 10},
                                              {awg(18), {}, 10},
                                              {awg(14), 105, 35},
                                              {awg(12), 105, 45},
                                              {awg(10), 90, 55},
                                              {awg(8), 105, 80},
                                              {awg(6), 105, 120},
                                              {awg(-1), 105, 330},
                                              {awg(-3), 105, 445},
                                              {awg(-3), 200, 510},
                                              {awg(1), 75, 195},
                                              {mm2(4), 105, 45}});
}

// Published spot checks on 33 CFR and ABYC E-11, seen: 12 AWG 105 C in an engine space 38.25 A; five bundled 27 A;
// 14 AWG in an engine space, 7 to 24 bundled, 14.9 A; 2/0 AWG likewise 140.3 A
TEST(MarineRulebook, DeratesAsThePublishedExamples) {
  const Rulebook marine = installed_rulebook("marine");
  const auto derated = [&](int gauge, double ambient, int count) {
    const double factor =
        marine.ambient_factor(awg(gauge), celsius(105), celsius(ambient)).value * marine.grouping_factor(count).value;
    return marine.derated_ampacity(awg(gauge), celsius(105), factor)->value.in(amperes);
  };
  EXPECT_NEAR(derated(12, 50, 1), 38.25, 0.01);
  EXPECT_NEAR(derated(12, 30, 5), 27, 0.01);
  EXPECT_NEAR(derated(14, 50, 7), 14.9, 0.149);
  EXPECT_NEAR(derated(10, 50, 7), 25.5, 0.01);
  EXPECT_NEAR(derated(6, 50, 24), 51, 0.01);
  EXPECT_NEAR(derated(-1, 50, 24), 140.3, 1.4);
  // a cable maker's table, seen: 4 to 6 bundled
  const std::pair<int, double> bundled[] = {{18, 12}, {16, 15}, {14, 21}, {12, 27}, {10, 36}, {8, 48}, {6, 72}};
  for (const auto& [gauge, carries] : bundled) EXPECT_NEAR(derated(gauge, 30, 4), carries, 0.01) << gauge;
}

// ABYC E-11 DC bundling factors, seen: one two-core cable already counts two
TEST(MarineRulebook, GroupingStartsAtTwo) {
  const Rulebook marine = installed_rulebook("marine");
  const std::pair<int, double> rows[] = {{1, 1},   {2, 0.7},  {3, 0.7},  {4, 0.6}, {6, 0.6},
                                         {7, 0.5}, {24, 0.5}, {25, 0.4}, {99, 0.4}};
  for (const auto& [count, factor] : rows) EXPECT_DOUBLE_EQ(marine.grouping_factor(count).value, factor) << count;
}

// 33 CFR 183.435(b), seen: from 50 V up the law derates bundles, from the third conductor. Its note 2 to table 5 as a
// cable maker prints it (0.7, 0.6, 0.5), 0.4 from 25 on seen in the law's own table
TEST(MarineRulebook, GroupingAtEveryVoltageKeepsTheLawFromFiftyVoltsUp) {
  const Rulebook marine = installed_rulebook("marine");
  const std::pair<int, double> law[] = {{2, 1},   {3, 0.7},  {4, 0.6},  {6, 0.6},
                                        {7, 0.5}, {24, 0.5}, {25, 0.4}, {60, 0.4}};
  for (const auto& [count, factor] : law) EXPECT_LE(marine.grouping_factor(count).value, factor) << count;
}

// 33 CFR 183.455(b) and (c), seen; 183.460 as others quote it
TEST(MarineRulebook, PlacesDevicesAs33Cfr183Says) {
  const Rulebook marine = installed_rulebook("marine");
  ASSERT_EQ(marine.positions.size(), 4U);
  const double inches_of[] = {7, 40, 72};
  for (std::size_t i = 0; i < 3; ++i) EXPECT_DOUBLE_EQ(marine.positions[i].longest->in(inches), inches_of[i]);
  EXPECT_TRUE(marine.positions[1].only_sheathed);
  EXPECT_TRUE(marine.positions[2].only_from_battery);
  EXPECT_TRUE(marine.positions[3].only_starter);
  EXPECT_FALSE(marine.positions[3].longest);
  EXPECT_DOUBLE_EQ(marine.device_allowance(volts(12)).value, 1.5);
  EXPECT_DOUBLE_EQ(marine.device_allowance(volts(49.99)).value, 1.5);
  EXPECT_DOUBLE_EQ(marine.device_allowance(volts(50)).value, 1.0);
  EXPECT_EQ(marine.device_allowance(volts(58.4)).from.source, "33 CFR 183.455(c)(2), edition not known");
  EXPECT_DOUBLE_EQ(marine.longest_tail->value.in(inches), 7);  // 183.425(g), seen
}

// 33 CFR 183.425(d), (e), seen
TEST(MarineRulebook, LetsThinnerCoresRunInASheath) {
  const Rulebook marine = installed_rulebook("marine");
  EXPECT_EQ(marine.least_size(false)->value, awg(16));
  EXPECT_EQ(marine.least_size(true)->value, awg(18));
}

// ISO 10133:2012 table A.1 (from memory)
TEST(MetricRulebook, CarriesWhatIso10133Says) {
  const Rulebook metric = installed_rulebook("metric");
  expect_cells(metric, {{mm2(0.75), 60, 6},
                        {mm2(1), 70, 14},
                        {mm2(1.5), 105, 25},
                        {mm2(2.5), 70, 25},
                        {mm2(4), 90, 40},
                        {mm2(4), {}, 22},
                        {mm2(16), 85, 100},
                        {mm2(120), 105, 450},
                        {mm2(150), 125, 520},
                        {mm2(2), 70, 18},
                        {awg(12), 70, 25},
                        {awg(18), 105, 16}});
  EXPECT_EQ(metric.ampacity_of(mm2(4), celsius(70))->from.known, Known::memory);
  EXPECT_FALSE(metric.ampacity_of(mm2(0.5), celsius(105)));
}

// ISO 10133:2012 7.7, seen; 8.1 (from memory)
TEST(MetricRulebook, HoldsTheLimitsOfIso10133) {
  const Rulebook metric = installed_rulebook("metric");
  EXPECT_EQ(metric.least_size(false)->value, mm2(1));
  EXPECT_EQ(metric.least_size(true)->value, mm2(0.75));
  ASSERT_EQ(metric.positions.size(), 5U);
  EXPECT_EQ(metric.positions[0].longest, millimetres(200));
  // Without a length in ISO 10133 those of ABYC E-11, 40 in and from a battery 72 in, from memory.
  EXPECT_EQ(metric.positions[1].longest, millimetres(1016));
  EXPECT_TRUE(metric.positions[1].only_sheathed && !metric.positions[1].only_from_battery);
  EXPECT_EQ(metric.positions[2].longest, millimetres(1828.8));
  EXPECT_TRUE(metric.positions[2].only_sheathed && metric.positions[2].only_from_battery);
  for (const std::size_t row : {1U, 2U}) EXPECT_EQ(metric.positions[row].from.known, Known::memory);
  EXPECT_TRUE(!metric.positions[3].longest && metric.positions[3].only_sheathed && metric.positions[3].only_starter);
  // ISO 13297:2020 12.3, seen: 1,8 m from a charging source
  EXPECT_TRUE(metric.positions[4].only_from_charger && !metric.positions[4].only_sheathed);
  EXPECT_EQ(metric.positions[4].longest, millimetres(1800));
  EXPECT_DOUBLE_EQ(metric.device_allowance(volts(60)).value, 1.0);
  EXPECT_DOUBLE_EQ(metric.ambient_factor(mm2(4), celsius(70), celsius(60)).value, 0.75);
  EXPECT_DOUBLE_EQ(metric.ambient_factor(mm2(4), celsius(60), celsius(60)).value, 0.0);
  EXPECT_DOUBLE_EQ(metric.grouping_factor(3).value, 1.0);
  EXPECT_DOUBLE_EQ(metric.grouping_factor(4).value, 0.7);
}

void expect_nearest(const Rulebook& book, const Cell& asked, const Cell& nearest) {
  const auto as = book.nearest_above(asked.size, rated(asked.insulation));
  ASSERT_TRUE(as) << to_text(asked.size);
  EXPECT_EQ(as->size, nearest.size);
  EXPECT_EQ(as->insulation, rated(nearest.insulation));
  EXPECT_DOUBLE_EQ(book.ampacity_of(as->size, as->insulation)->value.in(amperes), nearest.amperes);
}

TEST(Rulebooks, BoundASizeThinnerThanAllByTheThinnestAndACoolInsulationByTheCoolest) {
  const Rulebook rv = installed_rulebook("rv"), metric = installed_rulebook("metric");
  expect_nearest(rv, {awg(22), {}, 0}, {awg(18), {}, 6});
  expect_nearest(rv, {awg(22), 105, 0}, {awg(18), 105, 6});  // 14 A by NEC 310.16, and NEC 552.10(E)(1) caps it
  expect_nearest(metric, {mm2(0.5), {}, 0}, {mm2(0.75), {}, 6});
  expect_nearest(metric, {mm2(0.5), 105, 0}, {mm2(0.75), 105, 16});
  expect_nearest(metric, {mm2(0.5), 50, 0}, {mm2(0.75), 60, 6});
  expect_nearest(metric, {mm2(4), 50, 0}, {mm2(4), 60, 22});
  EXPECT_FALSE(Rulebook().nearest_above(awg(22), {}));
}

// 33 CFR 183.430(a) and NEC 552.10(B)(2), 2008 (both from memory) count vehicle wire among what their tables hold for
TEST(Rulebooks, JudgeVehicleWireByItsNumberWhereTheLawNamesItAndElseByItsArea) {
  const WireSize sae14 = WireSize::sae(14);
  const Rulebook marine = installed_rulebook("marine"), rv = installed_rulebook("rv");
  const Rulebook metric = installed_rulebook("metric");
  EXPECT_EQ(marine.judged_as(sae14), awg(14));
  EXPECT_EQ(rv.judged_as(sae14), awg(14));
  EXPECT_EQ(metric.judged_as(sae14), sae14);
  EXPECT_EQ(marine.judged_as(awg(14)), awg(14));
  EXPECT_EQ(marine.judged_as(mm2(2)), mm2(2));
  expect_cells(marine, {{sae14, 105, 35}, {WireSize::sae(-3), 105, 445}});
  expect_cells(rv, {{sae14, {}, 15}, {WireSize::sae(8), 75, 50}});
  expect_cells(metric, {{sae14, 70, 18}, {mm2(1.5), 70, 18}, {WireSize::sae(12), 70, 25}});  // 1.88 mm2, 2.96 mm2
}

TEST(Rulebooks, NeverCarryMoreOnAThinnerConductor) {
  for (const char* name : {"rv", "marine", "metric"}) {
    const Rulebook book = installed_rulebook(name);
    for (const std::optional<double> insulation :
         {std::optional<double>(), std::optional<double>(60), std::optional<double>(105)}) {
      Current last{};
      for (double area = 0.5; area < 200; area *= 1.05) {
        const auto found = book.ampacity_of(mm2(area), rated(insulation));
        if (!found) continue;
        EXPECT_GE(found->value, last) << name << " " << area;
        last = found->value;
      }
      EXPECT_GT(last, amperes(100));
    }
  }
}

TEST(Provenance, SaysHowAFigureIsKnown) {
  EXPECT_EQ(to_text(Provenance{"NEC 310.16", Known::seen}), "NEC 310.16");
  EXPECT_EQ(to_text(Provenance{"ISO 10133 8.1", Known::memory}), "ISO 10133 8.1 (from memory)");
  EXPECT_EQ(to_text(Provenance{"", Known::practice}), "common practice");
}

}  // namespace
}  // namespace loomleaf
