// Short circuits right behind a device, worked out by hand; the arithmetic stands beside each.
#include <gmock/gmock.h>

#include <cmath>

#include "loomleaf/study/short_circuit.h"
#include "short_circuit/support/shorted.h"

namespace loomleaf::test {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

TEST(Prospective, IsTheNominalVoltageOverTheWayOutAlone) {
  const Shorted plan(one_circuit);
  // neither F1's own resistance nor the return counts
  EXPECT_NEAR(plan.prospective("F1"), 12.8 / (battery_ohm + plan.ohm("W1")), 1e-6);
}

TEST(Prospective, OfADeviceOnTheTerminalIsWhatTheBatteryGives) {
  const Shorted plan(R"(
system 12 V rules rv
source BAT 12.8 V low 12.0 V 100 Ah short-circuit 2 kA
fuse F1 10 A blade on BAT+
load X 24 W
wire W2 F1 to X+ 12 AWG red 3 m
wire W3 X- to BAT- 12 AWG black 3 m
)");
  EXPECT_NEAR(plan.prospective("F1"), 2000.0, 1e-3);
}

TEST(Prospective, InternalResistanceCountsLikeAStatedShortCircuit) {
  std::string text = one_circuit;
  text.replace(text.find("short-circuit 2 kA"), 18, "internal 6.4 mohm");
  EXPECT_NEAR(Shorted(text).prospective("F1"), Shorted(one_circuit).prospective("F1"), 1e-9);
}

// A published way to measure it (seen): R = (open-circuit voltage - loaded voltage) / current, I = open-circuit voltage
// / R. 12.8 V that fall to 12.3 V at 100 A are 5 mohm and 2560 A.
TEST(Prospective, FollowsFromAMeasuredInternalResistance) {
  std::string text = one_circuit;
  text.replace(text.find("short-circuit 2 kA"), 18, "internal 5 mohm");
  text.replace(text.find("12 AWG red 400 mm"), 17, "4/0 AWG red 1 mm");
  EXPECT_NEAR(Shorted(text).prospective("F1"), 2560.0, 1.0);
}

std::string two_batteries(const std::string& joined) {
  return R"(
system 12 V, 24 V rules rv
source A 12.8 V low 12.0 V 100 Ah short-circuit 1 kA
source B 12.8 V low 12.0 V 100 Ah short-circuit 1 kA
fuse F1 30 A class-t on A+
load X 24 W 24 V
wire W2 F1 to X+ 12 AWG red 3 m
wire W3 X- to B- 12 AWG black 3 m
)" + joined;
}

TEST(Prospective, OfBatteriesSideBySideAdds) {
  const Shorted plan(two_batteries("wire P1 A+ to B+ 4/0 AWG red 1 mm\nwire P2 A- to B- 4/0 AWG black 1 mm\n"));
  EXPECT_NEAR(plan.prospective("F1"), 2000.0, 0.5);
}

TEST(Prospective, OfBatteriesInARowIsThatOfOne) {
  const Shorted plan(two_batteries("wire P1 A- to B+ 4/0 AWG black 1 mm\n"));
  EXPECT_NEAR(plan.prospective("F1"), 1000.0, 0.5);
}

TEST(Prospective, IsTheWorseOfTheTwoSides) {
  // A short on the charger's side of F1 is fed by the battery.
  const Shorted plan(R"(
system 12 V rules rv
source BAT 12.8 V low 12.0 V 100 Ah short-circuit 2 kA
source SUN solar 14 V limit 20 A
fuse F1 25 A blade on BAT+
wire W1 SUN+ to F1 10 AWG red 1 m
wire W2 SUN- to BAT- 10 AWG black 1 m
)");
  EXPECT_NEAR(plan.prospective("F1"), 2000.0, 1e-3);
}

TEST(Prospective, TakesWhatALimitedSourceGivesOnTop) {
  const Shorted plan(R"(
system 12 V rules rv
source BAT 12.8 V low 12.0 V 100 Ah short-circuit 2 kA
source SUN solar 14 V limit 20 A
fuse F1 25 A blade on BAT+
load X 24 W
wire W1 F1 to X+ 10 AWG red 1 m
wire W2 X- to BAT- 10 AWG black 1 m
wire W3 SUN+ to BAT+ 10 AWG red 1 m
wire W4 SUN- to BAT- 10 AWG black 1 m
)");
  EXPECT_NEAR(plan.prospective("F1"), 2020.0, 1e-3);
}

// A supply whose minus is its own, or joined to nothing, gives its limit too, not what 14 V would drive.
std::string supply_on_the_plus_alone(const std::string& minus) {
  return R"(
system 12 V rules rv
source BAT 12.8 V low 12.0 V 100 Ah short-circuit 2 kA
source SUP supply 14 V limit 20 A
bus PB
fuse FB 60 A class-t on BAT+
fuse FS 25 A blade on SUP+
fuse F1 25 A blade on PB
load X 24 W
wire W0 FB to PB 4/0 AWG red 1 mm
wire W1 F1 to X+ 10 AWG red 1 m
wire W2 X- to BAT- 10 AWG black 1 m
wire W3 FS to PB 4/0 AWG red 1 mm
)" + minus;
}

TEST(Prospective, OfASupplyWithAMinusOfItsOwnIsItsLimitOnTop) {
  const std::string gauge = "fuse F2 5 A blade on PB\nload G 5 W\nwire W4 F2 to G+ 12 AWG red 1 m\n";
  for (const std::string& minus : {std::string(), gauge + "wire W5 G- to SUP- 12 AWG black 1 m\n"}) {
    const Shorted plan(supply_on_the_plus_alone(minus));
    const double by_battery = 12.8 / (battery_ohm + plan.ohm("FB") + plan.ohm("W0"));
    EXPECT_NEAR(plan.prospective("F1"), by_battery + 20.0, 0.1) << minus;
    EXPECT_NEAR(plan.prospective("FB"), 2000.0, 1e-3) << minus;
  }
}

// The battery's + may meet the supply's - there; the supply itself adds its limit at most.
TEST(Prospective, InTheReturnOfASupplyBesideABatteryIsNoMoreThanBothGive) {
  const Shorted plan(R"(
system 12 V rules rv
source BAT 12.8 V low 12.0 V 100 Ah short-circuit 2 kA
source SUP supply 14 V limit 20 A
fuse F1 25 A blade on SUP+
fuse F2 25 A blade on SUP-
load X 24 W
wire W1 F1 to X+ 10 AWG red 1 m
wire W2 X- to F2 10 AWG black 1 m
wire W3 X- to BAT- 10 AWG black 1 m
load Y 24 W
fuse F3 10 A blade on BAT+
wire W4 F3 to Y+ 10 AWG red 1 m
wire W5 Y- to BAT- 10 AWG black 1 m
)");
  EXPECT_NEAR(plan.prospective("F2"), 12.8 / (battery_ohm + plan.ohm("W2") + plan.ohm("W3")), 20.0);
}

TEST(Prospective, OfABatteryOnTopOfASupplyIsWhatTheLesserOfThemGives) {
  const Shorted plan(R"(
system 24 V rules rv
source SUP supply 12.8 V limit 20 A
source BAT 12.8 V low 12.0 V 100 Ah short-circuit 2 kA
wire L1 SUP+ to BAT- 6 AWG red 0.1 m
fuse F1 25 A blade on BAT+
load X 24 W
wire W1 F1 to X+ 10 AWG red 1 m
wire W2 X- to SUP- 10 AWG black 1 m
)");
  EXPECT_NEAR(plan.prospective("F1"), 20.0, 0.5);
  EXPECT_LE(plan.at_far_end("W1"), 20.0);
}

TEST(Prospective, WithoutABatteryIsTheLimits) {
  const Shorted plan(R"(
system 12 V rules rv
source SUP supply 13.8 V limit 20 A
fuse F1 10 A blade
load X 24 W
wire W1 SUP+ to F1 12 AWG red 400 mm
wire W2 F1 to X+ 12 AWG red 3 m
wire W3 X- to SUP- 12 AWG black 3 m
)");
  EXPECT_NEAR(plan.prospective("F1"), 20.0, 1e-9);
  EXPECT_NEAR(plan.at_far_end("W2"), 20.0, 1e-9);
}

TEST(Prospective, InTheReturnTakesTheFeedAsZeroOhm) {
  const Shorted plan(R"(
system 12 V rules rv
source BAT 12.8 V low 12.0 V 100 Ah short-circuit 2 kA
fuse F1 10 A blade
fuse F2 10 A blade
load X 24 W
wire W1 BAT+ to F1 12 AWG red 400 mm
wire W2 F1 to X+ 12 AWG red 3 m
wire W3 X- to F2 12 AWG black 3 m
wire W4 F2 to BAT- 12 AWG black 200 mm
)");
  EXPECT_NEAR(plan.prospective("F2"), 12.8 / (battery_ohm + plan.ohm("W4")), 1e-6);
}

TEST(Prospective, IsNotKnownWhereABatterySaysNothingOfItsShortCircuit) {
  std::string text = one_circuit;
  text.replace(text.find("short-circuit 2 kA"), 18, "");
  const Shorted plan(text);
  EXPECT_TRUE(std::isnan(plan.prospective("F1")));
  EXPECT_TRUE(std::isnan(plan.at_far_end("W2")));
  EXPECT_THAT(plan.names(plan.seen.study.shorts.batteries_unknown), ElementsAre("BAT"));
}

TEST(Before, NamesTheDevicesOnEveryWayFromTheBatteries) {
  const Shorted plan(R"(
system 12 V rules rv
source A 12.8 V low 12.0 V 100 Ah short-circuit 1 kA
source B 12.8 V low 12.0 V 100 Ah short-circuit 1 kA
fuse FA 60 A class-t on A+
fuse FB 60 A class-t on B+
fuse F0 60 A class-t
fuse F1 10 A blade
load X 24 W
wire W1 FA to F0 6 AWG red 1 m
wire W2 FB to F0 6 AWG red 1 m
wire W3 F0 to F1 6 AWG red 1 m
wire W4 F1 to X+ 12 AWG red 3 m
wire W5 X- to A- 12 AWG black 3 m
wire W6 A- to B- 6 AWG black 1 m
)");
  EXPECT_THAT(plan.before("F1"), ElementsAre("F0"));
  EXPECT_THAT(plan.before("F0"), IsEmpty());
}

}  // namespace
}  // namespace loomleaf::test
