// Working points worked out by hand; the arithmetic stands beside each. Wire of 1 mm2 has 20 mohm a metre.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "working/support/studied.h"

namespace loomleaf::test {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

// 12 V behind 5 m of 1 mm2 out and 5 m back: 0.2 ohm.
Studied with_load(const std::string& load) {
  return study_text("source BAT 12 V 100 Ah\n" + load +
                    "\n"
                    "wire W1 BAT+ to L+ 1 mm2 red 5 m\n"
                    "wire W2 L- to BAT- 1 mm2 black 5 m\n");
}

TEST(WorkingPoint, DropCountsOutAndBack) {
  // 60 W at 12 V rated is 5 A; 5 A x 0.2 ohm = 1 V of 12 V
  const Studied studied = with_load("load L 60 W constant-current");
  EXPECT_NEAR(studied.wire_ampere("W1"), 5.0, 1e-9);
  EXPECT_NEAR(studied.load_volt("L"), 11.0, 1e-9);
  EXPECT_NEAR(studied.load("L").drop->value, 1.0 / 12.0, 1e-9);
  EXPECT_EQ(studied.load("L").supply_voltage, volts(12));
}

TEST(WorkingPoint, CurrentIsPositiveFromFromToTo) {
  const Studied studied = study_text(
      "source BAT 12 V 100 Ah\nload L 60 W constant-current\n"
      "wire W1 L+ to BAT+ 1 mm2 red 5 m\nwire W2 L- to BAT- 1 mm2 black 5 m\n");
  EXPECT_NEAR(studied.wire_ampere("W1"), -5.0, 1e-9);
  EXPECT_NEAR(studied.wire_ampere("W2"), 5.0, 1e-9);
}

TEST(WorkingPoint, ResistiveLoadDrawsLessAtLessVoltage) {
  // R = 12^2 / 60 = 2.4 ohm: 12 / 2.6 A
  EXPECT_NEAR(with_load("load L 60 W resistive").wire_ampere("W1"), 12.0 / 2.6, 1e-9);
}

TEST(WorkingPoint, ConstantPowerDrawsMoreAtLessVoltage) {
  // V (12 - V) / 0.2 = 60: V = 6 + sqrt(36 - 12)
  const double volt = 6.0 + std::sqrt(24.0);
  for (const char* load : {"load L 60 W", "load L 5 A", "load L 60 W motor"}) {
    const Studied studied = with_load(load);
    EXPECT_NEAR(studied.load_volt("L"), volt, 1e-9) << load;
    EXPECT_NEAR(studied.wire_ampere("W1"), 60.0 / volt, 1e-9) << load;
  }
}

TEST(WorkingPoint, EfficiencyDividesWhatALoadGives) {
  // 48 W given at 80 % are 60 W taken
  EXPECT_NEAR(with_load("load L 48 W constant-current efficiency 80 %").wire_ampere("W1"), 5.0, 1e-9);
}

TEST(WorkingPoint, RatedVoltageIsTheLoadsOwn) {
  // 60 W at 6 V rated is 10 A
  EXPECT_NEAR(with_load("load L 60 W 6 V constant-current").wire_ampere("W1"), 10.0, 1e-9);
}

TEST(WorkingPoint, BatteryHoldsItsLowVoltage) {
  const Studied studied = study_text(
      "source BAT 12.8 V low 12 V 100 Ah\nload L 60 W constant-current\n"
      "wire W1 BAT+ to L+ 1 mm2 red 5 m\nwire W2 L- to BAT- 1 mm2 black 5 m\n");
  EXPECT_NEAR(studied.load_volt("L"), 11.0, 1e-9);
  EXPECT_EQ(studied.load("L").supply_voltage, volts(12));
}

TEST(WorkingPoint, VoltagesStandAgainstTheLowestTerminalOfTheSupply) {
  const Studied studied = with_load("load L 60 W constant-current");
  const Solution& first = *studied.points.first_load_case;
  const TwoPole& source = studied.circuit.sources[0];
  const TwoPole& load = studied.circuit.loads[0];
  EXPECT_NEAR(first.node_voltage[source.minus], 0.0, 1e-12);
  EXPECT_NEAR(first.node_voltage[source.plus], 12.0, 1e-12);
  EXPECT_NEAR(first.node_voltage[load.plus], 11.5, 1e-9);
  EXPECT_NEAR(first.node_voltage[load.minus], 0.5, 1e-9);
}

TEST(WorkingPoint, PowerJustBelowTheLimitSolves) {
  // The limit is V^2 / 4R = 12.8^2 / (4 x 0.25) = 163.84 W; 12.5 m of 1 mm2 are 0.25 ohm
  const std::string wires =
      "wire W1 BAT+ to L+ 1 mm2 red 12.5 m\nload TAP 0.001 W on BAT-\nwire W2 BAT+ to TAP+ 1 mm2 red 1 m\n";
  const Studied solved = study_text("source BAT 12.8 V 100 Ah\nload L 163.83 W on BAT-\n" + wires);
  EXPECT_THAT(solved.points.collapses, IsEmpty());
  EXPECT_NEAR(solved.load_volt("L"), 6.4 + std::sqrt(40.96 - 0.25 * 163.83), 1e-6);
}

TEST(WorkingPoint, NothingIsAskedForApartWhereThereIsASolution) {
  const Studied studied =
      study_text("source BAT 12.8 V 100 Ah\nload L 163.83 W on BAT-\nwire W1 BAT+ to L+ 1 mm2 red 12.5 m\n");
  EXPECT_TRUE(std::isnan(studied.asked_ampere("W1")));
}

TEST(WorkingPoint, PowerJustAboveTheLimitHasNoFigures) {
  const Studied studied =
      study_text("source BAT 12.8 V 100 Ah\nload L 163.85 W on BAT-\nwire W1 BAT+ to L+ 1 mm2 red 12.5 m\n");
  ASSERT_EQ(studied.points.collapses.size(), 1u);
  EXPECT_EQ(studied.points.collapses[0].gives_way_first, studied.item("L"));
  EXPECT_THAT(studied.names(studied.points.collapses[0].loads), ElementsAre("L"));
  EXPECT_FALSE(studied.load("L").voltage);
  EXPECT_FALSE(studied.load("L").current);
  EXPECT_TRUE(std::isnan(studied.wire_ampere("W1")));
  EXPECT_NEAR(studied.asked_ampere("W1"), 163.85 / 12.0, 1e-9);
  EXPECT_FALSE(studied.points.branches[studied.conductor("W1")]);
}

TEST(WorkingPoint, ParallelFeedsShareByTheirLengths) {
  const Studied studied = study_text(
      "source BAT 12 V 100 Ah\nload L 48 W constant-current on BAT-\n"
      "wire W1 BAT+ to L+ 1 mm2 red 1 m\nwire W2 BAT+ to L+ 1 mm2 red 3 m\n");
  EXPECT_NEAR(studied.wire_ampere("W1"), 3.0, 1e-9);
  EXPECT_NEAR(studied.wire_ampere("W2"), 1.0, 1e-9);
}

TEST(WorkingPoint, MotorRunsEitherWayRound) {
  const Studied studied = study_text(
      "source BAT 12 V 100 Ah\nload M 60 W motor\nload E 60 W\n"
      "wire W1 M- to BAT+ 1 mm2 red 5 m\nwire W2 M+ to BAT- 1 mm2 black 5 m\n"
      "wire W3 E- to BAT+ 1 mm2 red 5 m\nwire W4 E+ to BAT- 1 mm2 black 5 m\n");
  EXPECT_NEAR(studied.load_volt("M"), 6.0 + std::sqrt(24.0), 1e-9);
  EXPECT_NEAR(studied.wire_ampere("W3"), 0.0, 1e-12);  // an electronic load does not
  EXPECT_FALSE(studied.load("E").supplied);
  EXPECT_TRUE(studied.load("E").reversed);
  EXPECT_FALSE(studied.load("M").reversed);
  EXPECT_THAT(studied.names(studied.points.reversed), ElementsAre("E"));
}

TEST(WorkingPoint, LoadsInSeriesDrawNothingAndAreBothReported) {
  const Studied studied = study_text(
      "source BAT 12 V 100 Ah\nload A, B 10 W\nload C 10 W\n"
      "wire W1 BAT+ to A+ 1 mm2 red 1 m\nwire W2 A- to B+ 1 mm2 red 1 m\nwire W3 B- to BAT- 1 mm2 black 1 m\n"
      "wire W4 BAT+ to C+ 1 mm2 red 1 m\n");
  EXPECT_THAT(studied.names(studied.points.series_loads), ElementsAre("A", "B"));
  EXPECT_NEAR(studied.wire_ampere("W2"), 0.0, 1e-12);
}

TEST(WorkingPoint, ReachSaysWhatIsLacking) {
  const Studied studied = study_text(
      "source BAT 12 V 100 Ah\nload FEED, BACK, NONE 10 W\n"
      "wire W1 BAT+ to FEED+ 1 mm2 red 1 m\nwire W2 BACK- to BAT- 1 mm2 black 1 m\n");
  EXPECT_TRUE(studied.load("FEED").has_feed);
  EXPECT_FALSE(studied.load("FEED").has_return);
  EXPECT_FALSE(studied.load("BACK").has_feed);
  EXPECT_TRUE(studied.load("BACK").has_return);
  EXPECT_FALSE(studied.load("NONE").has_feed);
  EXPECT_FALSE(studied.load("NONE").has_return);
  EXPECT_NEAR(studied.wire_ampere("W1"), 0.0, 1e-12);
}

TEST(WorkingPoint, SpliceCarriesHalfTheSumOfWhatMeetsInIt) {
  const Studied studied = study_text(
      "source BAT 12 V 100 Ah\nsplice SP 3 ways\nload A 24 W constant-current on BAT-\nload B 36 W constant-current on "
      "BAT-\n"
      "wire W1 BAT+ to SP 1 mm2 red 1 m\nwire W2 SP to A+ 1 mm2 red 1 m\nwire W3 SP to B+ 1 mm2 red 1 m\n");
  EXPECT_NEAR(studied.joint_ampere("SP"), 5.0, 1e-9);  // (5 + 2 + 3) / 2
}

TEST(WorkingPoint, LoadOnABusCountsInTheBus) {
  const Studied studied = study_text(
      "source BAT 12 V 100 Ah\nbus NB 100 A\nload A 24 W constant-current on NB\n"
      "wire W1 BAT+ to A+ 1 mm2 red 1 m\nwire W2 NB to BAT- 1 mm2 black 1 m\n");
  EXPECT_NEAR(studied.joint_ampere("NB"), 2.0, 1e-9);  // (2 + 2) / 2
}

TEST(WorkingPoint, SameInputGivesTheSameFigures) {
  const Studied one = with_load("load L 60 W"), other = with_load("load L 60 W");
  EXPECT_EQ(one.wire_ampere("W1"), other.wire_ampere("W1"));
}

}  // namespace
}  // namespace loomleaf::test
