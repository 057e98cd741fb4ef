// Plans small enough to work out by hand; each says why its figure is what it is.
#include "protection/support/let_through.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace loomleaf {
namespace {

using test::LetThrough;
using testing::ElementsAre;
using testing::IsEmpty;

TEST_F(LetThrough, FuseAtThePostHoldsTheMain) {
  house(60);
  circuit("1", 5);
  EXPECT_EQ(amps("MAIN"), 60);  // from the post's end 60; nothing comes from the other
  EXPECT_THAT(by("MAIN"), ElementsAre("F0"));
  EXPECT_EQ(of("MAIN").side, ConductorSide::feed);
}

TEST_F(LetThrough, SmallerFuseNearerTheConductorHoldsIt) {
  house(60);
  circuit("1", 5);
  EXPECT_EQ(amps("OUT1"), 5);
  EXPECT_THAT(by("OUT1"), ElementsAre("F1"));
}

TEST_F(LetThrough, BiggerFuseNearerTheConductorDoesNot) {
  house(60);
  circuit("1", 80);
  EXPECT_EQ(amps("OUT1"), 60);
  EXPECT_THAT(by("OUT1"), ElementsAre("F0"));
}

TEST_F(LetThrough, OfTwoEqualFusesTheNearerIsNamed) {
  house(10);
  circuit("1", 10);
  EXPECT_THAT(by("OUT1"), ElementsAre("F1"));
}

TEST_F(LetThrough, BatteryThroughNoDeviceIsUnbounded) {
  built.battery("BAT");
  built.fuse("F0", 60);
  built.wire("LEAD", "BAT+", "F0.in");
  EXPECT_TRUE(of("LEAD").unbounded);
  EXPECT_FALSE(of("LEAD").let_through);
  EXPECT_THAT(by("LEAD"), IsEmpty());
}

// Each fuse alone is within 15 A; together they feed the lamp wire with 20 A.
TEST_F(LetThrough, TwoBatteriesAddUp) {
  house(10);
  built.battery("BAT2");
  built.fuse("F9", 10);
  built.on("F9", "BAT2+");
  built.wire("MAIN2", "F9.out", "PB");
  built.wire("BACK2", "NB", "BAT2-");
  built.load("L");
  built.wire("OUT", "PB", "L+", 15);
  built.wire("RET", "L-", "NB");
  EXPECT_EQ(amps("OUT"), 20);
  EXPECT_THAT(by("OUT"), ElementsAre("F0", "F9"));
  EXPECT_TRUE(of("OUT").exposed);
  EXPECT_EQ(amps("MAIN"), 10);  // from either end the fuse of the battery there
}

TEST_F(LetThrough, SolarControllerAddsItsLimit) {
  house(30);
  built.limited("SOL", 20);
  built.wire("SUN", "SOL+", "PB");
  built.wire("SUNBACK", "SOL-", "NB");
  circuit("1", 100);
  EXPECT_EQ(amps("OUT1"), 50);
  EXPECT_THAT(by("OUT1"), ElementsAre("F0", "SOL"));
  EXPECT_EQ(amps("SUN"), 30);  // the battery's 30 A from the block outweigh its own 20 A
  EXPECT_THAT(by("SUN"), ElementsAre("F0"));
}

TEST_F(LetThrough, WiresInParallelEachSeeTheWhole) {
  built.battery("BAT");
  built.fuse("F0", 30);
  built.on("F0", "BAT+");
  built.bus("PB");
  built.wire("A", "F0.out", "PB");
  built.wire("B", "F0.out", "PB");
  EXPECT_EQ(amps("A"), 30);  // all 30 A reach its far end through B
}

TEST_F(LetThrough, FusesInParallelAddUp) {
  built.battery("BAT");
  for (const std::string id : {"F1", "F2"}) {
    built.fuse(id, 10);
    built.on(id, "BAT+");
  }
  built.bus("PB");
  built.bus("END");
  built.wire("A", "F1.out", "PB");
  built.wire("B", "F2.out", "PB");
  built.wire("ON", "PB", "END");
  EXPECT_EQ(amps("ON"), 20);
  EXPECT_THAT(by("ON"), ElementsAre("F1", "F2"));
  EXPECT_EQ(amps("A"), 10);  // 10 A from its own fuse at one end, 10 A from the other's at the other: never both
}

TEST_F(LetThrough, ReturnOfACircuitIsHeldByItsFuse) {
  house(60);
  circuit("1", 5);
  EXPECT_EQ(of("RET1").side, ConductorSide::return_);
  EXPECT_EQ(amps("RET1"), 5);
  EXPECT_THAT(by("RET1"), ElementsAre("F1"));
  EXPECT_FALSE(of("RET1").exposed_length);
}

TEST_F(LetThrough, ReturnMainCarriesTheSumOfItsCircuits) {
  bare_house();
  circuit("1", 5);
  circuit("2", 10);
  EXPECT_EQ(amps("BACK"), 15);
  EXPECT_THAT(by("BACK"), ElementsAre("F1", "F2"));
}

TEST_F(LetThrough, ReturnMainCarriesNoMoreThanTheMainFuse) {
  house(12);
  circuit("1", 5);
  circuit("2", 10);
  EXPECT_EQ(amps("BACK"), 12);
  EXPECT_THAT(by("BACK"), ElementsAre("F0"));
}

TEST_F(LetThrough, LampsOnOneFuseShareIt) {
  bare_house();
  circuit("1", 5);
  built.load("L2");
  built.wire("OUT2", "F1.out", "L2+");
  built.wire("RET2", "L2-", "NB");
  EXPECT_EQ(amps("RET2"), 5);
  EXPECT_EQ(amps("BACK"), 5);
}

// Short at BAT2-: what comes back to it there left BAT2, and F9 holds that.
TEST_F(LetThrough, NegativeLeadOfOneOfTwoBatteriesIsHeldByThatOnesFuse) {
  house(80);
  built.battery("BAT2");
  built.fuse("F9", 30);
  built.on("F9", "BAT2+");
  built.wire("MAIN2", "F9.out", "PB");
  built.wire("BACK2", "NB", "BAT2-");
  circuit("1", 100);
  circuit("2", 100);
  EXPECT_EQ(amps("BACK"), 80);
  EXPECT_THAT(by("BACK"), ElementsAre("F0"));
  EXPECT_EQ(amps("BACK2"), 30);
  EXPECT_THAT(by("BACK2"), ElementsAre("F9"));
  EXPECT_EQ(amps("RET1"), 100);  // both mains together could give 110
  EXPECT_THAT(by("RET1"), ElementsAre("F1"));
}

TEST_F(LetThrough, StarterDoesNotLoadTheReturn) {
  house(60);
  circuit("1", 5, Load::Kind::starter);
  EXPECT_EQ(amps("BACK"), 0);
}

TEST_F(LetThrough, UnfusedLoadDoesNotLoadTheReturn) {
  bare_house();
  circuit("1", 5);
  built.load("RAW");
  built.wire("RAWOUT", "BAT+", "RAW+");
  built.wire("RAWRET", "RAW-", "NB");
  EXPECT_EQ(amps("BACK"), 5);  // the unfused run is a finding of its own
  EXPECT_EQ(amps("RAWRET"), 0);
}

TEST_F(LetThrough, ReversedElectronicsBlockAndReversedMotorsDoNot) {
  house(60);
  for (const bool motor : {false, true}) {
    const std::string n = motor ? "M" : "E";
    built.fuse("F" + n, 5);
    built.on("F" + n, "PB");
    built.load("L" + n, motor ? Load::Kind::motor : Load::Kind::electronic);
    built.wire("OUT" + n, "F" + n + ".out", "L" + n + "-");
    built.wire("RET" + n, "L" + n + "+", "NB");
  }
  EXPECT_EQ(amps("RETE"), 0);
  EXPECT_EQ(amps("RETM"), 5);
}

TEST_F(LetThrough, FuseInTheReturnHoldsWhatIsBeforeIt) {
  house(60);
  circuit("1", 20);
  built.load("L2");
  built.fuse("FR", 3);
  built.wire("OUT2", "F1.out", "L2+");
  built.wire("RET2", "L2-", "FR.in");
  built.wire("ON", "FR.out", "NB");
  EXPECT_EQ(amps("RET2"), 20);  // a fault between load and fuse is not held by the fuse beyond
  EXPECT_EQ(amps("ON"), 3);
  EXPECT_THAT(by("ON"), ElementsAre("FR"));
}

TEST_F(LetThrough, GreatestOfTheWaysOfAChangeoverCounts) {
  built.changeover("S", 2);
  for (const auto& [n, a] : std::vector<std::pair<std::string, double>>{{"1", 10}, {"2", 25}}) {
    built.battery("BAT" + n);
    built.fuse("F" + n, a);
    built.on("F" + n, "BAT" + n + "+");
    built.wire("LEAD" + n, "F" + n + ".out", "S.out" + n);
  }
  built.load("L");
  built.wire("OUT", "S.in", "L+");
  EXPECT_EQ(amps("OUT"), 25);  // never 35: one way stands open
  EXPECT_THAT(by("OUT"), ElementsAre("F2"));
  EXPECT_EQ(of("OUT").ways, 1u);
  EXPECT_EQ(amps("LEAD1"), 10);
}

TEST_F(LetThrough, LinkOfASeriesBankIsFeedAndUnbounded) {
  built.battery("A", 12);
  built.battery("B", 12);
  built.wire("LINK", "A+", "B-", 100, 0.3);
  built.fuse("F0", 40);
  built.on("F0", "B+");
  built.load("L");
  built.wire("OUT", "F0.out", "L+");
  built.wire("BACK", "L-", "A-");
  EXPECT_EQ(of("LINK").side, ConductorSide::feed);
  EXPECT_TRUE(of("LINK").unbounded);
  EXPECT_EQ(amps("OUT"), 40);
  EXPECT_EQ(amps("BACK"), 40);  // what returns to A- left the bank's + at B
  EXPECT_THAT(by("BACK"), ElementsAre("F0"));
}

// A1 and A2 in parallel below, B on top: half of B's current returns through A2's own lead, and none of it is held by
// anything but the fuse at the top.
TEST_F(LetThrough, LeadOfALowerBatteryCarriesWhatTheUpperOneGives) {
  built.battery("A1", 12);
  built.battery("A2", 12);
  built.battery("B", 12);
  built.bus("NB");
  built.wire("MID1", "A1+", "B-");
  built.wire("MID2", "A2+", "B-");
  built.fuse("F0", 40);
  built.on("F0", "B+");
  built.load("L");
  built.wire("OUT", "F0.out", "L+");
  built.wire("RET", "L-", "NB");
  built.wire("BACK1", "NB", "A1-");
  built.wire("BACK2", "NB", "A2-");
  EXPECT_EQ(amps("BACK1"), 40);
  EXPECT_EQ(amps("BACK2"), 40);
}

TEST_F(LetThrough, ConverterOutputGivesItsRating) {
  house(60);
  built.fuse("F1", 20);
  built.on("F1", "PB");
  built.converter("DC", 8, 5);
  built.wire("IN", "F1.out", "DC.in+");
  built.wire("INRET", "DC.in-", "NB");
  built.load("L");
  built.wire("OUT", "DC.out+", "L+");
  EXPECT_EQ(amps("OUT"), 8);
  EXPECT_THAT(by("OUT"), ElementsAre("DC"));
  EXPECT_EQ(amps("INRET"), 20);
  EXPECT_THAT(by("INRET"), ElementsAre("F1"));
}

TEST_F(LetThrough, ConductorThatMeetsNoSupplyHasNone) {
  house(60);
  built.tail("T1");
  built.tail("T2");
  built.wire("SPARE", "T1", "T2");
  EXPECT_EQ(of("SPARE").side, ConductorSide::none);
  EXPECT_EQ(amps("SPARE"), 0);
  EXPECT_FALSE(of("SPARE").exposed);
}

TEST_F(LetThrough, BondToTheReturnCarriesNothingByItself) {
  house(60);
  circuit("1", 5);
  built.bus("HULL");
  built.wire("BOND", "NB", "HULL");
  built.make_bond("BOND");
  EXPECT_EQ(of("BOND").side, ConductorSide::bond);
  EXPECT_EQ(amps("BOND"), 0);
}

// A ring main fed over one fuse, with a second fuse halfway round: at any place both ways round can feed, and the one
// fuse holds both.
TEST_F(LetThrough, RingIsHeldByTheFuseThatFeedsIt) {
  house(30);
  for (const char* id : {"A", "B", "C"}) built.bus(id);
  built.fuse("FR", 10);
  built.wire("1", "PB", "A");
  built.wire("2", "A", "FR.in");
  built.wire("3", "FR.out", "B");
  built.wire("4", "B", "C");
  built.wire("5", "C", "PB");
  EXPECT_EQ(amps("4"), 30);
  EXPECT_THAT(by("4"), ElementsAre("F0"));
  EXPECT_EQ(amps("2"), 30);
}

// A ring of returns that hangs on the negative bus by one wire: what other circuits bring to the bus cannot pass
// through the ring, since it would have to leave by the wire it came in by.
TEST_F(LetThrough, RingOfReturnsGetsOnlyWhatReturnsInIt) {
  house(60);
  circuit("1", 5);
  circuit("2", 30);
  built.load("L3");
  built.wire("OUT3", "L1+", "L3+");
  built.wire("RING1", "L1-", "L3-");
  built.wire("RING2", "L3-", "L1-");
  EXPECT_EQ(amps("RET1"), 5);
  EXPECT_EQ(amps("RING1"), 5);
  EXPECT_THAT(by("RING1"), ElementsAre("F1"));
}

// The same ring joined to the bus at a second point: now the other circuit's current has a way through.
TEST_F(LetThrough, RingOfReturnsJoinedTwiceGetsWhatPassesBy) {
  house(60);
  circuit("1", 5);
  circuit("2", 30);
  built.load("L3");
  built.wire("OUT3", "L1+", "L3+");
  built.wire("RING1", "L1-", "L3-");
  built.wire("RING2", "L3-", "L2-");
  EXPECT_EQ(amps("RING1"), 35);
}

}  // namespace
}  // namespace loomleaf
