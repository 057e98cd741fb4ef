#include "loomleaf/study/conductor_figures.h"

#include <gtest/gtest.h>

#include "conductor_figures/support/hand_made_plan.h"
#include "support/installed_templates.h"

namespace loomleaf {
namespace {

WireSize awg(int gauge) { return WireSize::awg(gauge); }
WireSize mm2(double area) { return WireSize::metric(square_millimetres(area)); }

class ConductorFiguresOf : public testing::Test {
 protected:
  HandMadePlan made;
  Rulebook rv = installed_rulebook("rv"), marine = installed_rulebook("marine");

  ConductorFigures of(RunId run) const { return made.figures(run, installed_stock(), rv); }
  ConductorFigures of(RunId run, const Rulebook& book) const { return made.figures(run, installed_stock(), book); }
};

// IEC 60228: 13.3 ohm/km at 20 C for 1.5 mm2; 30 C adds 0.00393 x 10
TEST_F(ConductorFiguresOf, AWireHasItsResistanceAt30C) {
  const ConductorFigures w = of(made.wire(mm2(1.5), metres(10)));
  EXPECT_NEAR(w.resistance.in(ohms), 0.133 * 1.0393, 1e-9);
  EXPECT_EQ(w.area, square_millimetres(1.5));
  EXPECT_EQ(w.length, metres(10));
  EXPECT_FALSE(w.size_assumed);
}

// IEC 60228 correction table, seen: what a resistance measured at this temperature is multiplied by for 20 C
TEST_F(ConductorFiguresOf, TheCorrectionAgreesWithIec60228) {
  const std::pair<double, double> printed[] = {{5, 1.064},  {10, 1.042}, {15, 1.02},  {20, 1.0},   {25, 0.98},
                                               {30, 0.962}, {35, 0.943}, {40, 0.926}, {45, 0.909}, {50, 0.893},
                                               {55, 0.877}, {60, 0.862}, {65, 0.847}, {70, 0.833}, {75, 0.82},
                                               {80, 0.806}, {85, 0.794}, {90, 0.781}};
  const RunId run = made.wire(mm2(1.5), metres(10));
  for (const auto& [temperature, factor] : printed) {
    made.plan.system.conductor_temperature = celsius(temperature);
    EXPECT_NEAR(of(run).resistance.in(ohms)*factor, 0.133, 0.133 * 0.005) << temperature;
  }
}

// NEC chapter 9 table 8, seen: 16 AWG stranded is 16.37 ohm/km at 75 C
TEST_F(ConductorFiguresOf, ThePlansConductorTemperatureCounts) {
  made.plan.system.conductor_temperature = celsius(75);
  EXPECT_NEAR(of(made.wire(awg(16), metres(1000))).resistance.in(ohms), 16.37, 0.16);
  made.plan.system.conductor_temperature = celsius(20);
  EXPECT_DOUBLE_EQ(of(made.wire(awg(16), metres(1000))).resistance.in(ohms), 13.438);
}

TEST_F(ConductorFiguresOf, EveryCoreOfACableIsAsLongAsTheCable) {
  const RunId cable = made.cable(awg(18), 3, metres(4));
  const auto all = conductor_figures(made.plan, made.routes, Circuit{}, {}, installed_stock(), rv);
  ASSERT_EQ(made.plan.runs[cable].conductors.size(), 3U);
  for (const ConductorId core : made.plan.runs[cable].conductors) EXPECT_EQ(all[core].length, metres(4));
}

TEST_F(ConductorFiguresOf, AWireAloneHasNoFactors) {
  const ConductorFigures w = of(made.wire(awg(8), metres(1)));
  EXPECT_EQ(w.ambient_factor, 1.0);
  EXPECT_EQ(w.grouping_factor, 1.0);
  EXPECT_EQ(w.grouped_with, 1);
  EXPECT_EQ(w.ampacity, amperes(40));
  EXPECT_EQ(w.may_carry, amperes(40));
  EXPECT_EQ(w.table_ampacity->from.source, "NEC 310.16, 2020");
}

TEST_F(ConductorFiguresOf, AnUndeclaredAmbientIsTheReference) {
  const RunId w = made.wire(awg(8), metres(1));
  EXPECT_EQ(of(w).ambient_factor, 1.0);
  made.routes.runs[w].warmest = celsius(30);
  EXPECT_EQ(of(w).ambient_factor, 1.0);
  made.routes.runs[w].warmest = celsius(31);
  EXPECT_EQ(of(w).ambient_factor, 0.91);
  EXPECT_EQ(of(w).ambient_from.source, "NEC 310.15(B)(1), 2020");
  EXPECT_NEAR(of(w).ampacity->in(amperes), 36.4, 1e-9);
}

TEST_F(ConductorFiguresOf, APlaceTooWarmForTheInsulationLeavesNothing) {
  const RunId w = made.wire(awg(8), metres(1));
  made.routes.runs[w].warmest = celsius(56);
  EXPECT_EQ(of(w).ampacity, amperes(0));
  made.plan.runs[w].insulation = celsius(90);
  EXPECT_NEAR(of(w).ampacity->in(amperes), 55 * 0.71, 1e-9);
}

TEST_F(ConductorFiguresOf, OnlyConduitAndBundlesGroup) {
  const LegId open = made.leg(false), conduit = made.leg(true), bundle = made.leg(false, true);
  for (int i = 0; i < 4; ++i) {
    made.wire(awg(8), metres(1), {open});
    made.wire(awg(8), metres(1), {conduit});
    made.wire(awg(8), metres(1), {bundle});
  }
  const auto all = conductor_figures(made.plan, made.routes, Circuit{}, {}, installed_stock(), rv);
  const auto ids = made.plan.conductors.ids();
  EXPECT_EQ(all[*ids.begin()].grouped_with, 1);
  EXPECT_EQ(all[ConductorId(1)].grouped_with, 4);
  EXPECT_EQ(all[ConductorId(2)].grouped_with, 4);
  EXPECT_NEAR(all[ConductorId(2)].ampacity->in(amperes), 32, 1e-9);
  EXPECT_EQ(all[ConductorId(2)].grouping_from.source, "NEC 310.15(C)(1), 2020");
}

TEST_F(ConductorFiguresOf, ThreeConductorsAreNoGroupForTheNec) {
  const LegId conduit = made.leg(true);
  const RunId cable = made.cable(awg(8), 2, metres(1), {conduit});
  made.wire(awg(8), metres(1), {conduit});
  EXPECT_EQ(of(cable).grouped_with, 3);
  EXPECT_EQ(of(cable).grouping_factor, 1.0);
  made.wire(awg(8), metres(1), {conduit});
  EXPECT_EQ(of(cable).grouping_factor, 0.8);
}

TEST_F(ConductorFiguresOf, TheFullestLegCounts) {
  const LegId empty = made.leg(true), full = made.leg(true);
  const RunId long_one = made.wire(awg(8), metres(1), {empty, full});
  const RunId short_one = made.wire(awg(8), metres(1), {empty});
  for (int i = 0; i < 6; ++i) made.wire(awg(8), metres(1), {full});
  EXPECT_EQ(of(long_one).grouped_with, 7);
  EXPECT_EQ(of(long_one).grouping_factor, 0.7);
  EXPECT_EQ(of(short_one).grouped_with, 2);
}

TEST_F(ConductorFiguresOf, BondsAndSignalsDoNotCount) {
  const LegId conduit = made.leg(true);
  const RunId feed = made.wire(awg(8), metres(1), {conduit});
  made.plan.runs[made.wire(awg(8), metres(1), {conduit})].bond = true;
  made.plan.runs[made.cable(awg(18), 4, metres(1), {conduit})].signal = true;
  EXPECT_EQ(of(feed).grouped_with, 1);
}

TEST_F(ConductorFiguresOf, ACableGroupsItsOwnCores) {
  const RunId cable = made.cable(awg(8), 2, metres(1));
  EXPECT_EQ(of(cable).grouped_with, 2);
  EXPECT_EQ(of(cable).grouping_factor, 1.0);
  EXPECT_EQ(of(cable, marine).grouping_factor, 0.7);  // ABYC E-11: one two-core DC cable already takes 0.7, seen
  EXPECT_EQ(of(made.cable(awg(8), 5, metres(1))).grouping_factor, 0.8);
}

TEST_F(ConductorFiguresOf, ARulebookMayCountCircuits) {
  Rulebook circuits = rv;
  circuits.grouping_counts_circuits = true;
  circuits.grouping = {{2, 0.8, {"BS 7671 Table 4C1", Known::memory}}};
  const LegId conduit = made.leg(true);
  const RunId cable = made.cable(awg(8), 2, metres(1), {conduit});
  EXPECT_EQ(of(cable, circuits).grouped_with, 1);
  EXPECT_EQ(of(cable, circuits).grouping_factor, 1.0);
  made.cable(awg(8), 2, metres(1), {conduit});
  EXPECT_EQ(of(cable, circuits).grouped_with, 2);
  EXPECT_EQ(of(cable, circuits).grouping_factor, 0.8);
}

// 33 CFR 183.455(c)(1), seen: a device may be 150 % of the table below 50 V
TEST_F(ConductorFiguresOf, TheRulebooksAllowanceCounts) {
  const RunId w = made.wire(awg(12), metres(1));
  made.plan.runs[w].insulation = celsius(105);
  EXPECT_EQ(of(w, marine).ampacity, amperes(45));
  EXPECT_EQ(of(w, marine).may_carry, amperes(67.5));
  EXPECT_EQ(of(w).may_carry, amperes(20));
}

TEST_F(ConductorFiguresOf, ASignalWithoutSizeIsTakenForTheLeast) {
  const RunId signal = made.wire(std::nullopt, metres(2)), pair = made.cable(std::nullopt, 2, metres(2));
  made.plan.runs[signal].signal = made.plan.runs[pair].signal = true;
  EXPECT_EQ(of(signal).size, awg(18));
  EXPECT_TRUE(of(signal).size_assumed);
  EXPECT_EQ(of(signal).may_carry, amperes(6));
  EXPECT_EQ(of(signal, marine).size, awg(16));
  EXPECT_EQ(of(pair, marine).size, awg(18));
}

TEST_F(ConductorFiguresOf, ASizeTheRulebookDoesNotKnowHasNoAmpacity) {
  const ConductorFigures w = of(made.wire(awg(22), metres(1)));
  EXPECT_FALSE(w.table_ampacity);
  EXPECT_FALSE(w.ampacity);
  EXPECT_GT(w.resistance, ohms(0));
}

TEST_F(ConductorFiguresOf, ASizeThinnerThanTheRulebookKnowsCarriesNoMoreThanTheThinnestWhereItRuns) {
  const RunId w = made.wire(awg(22), metres(1));
  ASSERT_TRUE(of(w).no_more_than);
  EXPECT_EQ(of(w).no_more_than->as.size, awg(18));
  EXPECT_EQ(of(w).no_more_than->table.value, amperes(6));
  EXPECT_EQ(of(w).may_carry, amperes(6));
  EXPECT_EQ(of(w, marine).no_more_than->ampacity, amperes(10));
  EXPECT_EQ(of(w, marine).may_carry, amperes(15));  // 33 CFR 183.455(c)(1): 150 %
  made.plan.runs[w].insulation = celsius(75);
  made.routes.runs[w].warmest = celsius(50);
  EXPECT_EQ(of(w, marine).no_more_than->ampacity, amperes(7.5));  // 33 CFR 183.425 table 5 note 1: 0.75
  EXPECT_FALSE(of(made.wire(awg(18), metres(1))).no_more_than);
}

TEST_F(ConductorFiguresOf, InsulationCoolerThanTheTablesCarriesNoMoreThanTheCoolestOfThem) {
  const RunId w = made.wire(awg(8), metres(1));
  made.plan.runs[w].insulation = celsius(50);
  made.routes.runs[w].warmest = celsius(40);
  EXPECT_FALSE(of(w).ampacity);
  ASSERT_TRUE(of(w).no_more_than);
  EXPECT_EQ(of(w).no_more_than->as.insulation, celsius(60));
  EXPECT_NEAR(of(w).may_carry->in(amperes), 40 * 0.82, 1e-9);  // NEC 310.16 and 310.15(B)(1), 2020
}

TEST_F(ConductorFiguresOf, AMetricSizeInTheRvBookCarriesWhatTheNextThinnerAwgDoes) {
  const ConductorFigures w = of(made.wire(mm2(2.5), metres(1)));
  EXPECT_EQ(w.ampacity, amperes(15));
  EXPECT_EQ(w.area, square_millimetres(2.5));
}

TEST_F(ConductorFiguresOf, AnEmptyPlanHasNone) {
  EXPECT_TRUE(conductor_figures(made.plan, made.routes, Circuit{}, {}, installed_stock(), rv).empty());
}

}  // namespace
}  // namespace loomleaf
