// Final circuits, shares, and devices in normal work. Wire of 1 mm2 has 20 mohm a metre.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "loomleaf/study/fuse_curve.h"
#include "working/support/studied.h"

namespace loomleaf::test {
namespace {

using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::Not;

// A battery, a main fuse, a fuse block PB and a negative bus NB; what follows is added.
Studied with_block(const std::string& more) {
  return study_text(
      "source BAT 12 V 100 Ah\nfuse F0 100 A\nbus PB 100 A\nbus NB 100 A\nwire M1 BAT+ to F0 10 mm2 red 1 m\n"
      "wire M2 F0 to PB 10 mm2 red 1 m\nwire M3 NB to BAT- 10 mm2 black 1 m\n" +
      more);
}

std::vector<std::string> devices_of(const Studied& studied) {
  std::vector<std::string> all;
  for (const FinalCircuit& entry : studied.circuits) all.push_back(studied.plan.items[entry.device].id);
  return all;
}

const char* const two_circuits =
    "fuse F1, F2 10 A on PB\nload A, B, C 24 W constant-current\nsplice SN 3 ways\nsplice SP 3 ways\n"
    "wire W1 F1 to SP 1 mm2 red 1 m\nwire W2 SP to A+ 1 mm2 red 1 m\nwire W3 SP to B+ 1 mm2 red 1 m\n"
    "wire W4 A- to SN 1 mm2 black 1 m\nwire W5 B- to SN 1 mm2 black 1 m\nwire W6 SN to NB 1 mm2 black 1 m\n"
    "wire W7 F2 to C+ 1 mm2 red 1 m\nwire W8 C- to NB 1 mm2 black 1 m\n";

TEST(FinalCircuits, HangOnTheLastDevice) {
  const Studied studied = with_block(two_circuits);
  EXPECT_THAT(devices_of(studied), ElementsAre("F1", "F2"));
  EXPECT_THAT(studied.names(studied.circuit_of("F1")->loads), ElementsAre("A", "B"));
  EXPECT_THAT(studied.names(studied.circuit_of("F2")->loads), ElementsAre("C"));
}

TEST(FinalCircuits, ReturnMainOfOneCircuitCountsWithIt) {
  const Studied studied = with_block(two_circuits);
  EXPECT_THAT(studied.branches_of(*studied.circuit_of("F1")), ElementsAre("F1", "W1", "W2", "W3", "W4", "W5", "W6"));
  EXPECT_THAT(studied.branches_of(*studied.circuit_of("F2")), ElementsAre("F2", "W7", "W8"));
}

TEST(FinalCircuits, ReturnMainOfTwoCircuitsBelongsToNeither) {
  const Studied studied = with_block(std::string(two_circuits) +
                                     "load D 1 W\nwire W9 F2 to D+ 1 mm2 red 1 m\n"
                                     "wire W10 D- to SN 1 mm2 black 1 m\n");
  EXPECT_THAT(studied.branches_of(*studied.circuit_of("F1")), Not(Contains("W6")));
  EXPECT_THAT(studied.branches_of(*studied.circuit_of("F2")), Not(Contains("W6")));
  EXPECT_THAT(studied.branches_of(*studied.circuit_of("F2")), Contains("W10"));
}

TEST(FinalCircuits, DoubledReturnServesWhatItsRingServes) {
  const Studied studied = with_block(std::string(two_circuits) + "wire W9 SN to NB 1 mm2 black 2 m\n");
  EXPECT_THAT(studied.branches_of(*studied.circuit_of("F1")), Contains("W9"));
  EXPECT_THAT(studied.branches_of(*studied.circuit_of("F1")), Contains("W6"));
}

TEST(FinalCircuits, DeviceBeforeAnotherIsNotFinal) {
  const Studied studied = with_block(
      "fuse F1 20 A on PB\nbus SB 20 A\nfuse F2 5 A on SB\nload A 12 W on NB\nwire W1 F1 to SB 1 mm2 red 1 m\n"
      "wire W2 F2 to A+ 1 mm2 red 1 m\n");
  EXPECT_THAT(devices_of(studied), ElementsAre("F2"));
}

TEST(FinalCircuits, SpareWayMakesNoCircuit) {
  const Studied studied =
      with_block("fuse F1 10 A on PB\nfuse FX 10 A on PB\nload A 12 W on NB\nwire W1 F1 to A+ 1 mm2 red 1 m\n");
  EXPECT_THAT(devices_of(studied), ElementsAre("F1"));
}

TEST(FinalCircuits, WhatHangsBehindAConverterHangsOnItsDevice) {
  const Studied studied = with_block(
      "fuse F1 10 A on PB\nconverter DC in 12 V out 5 V 5 A\nload A 5 W 5 V\nwire W1 F1 to DC.in+ 1 mm2 red 1 m\n"
      "wire W2 DC.in- to NB 1 mm2 black 1 m\nwire W3 DC.out+ to A+ 1 mm2 red 1 m\nwire W4 A- to DC.out- 1 mm2 black 1 "
      "m\n");
  ASSERT_THAT(devices_of(studied), ElementsAre("F1"));
  EXPECT_THAT(studied.names(studied.circuits[0].loads), ElementsAre("A"));
  EXPECT_THAT(studied.names(studied.circuits[0].others), ElementsAre("DC"));
  EXPECT_THAT(studied.branches_of(studied.circuits[0]), ElementsAre("F1", "M3", "W1", "W2", "W3", "W4"));
}

TEST(FinalCircuits, ChargerHangsOnItsDevice) {
  const Studied studied = with_block(
      "fuse FS 20 A on PB\nsource SOL solar 14 V limit 15 A\nwire W1 SOL+ to FS 1 mm2 red 1 m\nwire W2 SOL- to NB 1 "
      "mm2 black 1 m\n");
  ASSERT_THAT(devices_of(studied), ElementsAre("FS"));
  EXPECT_THAT(studied.names(studied.circuits[0].others), ElementsAre("SOL"));
  EXPECT_THAT(studied.branches_of(studied.circuits[0]), ElementsAre("FS", "M3", "W1", "W2"));
}

TEST(FinalCircuits, LoadBehindAChangeoverOfTwoDevicesHangsOnBoth) {
  const Studied studied = with_block(
      "fuse F1, F2 10 A on PB\nswitch S1 10 A 2 ways\nload A 12 W on NB\nwire W1 F1 to S1.out1 1 mm2 red 1 m\n"
      "wire W2 F2 to S1.out2 1 mm2 red 1 m\nwire W3 S1.in to A+ 1 mm2 red 1 m\n");
  EXPECT_THAT(devices_of(studied), ElementsAre("F1", "F2"));
  EXPECT_THAT(studied.branches_of(*studied.circuit_of("F1")), ElementsAre("F1", "M3", "S1", "W1", "W3"));
  EXPECT_THAT(studied.branches_of(*studied.circuit_of("F2")), ElementsAre("F2", "M3", "S1", "W2", "W3"));
}

// Two circuits of 4 A, each used at half.
const char* const shared =
    "fuse F1, F2 10 A on PB\nload A, B 48 W constant-current use 50 %\n"
    "wire W1 F1 to A+ 1 mm2 red 1 m\nwire W2 A- to NB 1 mm2 black 1 m\n"
    "wire W3 F2 to B+ 1 mm2 red 1 m\nwire W4 B- to NB 1 mm2 black 1 m\n";

TEST(Share, FinalCircuitIsJudgedInFullAndWhatLiesBeforeAtUse) {
  const Studied studied = with_block(shared);
  EXPECT_THAT(studied.case_names(), ElementsAre("load", "load F1 full", "load F2 full"));
  EXPECT_NEAR(studied.wire_ampere("W1"), 4.0, 1e-9);
  EXPECT_NEAR(studied.wire_ampere("W2"), 4.0, 1e-9);
  EXPECT_EQ(studied.case_of(studied.conductor("W1")), "load F1 full");
  EXPECT_EQ(studied.case_of(studied.conductor("W3")), "load F2 full");
  EXPECT_NEAR(studied.ampere(studied.contact("F1")), 4.0, 1e-9);
  EXPECT_NEAR(studied.wire_ampere("M1"), 4.0, 1e-9);  // 2 x 4 A x 50 %
  EXPECT_NEAR(studied.wire_ampere("M3"), 4.0, 1e-9);
  EXPECT_NEAR(studied.joint_ampere("PB"), 4.0, 1e-9);
  EXPECT_NEAR(studied.source_ampere("BAT"), 4.0, 1e-9);
}

TEST(Share, DropIsThatOfTheCircuitInFull) {
  // F1 in full: 4 A over 0.04 ohm of its own, 4 + 2 A over 3 m of 2 mohm
  const Studied studied = with_block(shared);
  EXPECT_NEAR(studied.load_volt("A"), 12.0 - 4.0 * 0.04 - 6.0 * 0.006, 1e-9);
  EXPECT_NEAR(studied.load("A").current->value.in(amperes), 4.0, 1e-9);
}

TEST(Share, PowerDrawnInFullIsSolvedAnew) {
  // 48 W at half beside a circuit in full; checked by Ohm's and Kirchhoff's laws on the figures themselves
  const Studied studied = with_block(
      "fuse F1, F2 10 A on PB\nload A, B 48 W use 50 %\nwire W1 F1 to A+ 1 mm2 red 3 m\nwire W2 A- to NB 1 mm2 black 3 "
      "m\n"
      "wire W3 F2 to B+ 1 mm2 red 3 m\nwire W4 B- to NB 1 mm2 black 3 m\n");
  const double ampere = studied.wire_ampere("W1");
  EXPECT_NEAR(ampere * studied.load_volt("A"), 48.0, 1e-8);
}

TEST(Devices, CurrentCountsOnlyUpToTheRatingOnce) {
  const Studied studied = with_block(
      "fuse F1 10 A on PB\nload A 48 W constant-current\nload B 24 W constant-current continuous\nsplice SP\n"
      "wire W0 F1 to SP 1 mm2 red 1 m\nwire W1 SP to A+ 1 mm2 red 1 m\nwire W2 A- to NB 1 mm2 black 1 m\n"
      "wire W3 SP to B+ 1 mm2 red 1 m\nwire W4 B- to NB 1 mm2 black 1 m\n");
  EXPECT_NEAR(studied.ampere(studied.contact("F1")), 6.0, 1e-9);
  EXPECT_NEAR(studied.continuous_ampere("F1"), 4.0 + 1.25 * 2.0, 1e-9);
  EXPECT_NEAR(studied.continuous_ampere("F0"), 4.0 + 1.25 * 2.0, 1e-9);
}

TEST(Devices, ThreeHoursADayAreContinuous) {
  const auto with_hours = [](const std::string& hours) {
    return with_block("fuse F1 10 A on PB\nload A 48 W constant-current " + hours +
                      "\nwire W1 F1 to A+ 1 mm2 red 1 m\nwire W2 A- to NB 1 mm2 black 1 m\n");
  };
  EXPECT_NEAR(with_hours("3 h/day").continuous_ampere("F1"), 5.0, 1e-9);
  EXPECT_NEAR(with_hours("2.9 h/day").continuous_ampere("F1"), 4.0, 1e-9);
}

TEST(Devices, LoadCurrentsStayAsInTheWorkingPoint) {
  // At constant power the current is that of the working point, times 1.25, not that of 1.25 times the power
  const Studied studied = with_block(
      "fuse F1 10 A on PB\nload A 48 W continuous\nwire W1 F1 to A+ 1 mm2 red 5 m\nwire W2 A- to NB 1 mm2 black 5 m\n");
  EXPECT_NEAR(studied.continuous_ampere("F1"), 1.25 * studied.wire_ampere("W1"), 1e-9);
}

TEST(Devices, ChargingIsContinuous) {
  const Studied studied = with_block(
      "fuse FS 20 A on PB\nsource SOL solar 14 V limit 10 A\nwire W1 SOL+ to FS 1 mm2 red 1 m\nwire W2 SOL- to NB 1 "
      "mm2 black 1 m\n");
  EXPECT_NEAR(studied.ampere(studied.contact("FS")), -10.0, 1e-9);
  EXPECT_NEAR(studied.continuous_ampere("FS"), 12.5, 1e-9);
  EXPECT_NEAR(studied.continuous_ampere("F0"), 12.5, 1e-9);
}

TEST(Devices, ConverterInputRisesWithItsContinuousOutput) {
  const Studied studied = with_block(
      "fuse F1 10 A on PB\nconverter DC in 12 V out 5 V 5 A\nload A 10 W 5 V constant-current continuous\n"
      "wire W1 F1 to DC.in+ 1 mm2 red 1 m\nwire W2 DC.in- to NB 1 mm2 black 1 m\n"
      "wire W3 DC.out+ to A+ 1 mm2 red 1 m\nwire W4 A- to DC.out- 1 mm2 black 1 m\n");
  EXPECT_NEAR(studied.continuous_ampere("F1"), 1.25 * studied.wire_ampere("W1"), 1e-9);
}

Studied with_surge(const std::string& family, const std::string& surge) {
  return with_block("fuse F1 10 A " + family + " on PB\nload A 60 W constant-current surge " + surge +
                    "\nwire W1 F1 to A+ 1 mm2 red 1 m\nwire W2 A- to NB 1 mm2 black 1 m\n");
}

TEST(Devices, SurgeWithinTheCurveIsRiddenThrough) {
  // 5 A x 4 = 20 A, twice the rating: the device opens in no less than 1 s
  EXPECT_THAT(with_surge("slow", "4x 0.9 s").points.surges[with_surge("slow", "4x 0.9 s").item("F1")], IsEmpty());
}

TEST(Devices, SurgeBeyondTheCurveIsNamed) {
  const Studied studied = with_surge("slow", "4x 1.1 s");
  EXPECT_THAT(studied.names(studied.points.surges[studied.item("F1")]), ElementsAre("A"));
  EXPECT_THAT(studied.points.surges[studied.item("F0")], IsEmpty());
}

TEST(Devices, WithoutACurveASurgeAboveTheRatingIsNamed) {
  const Studied studied = with_surge("quick", "8x 5 s");
  EXPECT_THAT(studied.names(studied.points.surges[studied.item("F1")]), ElementsAre("A"));
  EXPECT_THAT(with_surge("quick", "1.9x 5 s").points.surges[studied.item("F1")], IsEmpty());  // 9.5 A of 10 A
}

TEST(FuseCurve, IsStraightOnLogarithmicPaper) {
  // 1 s at twice, 0.1 s at four times: at 2 x sqrt(2) times the middle, 1 x sqrt(0.1) s
  const Stock stock = round_stock();
  const FuseFamily& family = *stock.find_family("slow");
  const auto opens = opens_no_sooner(family, amperes(10), amperes(20.0 * std::sqrt(2.0)));
  ASSERT_TRUE(opens);
  EXPECT_NEAR(opens->in(seconds), std::sqrt(0.1), 1e-12);
}

TEST(FuseCurve, KeepsItsHeatBeyondTheLastGate) {
  // At eight times, twice the last gate's four: a quarter of its 0.1 s
  const Stock stock = round_stock();
  EXPECT_NEAR(opens_no_sooner(*stock.find_family("slow"), amperes(10), amperes(80))->in(seconds), 0.025, 1e-12);
}

TEST(FuseCurve, NeverOpensUpToItsRating) {
  const Stock stock = round_stock();
  const FuseFamily& family = *stock.find_family("slow");
  EXPECT_FALSE(opens_no_sooner(family, amperes(10), amperes(10)));
  EXPECT_EQ(rides_through(family, amperes(10), amperes(10), hours(1000)), true);
}

}  // namespace
}  // namespace loomleaf::test
