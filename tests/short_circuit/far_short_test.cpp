// Short circuits at the far ends of conductors, worked out by hand; the arithmetic stands beside each.
#include <fmt/format.h>
#include <gmock/gmock.h>

#include <cmath>
#include <fstream>
#include <sstream>

#include "loomleaf/study/network.h"
#include "loomleaf/study/short_circuit.h"
#include "short_circuit/support/shorted.h"

namespace loomleaf::test {
namespace {

TEST(FarShort, CountsOutAndBackAtTheLowVoltage) {
  const Shorted plan(one_circuit);
  const double ohm = battery_ohm + plan.ohm("W1") + plan.ohm("F1") + plan.ohm("W2") + plan.ohm("W3");
  EXPECT_NEAR(plan.at_far_end("W2"), 12.0 / ohm, 1e-6);
  EXPECT_NEAR(plan.at_far_end("W3"), 12.0 / ohm, 1e-6);
}

TEST(FarShort, ClearsAfterTheDevicesLatestTime) {
  const Shorted plan(one_circuit);
  const double times = plan.at_far_end("W2") / 10.0;
  ASSERT_GT(times, 6.0);  // the last gate of a blade: 0.1 s at 6 times, the same I2t beyond
  EXPECT_NEAR(plan.clears("W2"), 0.1 * std::pow(6.0 / times, 2.0), 1e-9);
}

TEST(FarShort, BeforeAnyDeviceIsEndedByNone) {
  const Shorted plan(one_circuit);
  EXPECT_NEAR(plan.at_far_end("W1"), 12.0 / (battery_ohm + plan.ohm("W1")), 1e-6);
  EXPECT_TRUE(std::isinf(plan.clears("W1")));
  EXPECT_EQ(plan.lasting("W1"), nullptr);  // the missing device is the finding
}

TEST(FarShort, InACableIsBetweenItsCores) {
  const Shorted plan(R"(
system 12 V rules rv
source BAT 12.8 V low 12.0 V 100 Ah short-circuit 2 kA
fuse F1 10 A blade on BAT+
switch S1 10 A 32 V
load X 24 W
cable C1 F1, BAT- to S1, X- 12 AWG 3 m cores red, black
wire W1 S1 to X+ 12 AWG red 5 m
)");
  const double ohm = battery_ohm + plan.ohm("F1") + plan.ohm("C1.red") + plan.ohm("C1.black");
  EXPECT_NEAR(plan.at_far_end("C1.red"), 12.0 / ohm, 1e-6);
  EXPECT_NEAR(plan.at_far_end("W1"), 12.0 / (ohm + plan.ohm("S1") + plan.ohm("W1")), 1e-6);
}

TEST(FarShort, OfAMainIsWhereTheWaysBackMeet) {
  // The loads' own returns lie beyond NB.
  const Shorted plan(R"(
system 12 V rules rv
source BAT 12.8 V low 12.0 V 100 Ah short-circuit 2 kA
fuse F0 60 A class-t on BAT+
bus PB 100 A
bus NB 100 A
wire M1 F0 to PB 6 AWG red 2 m
wire M2 NB to BAT- 6 AWG black 2 m
fuse F1 5 A blade on PB
fuse F2 5 A blade on PB
load X 12 W
load Y 12 W
cable C1 F1, NB to X 18 AWG 9 m cores red, black
cable C2 F2, NB to Y 18 AWG 9 m cores red, black
)");
  const double ohm = battery_ohm + plan.ohm("F0") + plan.ohm("M1") + plan.ohm("M2");
  EXPECT_NEAR(plan.at_far_end("M1"), 12.0 / ohm, 1e-6);
  EXPECT_NEAR(plan.at_far_end("M2"), 12.0 / ohm, 1e-6);
}

TEST(FarShort, OfAMainWithOneCircuitLeadsNoFartherBackThanOut) {
  const Shorted plan(R"(
system 12 V rules rv
source BAT 12.8 V low 12.0 V 100 Ah short-circuit 2 kA
fuse F0 60 A class-t on BAT+
bus PB 100 A
bus NB 100 A
wire M1 F0 to PB 6 AWG red 2 m
wire M2 NB to BAT- 6 AWG black 2 m
fuse F1 5 A blade on PB
load X 12 W
cable C1 F1, NB to X 18 AWG 9 m cores red, black
)");
  EXPECT_NEAR(plan.at_far_end("M1"), 12.0 / (battery_ohm + plan.ohm("F0") + plan.ohm("M1") + plan.ohm("M2")), 1e-6);
}

TEST(FarShort, OfASpareWireCountsItsWayBackLikeItsWayOut) {
  const Shorted plan(R"(
system 12 V rules rv
source BAT 12.8 V low 12.0 V 100 Ah short-circuit 2 kA
fuse F1 5 A blade on BAT+
tail T1
wire W1 F1 to T1 18 AWG red 9 m
)");
  const double out = plan.ohm("F1") + plan.ohm("W1");
  EXPECT_NEAR(plan.at_far_end("W1"), 12.0 / (battery_ohm + 2 * out), 1e-6);
}

// A bus has two ways to the lamp, equally long; along either it feeds a lamp of its own.
TEST(FarShort, WithTwoWaysEquallyLongDoesNotDependOnWhichStandsFirst) {
  const std::string head = R"(
system 12 V rules rv
source BAT 12.8 V low 12.0 V 100 Ah short-circuit 2 kA
fuse F1 10 A blade on BAT+
bus NB 50 A
load X, Y, Z 12 W
wire N1 X- to NB 14 AWG black 1 m
wire N2 Y- to NB 14 AWG black 5 m
wire N3 Z- to NB 14 AWG black 3 m
wire N4 NB to BAT- 10 AWG black 1 m
wire M F1 to PB 14 AWG red 1 m
bus PB 50 A
)";
  const std::string one = "wire A1 PB to Y+ 14 AWG red 2 m\nwire A2 Y+ to X+ 14 AWG red 2 m\n";
  const std::string other = "wire B1 PB to Z+ 14 AWG red 2 m\nwire B2 Z+ to X+ 14 AWG red 2 m\n";
  const Shorted first(head + one + other), second(head + other + one);
  for (const char* wire : {"M", "A1", "A2", "B1", "B2", "N1", "N2", "N3", "N4"})
    EXPECT_NEAR(first.at_far_end(wire), second.at_far_end(wire), 1e-9) << wire;
}

// Nine wires of 2 m out, ten back twice over: one of the two ways back a millimetre longer, or not.
std::string long_ring(const std::string& first_back) {
  std::string text = R"(
system 12 V rules rv
source BAT 12.8 V low 12.0 V 100 Ah max 60 A short-circuit 500 A
fuse F1 20 A blade on BAT+
splice P1..P9
splice Q1..Q9
splice R1..R9
bus XB, NB 50 A
load X 6 W on XB
wire A0 F1 to P1 16 AWG red 2 m
wire A9 P9 to X+ 16 AWG red 2 m
wire Qa NB to Q1 16 AWG black 2 m
wire Qz Q9 to XB 16 AWG black 2 m
wire Rz R9 to XB 16 AWG black 2 m
wire N NB to BAT- 16 AWG black 200 mm
wire Ra NB to R1 16 AWG black )" +
                     first_back + "\n";
  for (int i = 1; i < 9; ++i) {
    const std::string here = std::to_string(i), next = std::to_string(i + 1);
    text += "wire A" + here + " P" + here + " to P" + next + " 16 AWG red 2 m\n";
    for (const std::string side : {"Q", "R"})
      text += "wire " + side + here + "w " + side + here + " to " + side + next + " 16 AWG black 2 m\n";
  }
  return text;
}

TEST(FarShort, GoesAsFarBackWhereTwoWaysBackAreEquallyLong) {
  const Shorted equal(long_ring("2 m")), longer(long_ring("2.001 m"));
  for (int i = 0; i < 10; ++i) {
    const std::string wire = "A" + std::to_string(i);
    EXPECT_NEAR(equal.at_far_end(wire), longer.at_far_end(wire), 0.01 * longer.at_far_end(wire)) << wire;
  }
}

// Two unlike batteries, equally far from a bus from which a wire leads nowhere.
TEST(FarShort, EquallyFarFromTwoBatteriesDoesNotDependOnWhichStandsFirst) {
  const std::string rest = R"(
system 12 V rules rv
bus P0, N0 100 A
tail T0
fuse F0 20 A blade on BAT0+
fuse F1 20 A blade on BAT1+
wire W1 F0 to P0 14 AWG red 1 m
wire W2 N0 to BAT0- 10 AWG black 2 m
wire W3 F1 to P0 10 AWG red 1 m
wire W4 N0 to BAT1- 14 AWG black 3 m
wire W5 P0 to T0 14 AWG red 1 m
)";
  const std::string weak = "source BAT0 12.8 V low 12.0 V 100 Ah max 100 A short-circuit 300 A\n";
  const std::string strong = "source BAT1 12.8 V low 12.0 V 100 Ah max 100 A short-circuit 500 A\n";
  const Shorted first(weak + strong + rest), second(strong + weak + rest);
  EXPECT_NEAR(first.at_far_end("W5"), second.at_far_end("W5"), 1e-9);
}

// A wire between two points of the return that are equally far from the battery.
TEST(FarShort, OfAWireWithBothEndsEquallyFarDoesNotDependOnItsDirection) {
  const auto text = [](const std::string& across) {
    return R"(
system 12 V rules rv
source BAT 12.8 V low 12.0 V 100 Ah max 100 A short-circuit 500 A
fuse F0 20 A blade on BAT+
bus P0, N0, N2, N3 100 A
load X, Y 6 W
wire W1 F0 to P0 12 AWG red 1 m
wire W2 N0 to BAT- 12 AWG black 1 m
wire W3 N0 to N2 12 AWG black 1 m
wire W4 N0 to N3 12 AWG black 1 m
wire W5 P0 to X+ 12 AWG red 1 m
wire W6 X- to N2 12 AWG black 1 m
wire W7 P0 to Y+ 12 AWG red 3 m
wire W8 Y- to N0 12 AWG black 1 m
wire W9 )" +
           across + " 12 AWG black 1 m\n";
  };
  const Shorted one(text("N3 to N2")), other(text("N2 to N3"));
  EXPECT_GT(one.at_far_end("W9"), 0.0);
  EXPECT_NEAR(one.at_far_end("W9"), other.at_far_end("W9"), 1e-9);
}

TEST(FarShort, BehindAnOpenWayLeadsBackToTheBatteryNotToTheChargerBesideIt) {
  const std::string rest = R"(
system 12 V rules rv
fuse F1 5 A blade on BAT+
bus NB 50 A
tail T1
wire W1 F1 to T1 18 AWG red 9 m
wire W2 SUN+ to BAT+ 14 AWG red 1 m
wire W3 SUN- to NB 14 AWG black 1 m
wire W4 NB to BAT- 14 AWG black 4 m
)";
  const std::string battery = "source BAT 12.8 V low 12.0 V 100 Ah short-circuit 2 kA\n";
  const std::string charger = "source SUN solar 14.4 V limit 10 A\n";
  for (const std::string& supplies : {battery + charger, charger + battery}) {
    const Shorted plan(rest + supplies);
    const double out = plan.ohm("F1") + plan.ohm("W1");
    EXPECT_NEAR(plan.at_far_end("W1"), 12.0 / (battery_ohm + 2 * out), 1e-6) << supplies;
  }
}

// Two wires side by side, each with its own fuse.
std::string twin_feed(const std::string& fuses) {
  return R"(
system 12 V rules rv
source BAT 12.8 V low 12.0 V 100 Ah short-circuit 2 kA
bus PB 100 A
load X 24 W
wire A1 F1 to PB 12 AWG red 3 m
wire A2 F2 to PB 12 AWG red 3 m
wire W2 PB to X+ 6 AWG red 3 m
wire W3 X- to BAT- 6 AWG black 3 m
)" + fuses;
}

TEST(FarShort, BehindTwoFusesSideBySideIsOverWhenBothHaveOpened) {
  const Shorted plan(twin_feed("fuse F1 10 A blade on BAT+\nfuse F2 20 A blade on BAT+\n"));
  const double a = plan.ohm("F1") + plan.ohm("A1"), b = plan.ohm("F2") + plan.ohm("A2");
  const double current = 12.0 / (battery_ohm + a * b / (a + b) + plan.ohm("W2") + plan.ohm("W3"));
  EXPECT_NEAR(plan.at_far_end("W2"), current, 1e-6);
  // The smaller one opens first, and all that still flows then goes through the larger. A blade fuse opens within 100
  // ms at six times its rating (ISO 8820-3), beyond that by its I2t.
  const auto opens_s = [](double ampere, double rating) { return 0.1 * std::pow(6.0 / (ampere / rating), 2.0); };
  const double alone = 12.0 / (battery_ohm + b + plan.ohm("W2") + plan.ohm("W3"));
  EXPECT_NEAR(plan.clears("W2"), opens_s(current * b / (a + b), 10) + opens_s(alone, 20), 1e-9);
  EXPECT_LT(plan.clears("W2"), opens_s(current * a / (a + b), 20));
}

// A remote plug: its return is as long as the feeds, which part at the fuse block by the battery.
TEST(FarShort, OfAReturnWhoseFeedsPartLongBeforeItIsLeftToThoseFeeds) {
  const auto plan = [](const char* metres) {
    return Shorted(fmt::format(R"(
system 12 V rules rv
source BAT 12.8 V low 12.0 V 100 Ah max 100 A short-circuit 500 A
fuse F0 60 A class-t on BAT+
bus PB, TN 100 A
fuse F1, F2 10 A blade on PB
load X, Y 12 W
wire W0 F0 to PB 6 AWG red 1 m
wire W1 F1 to X+ 14 AWG red {0}
wire W2 F2 to Y+ 14 AWG red {0}
wire W3 X- to TN 14 AWG black 0.5 m
wire W4 Y- to TN 14 AWG black 0.5 m
wire W5 TN to BAT- 14 AWG black {0}
)",
                               metres));
  };
  EXPECT_TRUE(std::isnan(plan("3.01 m").at_far_end("W5")));
  EXPECT_GT(plan("2.99 m").at_far_end("W5"), 0.0);
  EXPECT_GT(plan("3.01 m").at_far_end("W1"), 0.0);  // which comes back over W5
}

TEST(FarShort, BehindAFuseWithAWayRoundItIsEndedByNone) {
  const Shorted plan(twin_feed("fuse F1 10 A blade on BAT+\nswitch F2 20 A 32 V on BAT+\n"));
  EXPECT_TRUE(std::isinf(plan.clears("W2")));
}

TEST(FarShort, OfBatteriesInARowIsEndedByAFuseBetweenThemToo) {
  const Shorted plan(R"(
system 24 V rules rv
source A 12.8 V low 12.0 V 100 Ah short-circuit 1 kA
source B 12.8 V low 12.0 V 100 Ah short-circuit 1 kA
fuse FM 20 A blade on B+
fuse FT 30 A class-t on A+
load X 24 W
wire P1 A- to FM 6 AWG black 200 mm
wire W2 FT to X+ 6 AWG red 1 m
wire W3 X- to B- 6 AWG black 1 m
)");
  const double ohm =
      2 * 12.8 / 1000 + plan.ohm("FM") + plan.ohm("FT") + plan.ohm("P1") + plan.ohm("W2") + plan.ohm("W3");
  EXPECT_NEAR(plan.at_far_end("W2"), 24.0 / ohm, 1e-6);
  // the blade: 0.1 s at 6 times its rating and the same I2t beyond
  EXPECT_NEAR(plan.clears("W2"), 0.1 * std::pow(6.0 / (24.0 / ohm / 20.0), 2.0), 1e-9);
}

TEST(FarShort, OfALongChainCostsNoMoreThanItsLength) {
  // A thousand lamps in a chain; the last is behind a thousand cables of 10 mm.
  std::string text =
      "system 12 V rules rv\nsource BAT 12.8 V low 12.0 V 100 Ah short-circuit 2 kA\nfuse F1 5 A blade on BAT+\n"
      "load L000..L999 0.001 W\ncable C000 F1, BAT- to L000 14 AWG 10 mm cores red, black\n";
  const auto number = [](int i) { return std::to_string(1000 + i).substr(1); };
  for (int i = 1; i < 1000; ++i)
    text += "cable C" + number(i) + " L" + number(i - 1) + " to L" + number(i) + " 14 AWG 10 mm cores red, black\n";
  const Shorted plan(text);
  const double ohm = battery_ohm + plan.ohm("F1") + 2000 * plan.ohm("C500.red");
  EXPECT_NEAR(plan.at_far_end("C999.red"), 12.0 / ohm, 1e-6);
  EXPECT_NEAR(plan.at_far_end("C999.black"), 12.0 / ohm, 1e-6);
}

// The same short in the solver of normal work: a link without resistance where the short is.
double by_whole_network(const Shorted& plan, const TwoPole& load) {
  const Circuit& circuit = plan.seen.circuit;
  NetworkShape shape;
  shape.nodes = circuit.nodes.size();
  const auto& resistance = plan.seen.study.working.branch_resistance;
  for (const BranchId id : circuit.branches.ids())
    if (conducts(circuit, id, plan.seen.study.ways.all[0]))
      shape.links.push_back({circuit.branches[id].a.value, circuit.branches[id].b.value, resistance[id].in(ohms)});
  for (const TwoPole& source : circuit.sources) {
    const Source& battery = *plan.seen.plan.items[source.item].as<Source>();
    if (battery.is_limited()) continue;
    shape.holds.push_back({shape.nodes, source.minus.value, battery.low_or_nominal().in(volts)});
    shape.links.push_back({shape.nodes++, source.plus.value, (battery.nominal / *battery.short_circuit).in(ohms)});
  }
  shape.links.push_back({load.plus.value, load.minus.value, 0.0});
  return Network(shape).solve({}).link_ampere.back();
}

TEST(FarShort, OfATravellingLibraryIsWhatTheWholeNetworkGives) {
  std::ifstream file(LOOMLEAF_ROOT "/examples/travelling-library.loom");
  std::ostringstream text;
  text << file.rdbuf();
  const Shorted plan(text.str());
  int compared = 0;
  for (const ConductorId id : plan.seen.plan.conductors.ids()) {
    const NodeId end = plan.seen.circuit.node_of[plan.seen.plan.conductors[id].to];
    for (const TwoPole& load : plan.seen.circuit.loads) {
      const std::string& name = plan.seen.plan.conductors[id].id;
      if (load.plus != end || load.item == plan.item("PC") || name == "W12") continue;  // a converter; a changeover
      EXPECT_NEAR(plan.at_far_end(name), by_whole_network(plan, load), 1e-3) << name;
      ++compared;
    }
  }
  EXPECT_GE(compared, 15);
}

// The battery on the same plus bar has its minus elsewhere: nothing of it comes back here.
TEST(FarShort, IsFedByWhatStandsAcrossItAlone) {
  const Shorted plan(R"(
system 12 V rules rv
source BAT 12.8 V low 12.0 V 100 Ah short-circuit 2 kA
source SUP supply 12.8 V limit 10 A
bus PB
fuse FB 60 A class-t on BAT+
fuse FS 15 A blade on SUP+
wire W1 FB to PB 10 AWG red 1 m
wire W2 FS to PB 10 AWG red 1 m
fuse F1 10 A blade on PB
load X 24 W
wire W3 F1 to X+ 12 AWG red 1 m
wire W4 X- to BAT- 12 AWG black 1 m
fuse F2 5 A blade on PB
load G 5 W
wire W5 F2 to G+ 12 AWG red 1 m
wire W6 G- to SUP- 12 AWG black 1 m
)");
  for (const char* fed_by_the_supply : {"W5", "W6"}) {
    EXPECT_LE(plan.at_far_end(fed_by_the_supply), 10.0);
    EXPECT_GT(plan.at_far_end(fed_by_the_supply), 9.0);
  }
  EXPECT_GT(plan.at_far_end("W3"), 300.0);
}

}  // namespace
}  // namespace loomleaf::test
