// Cases beside the plain load case and charge: loads and charging converters at once, and supplies at their highest
// voltage.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "working/support/studied.h"

namespace loomleaf::test {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

// Two batteries, the second charged from the first, 14 V x 10 A / 0.7 = 200 W; and what else is told. W1 and W4 lead
// to and from the first with 2 mohm each.
std::string charged_from_the_first(const std::string& rest, const std::string& first = "") {
  return "source ENG 12 V 80 Ah " + first +
         "\nsource HOUSE 12 V 100 Ah\nbus PB, NB 100 A\n"
         "converter DC in 12 V out 14 V 10 A efficiency 70 %\n"
         "wire W1 ENG+ to PB 10 mm2 red 1 m\nwire W4 NB to ENG- 10 mm2 black 1 m\n"
         "fuse F0 60 A on PB\nwire W2 F0 to DC.in+ 10 mm2 red 1 m\nwire W3 DC.in- to NB 10 mm2 black 1 m\n"
         "wire W5 DC.out+ to HOUSE+ 1 mm2 red 1 m\nwire W6 HOUSE- to DC.out- 1 mm2 black 1 m\n" +
         rest;
}

// A load of 6 A at the first battery's bus.
const char* const lamp = "load L 6 A constant-current on NB\nfuse F1 10 A on PB\nwire WL F1 to L+ 1 mm2 red 1 m\n";

TEST(LoadAndCharge, LoadsAndAChargingConvertersInputAddUp) {
  const Studied studied = study_text(charged_from_the_first(lamp));
  EXPECT_THAT(studied.case_names(), ElementsAre("load", "charge", "load+charge"));
  // At the bus 12 V less 4 mohm x I, at the converter less 4 mohm x its own current: I = 6 + 200 / V
  double volt = 12.0;
  for (int i = 0; i < 50; ++i) volt = 12.0 - 0.004 * (6.0 + 200.0 / volt) - 0.004 * 200.0 / volt;
  EXPECT_NEAR(studied.wire_ampere("W1"), 6.0 + 200.0 / volt, 1e-8);
  EXPECT_EQ(studied.case_of(studied.conductor("W1")), "load+charge");
  EXPECT_NEAR(studied.source_ampere("ENG"), 6.0 + 200.0 / volt, 1e-8);
  EXPECT_NEAR(studied.joint_ampere("PB"), 6.0 + 200.0 / volt, 1e-8);
}

TEST(LoadAndCharge, CountsTheChargingAsLasting) {
  // The 6 A of the lamp as they are, 200 / V of the charging 1.25 times
  const Studied studied = study_text(
      "source ENG 12 V 80 Ah\nsource HOUSE 12 V 100 Ah\nfuse FM 60 A on ENG+\n"
      "converter DC in 12 V out 14 V 10 A efficiency 70 %\nload L 6 A constant-current on ENG-\n"
      "bus PB 100 A\nwire W1 FM to PB 10 mm2 red 1 m\nwire WL PB to L+ 10 mm2 red 1 m\n"
      "wire W2 PB to DC.in+ 10 mm2 red 1 m\nwire W3 DC.in- to ENG- 10 mm2 black 1 m\n"
      "wire W5 DC.out+ to HOUSE+ 1 mm2 red 1 m\nwire W6 HOUSE- to DC.out- 1 mm2 black 1 m\n");
  const double charging = studied.wire_ampere("W1") - 6.0;
  EXPECT_GT(charging, 200.0 / 12.0);
  EXPECT_NEAR(studied.continuous_ampere("FM"), 6.0 + 1.25 * charging, 1e-8);
}

TEST(LoadAndCharge, LeavesWhatALoadGetsToTheLoadCase) {
  const Studied studied = study_text(charged_from_the_first(lamp));
  EXPECT_NEAR(studied.load_volt("L"), 12.0 - 6.0 * (0.004 + 0.02), 1e-9);
  EXPECT_EQ(studied.points.cases[studied.load("L").drop->in_case].name, "load");
}

TEST(LoadAndCharge, OtherLimitedSourcesAreOff) {
  // 50 A of sun would turn the current in W1 round
  const Studied studied = study_text(charged_from_the_first(
      std::string(lamp) + "source SUN solar 14 V limit 50 A on NB\nwire WS SUN+ to PB 10 mm2 red 1 m\n"));
  EXPECT_EQ(studied.case_of(studied.conductor("W1")), "charge");
  EXPECT_EQ(studied.case_of(studied.conductor("W2")), "load+charge");
  EXPECT_NEAR(studied.source_ampere("ENG"), 6.0 + studied.wire_ampere("W2"), 1e-8);
}

TEST(LoadAndCharge, IsNoneWithoutAChargingConverter) {
  EXPECT_THAT(study_text("source BAT 12 V 100 Ah\nsource SUN solar 12 V limit 5 A on BAT-\n"
                         "wire W1 SUN+ to BAT+ 1 mm2 red 1 m\n")
                  .case_names(),
              ElementsAre("load", "charge"));
  // its output meets no battery
  EXPECT_THAT(study_text("source BAT 12 V 100 Ah\nconverter DC in 12 V out 5 V 3 A\nload L 5 W 5 V on DC.out-\n"
                         "wire W1 BAT+ to DC.in+ 1 mm2 red 1 m\nwire W2 DC.in- to BAT- 1 mm2 black 1 m\n"
                         "wire W3 DC.out+ to L+ 1 mm2 red 1 m\n")
                  .case_names(),
              ElementsAre("load"));
}

TEST(LoadAndCharge, CircuitInFullGoesWithTheConverterThatItFeeds) {
  // Of 8 A half run; the device before the converter feeds them too
  const Studied studied = study_text(
      charged_from_the_first("load L 8 A constant-current use 50 % on NB\nwire WL F0 to L+ 10 mm2 red 1 m\n"));
  EXPECT_THAT(studied.case_names(),
              ElementsAre("load", "charge", "load+charge", "load F0 full", "load+charge F0 full"));
  EXPECT_EQ(studied.case_of(studied.contact("F0")), "load+charge F0 full");
  EXPECT_NEAR(studied.ampere(studied.contact("F0")), 8.0 + 200.0 / 12.0, 0.3);
  // one that feeds none does not
  EXPECT_THAT(study_text(charged_from_the_first("fuse F1 10 A on PB\nload L 8 A constant-current use 50 % on NB\n"
                                                "wire WL F1 to L+ 10 mm2 red 1 m\n"))
                  .case_names(),
              ElementsAre("load", "charge", "load+charge", "load F1 full"));
}

// From the first the second is charged, from the second a third: what the one gives must not hide what the other takes.
TEST(LoadAndCharge, ChargersOneBehindTheOtherRunInShifts) {
  const Studied studied = study_text(charged_from_the_first(
      "source THIRD 12 V 50 Ah\nconverter D3 in 12 V out 14 V 10 A efficiency 70 %\nbus P2 100 A\n"
      "wire X1 HOUSE+ to P2 10 mm2 red 1 m\nwire X2 P2 to D3.in+ 10 mm2 red 1 m\nwire X3 D3.in- to HOUSE- 10 mm2 black "
      "1 m\n"
      "wire X4 D3.out+ to THIRD+ 1 mm2 red 1 m\nwire X5 THIRD- to D3.out- 1 mm2 black 1 m\n"
      "load L 6 A constant-current on HOUSE-\nwire XL P2 to L+ 10 mm2 red 1 m\n"));
  EXPECT_THAT(studied.case_names(),
              ElementsAre("load", "charge", "load+charge", "load+charge by D3", "load+charge by DC"));
  // 6 A and 200 W, of which 10 A would come from the first converter
  EXPECT_NEAR(studied.source_ampere("HOUSE"), 6.0 + 200.0 / 12.0, 0.2);
  EXPECT_NEAR(studied.wire_ampere("W1"), 200.0 / 12.0, 0.2);
}

TEST(LoadAndCharge, ChargersSideBySideRunInOneShift) {
  const Studied studied = study_text(
      charged_from_the_first("source THIRD 12 V 50 Ah\nconverter D3 in 12 V out 14 V 10 A efficiency 70 %\n"
                             "wire X2 PB to D3.in+ 10 mm2 red 1 m\nwire X3 D3.in- to NB 10 mm2 black 1 m\n"
                             "wire X4 D3.out+ to THIRD+ 1 mm2 red 1 m\nwire X5 THIRD- to D3.out- 1 mm2 black 1 m\n"));
  EXPECT_THAT(studied.case_names(), ElementsAre("load", "charge", "load+charge"));
  EXPECT_NEAR(studied.wire_ampere("W1"), 400.0 / 12.0, 0.7);
}

TEST(LoadAndCharge, CoilsAreOn) {
  const Studied studied = study_text(charged_from_the_first(
      "relay R1 contact 30 A coil 120 W\nwire C1 PB to R1.86 10 mm2 red 1 m\nwire C2 R1.85 to NB 10 mm2 black 1 m\n"));
  EXPECT_GT(studied.wire_ampere("W1"), 26.0);  // 10 A and 17 A
}

// What breaks down only because the converter charges at the same time says nothing of the loads' voltage, but how much
// is asked for counts.
TEST(LoadAndCharge, CollapseOfItsOwnIsNotToldButAskedFor) {
  const Studied studied = study_text(
      "source ENG 12 V 80 Ah\nsource HOUSE 12 V 100 Ah\nconverter DC in 12 V out 14 V 10 A efficiency 70 %\n"
      "load L 180 W\nbus PB, NB 100 A\nwire W1 ENG+ to PB 1 mm2 red 4 m\nwire W4 NB to ENG- 1 mm2 black 4 m\n"
      "wire WL PB to L+ 10 mm2 red 1 m\nwire WM L- to NB 10 mm2 black 1 m\n"
      "wire W2 PB to DC.in+ 10 mm2 red 1 m\nwire W3 DC.in- to NB 10 mm2 black 1 m\n"
      "wire W5 DC.out+ to HOUSE+ 1 mm2 red 1 m\nwire W6 HOUSE- to DC.out- 1 mm2 black 1 m\n");
  EXPECT_THAT(studied.points.collapses, IsEmpty());
  EXPECT_NEAR(studied.asked_ampere("W1"), 180.0 / 12.0 + 200.0 / 12.0, 1e-8);
}

// 120 W at 12 V are 1.2 ohm; the wires have 0.04 ohm.
std::string heater(const std::string& battery, const std::string& more = "") {
  return "source BAT " + battery + " 100 Ah\nload H 120 W resistive\nwire W1 BAT+ to H+ 1 mm2 red 1 m\n" +
         "wire W2 H- to BAT- 1 mm2 black 1 m\n" + more;
}

TEST(HighestVoltage, ResistiveLoadsDrawTheMostThere) {
  const Studied studied = study_text(heater("12.8 V low 11.8 V high 14.4 V"));
  EXPECT_THAT(studied.case_names(), ElementsAre("load", "load highest"));
  EXPECT_NEAR(studied.wire_ampere("W1"), 14.4 / 1.24, 1e-9);
  EXPECT_EQ(studied.case_of(studied.conductor("W1")), "load highest");
  // what it gets is the least that it gets
  EXPECT_NEAR(studied.load_volt("H"), 11.8 * 1.2 / 1.24, 1e-9);
}

TEST(HighestVoltage, IsNominalWhereNoHighIsGiven) {
  EXPECT_NEAR(study_text(heater("12.8 V low 11.8 V")).wire_ampere("W1"), 12.8 / 1.24, 1e-9);
}

TEST(HighestVoltage, IsNoCaseWhereItIsTheLowestToo) {
  EXPECT_THAT(study_text(heater("12 V")).case_names(), ElementsAre("load"));
  EXPECT_THAT(study_text(heater("12 V low 12 V high 12 V")).case_names(), ElementsAre("load"));
}

TEST(HighestVoltage, IsNoCaseWhereNothingIsResistive) {
  EXPECT_THAT(study_text("source BAT 12.8 V low 11.8 V high 14.4 V 100 Ah\nload A 5 W on BAT-\n"
                         "load B 1 A constant-current on BAT-\nwire W1 BAT+ to A+ 1 mm2 red 1 m\n"
                         "wire W2 BAT+ to B+ 1 mm2 red 1 m\nload H 5 W resistive\n")
                  .case_names(),
              ElementsAre("load"));
}

TEST(HighestVoltage, CoilKeepsItsResistance) {
  // 2.4 W at the lowest 12 V are 60 ohm
  const Studied studied = study_text(
      "source BAT 12 V high 15 V 100 Ah\nrelay R1 contact 30 A coil 2.4 W\n"
      "wire W1 BAT+ to R1.86 1 mm2 red 1 m\nwire W2 R1.85 to BAT- 1 mm2 black 1 m\n");
  EXPECT_EQ(studied.case_of(studied.conductor("W1")), "load highest");
  EXPECT_NEAR(studied.wire_ampere("W1"), 15.0 / 60.04, 1e-9);
}

TEST(HighestVoltage, JoinedBatteriesStandAtTheHighestOfThem) {
  const Studied studied = study_text(heater("12.8 V low 11.8 V high 14.0 V",
                                            "source B2 12.8 V high 14.4 V 100 Ah\nwire J1 BAT+ to B2+ 10 mm2 red 1 m\n"
                                            "wire J2 BAT- to B2- 10 mm2 black 1 m\n"));
  EXPECT_NEAR(studied.wire_ampere("W1"), 14.4 / 1.24, 1e-6);
}

TEST(HighestVoltage, BatteryRisesToWhatChargesIt) {
  const std::string charger = "source ALT alternator 14.4 V limit 50 A on BAT-\nwire WA ALT+ to BAT+ 1 mm2 red 1 m\n";
  EXPECT_NEAR(study_text(heater("12.8 V low 11.8 V", charger)).wire_ampere("W1"), 14.4 / 1.24, 1e-9);
  // a charger that stays below changes nothing
  EXPECT_NEAR(study_text(heater("12.8 V low 11.8 V high 15 V", charger)).wire_ampere("W1"), 15.0 / 1.24, 1e-9);
}

TEST(HighestVoltage, ChainSharesOutItsOwn) {
  // 6.4 V and 6.4 V, of which the second has a `high`: 6.4 + 7.2
  const Studied studied = study_text(
      "source A 6.4 V low 6 V 100 Ah\nsource B 6.4 V low 6 V high 7.2 V 100 Ah\nwire J A- to B+ 10 mm2 red 1 m\n"
      "source SUN solar 15 V limit 5 A on B-\nwire WS SUN+ to A+ 1 mm2 red 1 m\n"
      "load H 120 W resistive\nwire W1 A+ to H+ 1 mm2 red 1 m\nwire W2 H- to B- 1 mm2 black 1 m\n");
  EXPECT_NEAR(studied.wire_ampere("W1"), 13.6 / 1.242, 1e-9);
}

TEST(HighestVoltage, LimitedSourceThatHoldsHasAHighToo) {
  const Studied studied = study_text(
      "source PSU supply 12 V high 13 V limit 20 A\nload H 120 W resistive on PSU-\nwire W1 PSU+ to H+ 1 mm2 red 2 "
      "m\n");
  EXPECT_NEAR(studied.wire_ampere("W1"), 13.0 / 1.24, 1e-9);
}

TEST(HighestVoltage, LoadsBehindAConverterDrawWhatTheyDraw) {
  const Studied studied = study_text(
      "source BAT 24 V high 28 V 100 Ah\nconverter DC in 24 V out 12 V 20 A efficiency 80 %\nload H 120 W 12 V "
      "resistive\n"
      "wire W1 BAT+ to DC.in+ 10 mm2 red 1 m\nwire W2 DC.in- to BAT- 10 mm2 black 1 m\n"
      "wire W3 DC.out+ to H+ 1 mm2 red 1 m\nwire W4 H- to DC.out- 1 mm2 black 1 m\n");
  EXPECT_THAT(studied.case_names(), ElementsAre("load"));
}

TEST(HighestVoltage, FullCircuitCountsWhereItHasAResistiveLoad) {
  const std::string plan =
      "source BAT 12 V high 14 V 100 Ah\nbus PB 100 A\nwire W0 BAT+ to PB 10 mm2 red 1 m\nfuse F1, F2 20 A on PB\n"
      "load A 5 A constant-current use 50 % on BAT-\nload B 5 A constant-current use 50 % on BAT-\n"
      "load H 60 W resistive on BAT-\nwire W1 F1 to A+ 1 mm2 red 1 m\nwire W2 F2 to B+ 1 mm2 red 1 m\n"
      "wire W3 A+ to H+ 1 mm2 red 1 m\n";
  const Studied studied = study_text(plan);
  EXPECT_THAT(studied.case_names(),
              ElementsAre("load", "load F1 full", "load F2 full", "load highest", "load F1 full highest"));
  EXPECT_EQ(studied.case_of(studied.conductor("W1")), "load F1 full highest");
  EXPECT_EQ(studied.case_of(studied.conductor("W2")), "load F2 full");
}

TEST(HighestVoltage, GoesWithChargingConvertersToo) {
  // 0.6 ohm and 200 W at 14.4 V are more than at 12 V: 24 A and 13.9 A, not 20 A and 16.7 A
  const Studied studied = study_text(charged_from_the_first(
      "load H 240 W resistive\nwire WH PB to H+ 10 mm2 red 1 m\nwire WK H- to NB 10 mm2 black 1 m\n", "high 14.4 V"));
  EXPECT_THAT(studied.case_names(),
              ElementsAre("load", "charge", "load+charge", "load highest", "load+charge highest"));
  EXPECT_EQ(studied.case_of(studied.conductor("W1")), "load+charge highest");
  EXPECT_EQ(studied.case_of(studied.conductor("W2")), "load+charge");
}

TEST(HighestVoltage, WaysStandBehindIt) {
  const Studied studied = study_text(
      "source BAT 12 V high 14 V 100 Ah\nswitch S1 20 A 2 ways\nload H, K 60 W resistive on BAT-\n"
      "wire W1 BAT+ to S1.in 1 mm2 red 1 m\nwire W2 S1.out1 to H+ 1 mm2 red 1 m\nwire W3 S1.out2 to K+ 1 mm2 red 1 "
      "m\n");
  EXPECT_THAT(studied.case_names(), ElementsAre("load", "load highest", "load S1=2", "load highest S1=2"));
}

TEST(HighestVoltage, CollapseIsToldOnce) {
  const Studied studied = study_text(
      "source BAT 12 V high 14 V 100 Ah\nload L 900 W on BAT-\nload H 60 W resistive on BAT-\n"
      "wire W1 BAT+ to L+ 1 mm2 red 4 m\nwire W2 L+ to H+ 1 mm2 red 1 m\n");
  ASSERT_EQ(studied.points.collapses.size(), 1u);
  EXPECT_EQ(studied.points.collapses[0].in_case, 0u);
}

TEST(AskedFor, StarterDoesNotMaskWhatLasts) {
  const Studied studied = study_text(
      "source BAT 12 V 100 Ah\nbus PB 300 A\nwire W1 BAT+ to PB 1 mm2 red 1 m\nload L 2400 W on BAT-\n"
      "load ST 3600 W starter on BAT-\nwire W2 PB to L+ 10 mm2 red 1 m\nwire W3 PB to ST+ 10 mm2 red 1 m\n");
  const BranchId main = studied.conductor("W1");
  EXPECT_NEAR(studied.points.asked_for[main]->value.in(amperes), 300.0, 1e-8);
  EXPECT_NEAR(studied.points.lasting_asked_for[main]->value.in(amperes), 200.0, 1e-8);
  EXPECT_EQ(studied.points.cases[studied.points.lasting_asked_for[main]->in_case].name, "load");
}

}  // namespace
}  // namespace loomleaf::test
