// Supplies in the working point: chains, batteries side by side, chargers, converters, shorts. Worked out by hand.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "working/support/studied.h"

namespace loomleaf::test {
namespace {

using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::Not;

TEST(Supplies, SeriesBatteriesAddTheirLowVoltages) {
  // 11.5 + 12 V behind 10 m of 1 mm2 (0.2 ohm) at 5 A, and the link's 1 m of 2 mm2 (0.01 ohm)
  const Studied studied = study_text(
      "source B1 12.8 V low 11.5 V 100 Ah\nsource B2 12.8 V low 12 V 100 Ah\nload L 5 A 24 V constant-current on B1-\n"
      "wire WL B1+ to B2- 2 mm2 red 1 m\nwire W1 B2+ to L+ 1 mm2 red 10 m\n");
  EXPECT_NEAR(studied.load_volt("L"), 23.5 - 5.0 * 0.21, 1e-9);
  EXPECT_EQ(studied.load("L").supply_voltage, volts(23.5));
  EXPECT_NEAR(studied.source_ampere("B1"), 5.0, 1e-9);
  EXPECT_NEAR(studied.source_ampere("B2"), 5.0, 1e-9);
}

TEST(Supplies, JoinedBatteriesStandAtTheLowest) {
  const Studied studied = study_text(
      "source B1 12.8 V low 12.2 V 100 Ah\nsource B2 12.8 V low 11.8 V 100 Ah\nbus PB 100 A\nload L 4 A "
      "constant-current\n"
      "wire W1 B1+ to PB 1 mm2 red 1 m\nwire W2 B2+ to PB 1 mm2 red 1 m\nwire W3 B1- to B2- 1 mm2 black 1 m\n"
      "wire W4 PB to L+ 1 mm2 red 1 m\nwire W5 L- to B1- 1 mm2 black 1 m\n");
  EXPECT_EQ(studied.load("L").supply_voltage, volts(11.8));
  // From B2 the way has 1 m more, in the return: over 20 and 40 mohm 4 A part as 2 to 1
  EXPECT_NEAR(studied.source_ampere("B1"), 8.0 / 3.0, 1e-9);
  EXPECT_NEAR(studied.source_ampere("B2"), 4.0 / 3.0, 1e-9);
}

TEST(Supplies, ChainJoinedToALowerOneSharesOutInProportion) {
  // The chain 6 + 12 V beside 16.2 V stands at 16.2 V: 5.4 + 10.8
  const Studied studied = study_text(
      "source B1 6 V 100 Ah\nsource B2 12 V 100 Ah\nsource B3 18 V low 16.2 V 100 Ah\nload L 1 A 18 V constant-current "
      "on B1-\n"
      "load TAP 1 A 6 V constant-current on B1-\n"
      "wire WL B1+ to B2- 1 mm2 red 1 m\nwire W1 B2+ to B3+ 1 mm2 red 1 m\nwire W2 B1- to B3- 1 mm2 black 1 m\n"
      "wire W3 B2+ to L+ 1 mm2 red 1 m\nwire W4 B1+ to TAP+ 1 mm2 red 1 m\n");
  EXPECT_NEAR(studied.load("TAP").supply_voltage->in(volts), 5.4, 1e-9);
  EXPECT_NEAR(studied.load_volt("TAP"), 5.4 - 0.02, 1e-9);
  EXPECT_NEAR(studied.load("L").supply_voltage->in(volts), 16.2, 1e-9);
}

const char* const solar_plan =
    "source BAT 12 V 100 Ah\nsource SOL solar 14 V limit 15 A\nbus PB 100 A\nload L 4 A constant-current on BAT-\n"
    "wire W1 BAT+ to PB 1 mm2 red 1 m\nwire W2 SOL+ to PB 1 mm2 red 1 m\nwire W3 SOL- to BAT- 1 mm2 black 1 m\n"
    "wire W4 PB to L+ 1 mm2 red 1 m\n";

TEST(Supplies, LimitedSourceIsOffUnderLoadAndPushesItsLimitInCharge) {
  const Studied studied = study_text(solar_plan);
  EXPECT_THAT(studied.case_names(), ElementsAre("load", "charge"));
  EXPECT_NEAR(studied.wire_ampere("W2"), 15.0, 1e-9);
  EXPECT_NEAR(studied.wire_ampere("W1"), -15.0, 1e-9);  // into the battery: more than the 4 A out of it
  EXPECT_EQ(studied.case_of(studied.conductor("W1")), "charge");
  EXPECT_NEAR(studied.wire_ampere("W4"), 4.0, 1e-9);
  EXPECT_NEAR(studied.source_ampere("BAT"), 4.0, 1e-9);  // delivered
  EXPECT_NEAR(studied.source_ampere("SOL"), 15.0, 1e-9);
}

TEST(Supplies, LimitedSourceHoldsWhatHasNoBattery) {
  const Studied studied = study_text(
      "source PSU supply 13 V limit 10 A\nsource SPARE supply 12.5 V limit 10 A\nload L 4 A constant-current on PSU-\n"
      "wire W1 PSU+ to L+ 1 mm2 red 1 m\nwire W2 SPARE+ to L+ 1 mm2 red 1 m\nwire W3 SPARE- to PSU- 1 mm2 black 1 m\n");
  EXPECT_THAT(studied.case_names(), ElementsAre("load"));
  EXPECT_EQ(studied.load("L").supply_voltage, volts(12.5));  // the lower of the two
  EXPECT_NEAR(studied.wire_ampere("W1") + studied.wire_ampere("W2"), 4.0, 1e-9);
}

TEST(Supplies, ConverterDrawsOutputPowerOverEfficiency) {
  // Output 12 V x 5 A at 80 %: 75 W from 24 V behind 10 m of 1 mm2 (0.2 ohm): V (24 - V) / 0.2 = 75
  const Studied studied = study_text(
      "source BAT 24 V 100 Ah\nconverter DC in 24 V out 12 V 10 A efficiency 80 %\nload L 5 A 12 V constant-current\n"
      "wire W1 BAT+ to DC.in+ 1 mm2 red 10 m\nwire W2 DC.in- to BAT- 10 mm2 black 1 m\n"
      "wire W3 DC.out+ to L+ 1 mm2 red 1 m\nwire W4 L- to DC.out- 1 mm2 black 1 m\n");
  const double ohm = 0.202, volt = 12.0 + std::sqrt(144.0 - 75.0 * ohm);
  EXPECT_NEAR(studied.wire_ampere("W1"), 75.0 / volt, 1e-9);
  EXPECT_NEAR(studied.source_ampere("DC"), 5.0, 1e-9);
  EXPECT_EQ(studied.load("L").supply_voltage, volts(12));
  EXPECT_NEAR(studied.load_volt("L"), 12.0 - 5.0 * 0.04, 1e-9);
}

TEST(Supplies, ConverterWithoutEfficiencyIsTakenAtEightyFivePercent) {
  const Studied studied = study_text(
      "source BAT 24 V 100 Ah\nconverter DC in 24 V out 12 V 10 A\nload L 5.1 A 12 V constant-current\n"
      "wire W1 BAT+ to DC.in+ 10 mm2 red 1 m\nwire W2 DC.in- to BAT- 10 mm2 black 1 m\n"
      "wire W3 DC.out+ to L+ 1 mm2 red 1 m\nwire W4 L- to DC.out- 1 mm2 black 1 m\n");
  const double volt = 12.0 + std::sqrt(144.0 - 72.0 * 0.004);  // 12 V x 5.1 A / 0.85 = 72 W
  EXPECT_NEAR(studied.wire_ampere("W1"), 72.0 / volt, 1e-9);
}

TEST(Supplies, ConverterWithoutInputLeavesItsOutputDead) {
  const Studied studied = study_text(
      "source BAT 24 V 100 Ah\nload X 1 A 24 V on BAT-\nwire WX BAT+ to X+ 1 mm2 red 1 m\n"
      "converter DC in 24 V out 12 V 10 A\nload L 5 A 12 V\n"
      "wire W2 DC.in- to BAT- 10 mm2 black 1 m\n"
      "wire W3 DC.out+ to L+ 1 mm2 red 1 m\nwire W4 L- to DC.out- 1 mm2 black 1 m\n");
  EXPECT_FALSE(studied.load("L").supplied);
  EXPECT_NEAR(studied.wire_ampere("W3"), 0.0, 1e-12);
}

TEST(Supplies, ConverterAtABatteryChargesIt) {
  // 14 V x 10 A / 0.7 = 200 W from 12 V behind 1 m of 10 mm2 (2 mohm): only in charge
  const Studied studied = study_text(
      "source ENG 12 V 80 Ah\nsource HOUSE 12 V 100 Ah\nconverter DC in 12 V out 14 V 10 A efficiency 70 %\n"
      "load L 4 A constant-current on HOUSE-\nwire WL HOUSE+ to L+ 1 mm2 red 1 m\n"
      "wire W1 ENG+ to DC.in+ 10 mm2 red 1 m\nwire W2 DC.in- to ENG- 10 mm2 black 1 m\n"
      "wire W3 DC.out+ to HOUSE+ 1 mm2 red 1 m\nwire W4 HOUSE- to DC.out- 1 mm2 black 1 m\n");
  const double ohm = 0.004, volt = 6.0 + std::sqrt(36.0 - 200.0 * ohm);
  EXPECT_EQ(studied.case_of(studied.conductor("W1")), "charge");
  EXPECT_NEAR(studied.wire_ampere("W1"), 200.0 / volt, 1e-9);
  EXPECT_NEAR(studied.wire_ampere("W3"), 10.0, 1e-9);
  EXPECT_NEAR(studied.source_ampere("HOUSE"), 4.0, 1e-9);
  EXPECT_NEAR(studied.points.first_load_case->converter_in_current[0], 0.0, 1e-12);
}

TEST(Supplies, StarterRunsAlone) {
  const Studied studied = study_text(
      "source BAT 12 V 100 Ah\nload ST 1200 W starter on BAT-\nload L 4 A constant-current on BAT-\nbus PB 300 A\n"
      "wire W1 BAT+ to PB 10 mm2 red 1 m\nwire W2 PB to ST+ 10 mm2 red 1 m\nwire W3 PB to L+ 1 mm2 red 1 m\n");
  EXPECT_THAT(studied.case_names(), ElementsAre("load", "starter ST"));
  const double volt = 6.0 + std::sqrt(36.0 - 1200.0 * 0.004);
  EXPECT_NEAR(studied.wire_ampere("W1"), 1200.0 / volt, 1e-8);
  EXPECT_NEAR(studied.load_volt("ST"), volt, 1e-9);
  EXPECT_NEAR(studied.wire_ampere("W3"), 4.0, 1e-9);
  EXPECT_NEAR(studied.load_volt("L"), 12.0 - 4.0 * 0.022, 1e-9);  // not what it would be while the starter runs
}

TEST(Supplies, ChangeoverTakesTheWorstOfItsWays) {
  // 1 m of 1 mm2 from the first battery, 5 m from the second
  const Studied studied = study_text(
      "source B1 12 V 100 Ah\nsource B2 12 V 100 Ah\nswitch S1 100 A 2 ways\nload L 5 A constant-current on B1-\n"
      "wire W1 B1+ to S1.out1 1 mm2 red 1 m\nwire W2 B2+ to S1.out2 1 mm2 red 5 m\nwire W3 B2- to B1- 10 mm2 black 5 "
      "m\n"
      "wire W4 S1.in to L+ 1 mm2 red 1 m\n");
  EXPECT_THAT(studied.case_names(), ElementsAre("load", "load S1=2"));
  EXPECT_NEAR(studied.wire_ampere("W1"), 5.0, 1e-9);
  EXPECT_NEAR(studied.wire_ampere("W2"), 5.0, 1e-9);
  EXPECT_NEAR(studied.load_volt("L"), 12.0 - 5.0 * (0.1 + 0.01 + 0.02), 1e-9);
  EXPECT_EQ(studied.points.cases[studied.load("L").drop->in_case].name, "load S1=2");
}

TEST(Supplies, DeadShortLeavesItsPartWithoutFigures) {
  const Studied studied = study_text(
      "source B1 12 V 100 Ah\nsource B2 12 V 100 Ah\nload L1 1 A constant-current on B1-\nload L2 1 A constant-current "
      "on B2-\n"
      "wire W1 B1+ to L1+ 1 mm2 red 1 m\nwire W2 B1+ to B1- 1 mm2 red 1 m\nwire W3 B2+ to L2+ 1 mm2 red 1 m\n");
  EXPECT_FALSE(studied.points.branches[studied.conductor("W1")]);
  EXPECT_FALSE(studied.load("L1").voltage);
  EXPECT_FALSE(studied.load("L1").current);
  EXPECT_NEAR(studied.wire_ampere("W3"), 1.0, 1e-9);
}

TEST(Supplies, DeadShortInOneWayLeavesTheOthersFigures) {
  const Studied studied = study_text(
      "source BAT 12 V 100 Ah\nswitch S1 10 A 2 ways\nload L 1 A constant-current on BAT-\n"
      "wire W1 BAT+ to S1.in 1 mm2 red 1 m\nwire W2 S1.out1 to L+ 1 mm2 red 1 m\nwire W3 S1.out2 to BAT- 1 mm2 black 1 "
      "m\n");
  EXPECT_NEAR(studied.wire_ampere("W1"), 1.0, 1e-9);
  EXPECT_EQ(studied.case_of(studied.conductor("W1")), "load");
  EXPECT_NEAR(studied.load_volt("L"), 12.0 - 0.04, 1e-9);
}

TEST(Supplies, CoilDrawsItsPowerAtTheSupplysVoltage) {
  // 2.4 W at 12 V are 60 ohm, behind 0.04 ohm
  const Studied studied = study_text(
      "source BAT 12 V 100 Ah\nrelay R1 contact 30 A coil 2.4 W\n"
      "wire W1 BAT+ to R1.86 1 mm2 red 1 m\nwire W2 R1.85 to BAT- 1 mm2 black 1 m\n");
  EXPECT_NEAR(studied.wire_ampere("W1"), 12.0 / 60.04, 1e-9);
}

}  // namespace
}  // namespace loomleaf::test
