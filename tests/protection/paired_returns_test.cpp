// Returns judged by the feed that they pair with: small enough to work out by hand.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "protection/support/let_through.h"

namespace loomleaf {
namespace {

using testing::ElementsAre;

class PairedReturns : public test::LetThrough {
 protected:
  // A panel of two circuits behind a fuse on PB, with a bar for its returns.
  void panel(double fuse_A) {
    built.fuse("FP", fuse_A);
    built.on("FP", "PB");
    built.bus("P1");
    built.bus("N1");
    built.wire("WP", "FP.out", "P1");
    built.wire("WN", "N1", "NB");
    for (const std::string n : {"A", "B"}) {
      built.fuse("F" + n, 5);
      built.on("F" + n, "P1");
      built.load("L" + n);
      built.wire("OUT" + n, "F" + n + ".out", "L" + n + "+");
      built.wire("RET" + n, "L" + n + "-", "N1");
    }
  }
  void solar_on_the_bars() {
    built.limited("SOL", 20);
    built.wire("SUN", "SOL+", "PB");
    built.wire("SUNBACK", "SOL-", "NB");
  }
};

// From bar to bar nothing but the main fuse stands before the return: 60 A, where the circuits' fuses let 15 A through.
TEST_F(PairedReturns, MainOfAllCircuitsMustBearTheMainFuse) {
  house(60);
  circuit("1", 5);
  circuit("2", 10);
  EXPECT_EQ(amps("BACK"), 60);
  EXPECT_THAT(by("BACK"), ElementsAre("F0"));
  EXPECT_TRUE(of("BACK").by_paired_feed);
  EXPECT_EQ(amps("RET1"), 5);
  EXPECT_EQ(amps("RET2"), 10);
  EXPECT_FALSE(of("RET2").by_paired_feed);
}

TEST_F(PairedReturns, MainThatBearsTheMainFuseIsNoFinding) {
  house(60);
  circuit("1", 5);
  circuit("2", 10);
  ConductorFigures& back = built.figures[built.conductor("BACK")];
  back.may_carry = amperes(60);
  EXPECT_EQ(of("BACK").exposure, Exposure::protected_);
  back.may_carry = amperes(59);
  EXPECT_EQ(of("BACK").exposure, Exposure::exposed_return);
}

TEST_F(PairedReturns, MoreFromTheLoadsThanFromTheFeedStays) {
  house(12);
  circuit("1", 5);
  circuit("2", 10);
  built.fuse("FPUMP", 10);  // at the post, beside the main
  built.on("FPUMP", "BAT+");
  built.load("PUMP");
  built.wire("PUMPOUT", "FPUMP.out", "PUMP+");
  built.wire("PUMPRET", "PUMP-", "NB");
  EXPECT_EQ(amps("BACK"), 22);
  EXPECT_THAT(by("BACK"), ElementsAre("F0", "FPUMP"));
  EXPECT_FALSE(of("BACK").by_paired_feed);
}

// One circuit alone: from bar to bar still the main fuse; on from the bar the circuit's own.
TEST_F(PairedReturns, OfASingleCircuitTheMainCountsUpToTheBarOnly) {
  house(60);
  circuit("1", 10);
  EXPECT_EQ(amps("BACK"), 60);
  EXPECT_EQ(amps("RET1"), 10);
}

TEST_F(PairedReturns, LampWithTwoFusesInARowAndNoBarIsHeldByTheSmaller) {
  built.battery("BAT");
  built.fuse("F0", 60);
  built.on("F0", "BAT+");
  built.fuse("F1", 5);
  built.load("L");
  built.wire("MAIN", "F0.out", "F1.in");
  built.wire("OUT", "F1.out", "L+");
  built.wire("RET", "L-", "BAT-");
  EXPECT_EQ(amps("RET"), 5);
}

// The short lead from the plus bar to the panel's fuse lies beside the minus bar, not beside the panel's own.
TEST_F(PairedReturns, LeadBeforeAPanelsFuseIsNoMatterForThePanelsReturn) {
  for (const char* bar : {"PB", "NB", "FB", "FN"}) built.bus(bar);
  for (const std::string n : {"A", "B"}) {
    built.battery("BAT" + n);
    built.fuse("T" + n, 100);
    built.on("T" + n, "BAT" + n + "+");
    built.wire("P" + n, "T" + n + ".out", "PB");
    built.wire("N" + n, "BAT" + n + "-", "NB");
  }
  built.fuse("FD", 30);
  built.wire("TOFD", "PB", "FD.in");
  built.wire("MAIN", "FD.out", "FB");
  built.wire("WN", "FN", "NB");
  for (const std::string n : {"1", "2"}) {
    built.fuse("F" + n, 5);
    built.on("F" + n, "FB");
    built.load("L" + n);
    built.wire("OUT" + n, "F" + n + ".out", "L" + n + "+");
    built.wire("RET" + n, "L" + n + "-", "FN");
  }
  EXPECT_EQ(amps("WN"), 30);
  EXPECT_THAT(by("WN"), ElementsAre("FD"));
}

TEST_F(PairedReturns, ReturnSharedByTwoOfThreeCircuitsIsHeldByTheirFuses) {
  house(60);
  circuit("3", 20);
  built.bus("SHARED");
  for (const auto& [n, a] : std::vector<std::pair<std::string, double>>{{"1", 5}, {"2", 10}}) {
    built.fuse("F" + n, a);
    built.on("F" + n, "PB");
    built.load("L" + n);
    built.wire("OUT" + n, "F" + n + ".out", "L" + n + "+");
    built.wire("RET" + n, "L" + n + "-", "SHARED");
  }
  built.wire("BOTH", "SHARED", "NB");
  EXPECT_EQ(amps("BOTH"), 15);
  EXPECT_EQ(amps("BACK"), 60);
}

TEST_F(PairedReturns, PumpFusedAtThePostAddsNothingToTheMain) {
  house(60);
  circuit("1", 5);
  circuit("2", 10);
  built.fuse("FPUMP", 30);
  built.on("FPUMP", "BAT+");
  built.load("PUMP");
  built.wire("PUMPOUT", "FPUMP.out", "PUMP+");
  built.wire("PUMPRET", "PUMP-", "NB");
  EXPECT_EQ(amps("BACK"), 60);
  EXPECT_EQ(amps("PUMPRET"), 30);
}

TEST_F(PairedReturns, NothingIsAskedForAFuseWithoutLoads) {
  house(60);
  EXPECT_EQ(amps("BACK"), 0);
  built.fuse("SPARE", 40);
  built.on("SPARE", "PB");
  EXPECT_EQ(amps("BACK"), 0);
}

// PB feeds nothing but the panel; of its returns each piece still answers to the fuse beside it.
TEST_F(PairedReturns, PanelsReturnIsHeldByThePanelsFuse) {
  house(100);
  panel(30);
  EXPECT_EQ(amps("WN"), 30);
  EXPECT_THAT(by("WN"), ElementsAre("FP"));
  EXPECT_EQ(amps("BACK"), 100);
  EXPECT_EQ(amps("RETA"), 5);
  circuit("1", 10);
  EXPECT_EQ(amps("WN"), 30);
}

// A charger on the bars feeds them as well; what the battery sends passes its own leads all the same.
TEST_F(PairedReturns, SolarOnTheBarsDoesNotHideTheMain) {
  house(60);
  circuit("1", 5);
  circuit("2", 10);
  solar_on_the_bars();
  EXPECT_EQ(amps("BACK"), 60);
  EXPECT_THAT(by("BACK"), ElementsAre("F0"));
  EXPECT_TRUE(of("BACK").by_paired_feed);
  panel(30);
  EXPECT_EQ(amps("WN"), 30);  // not 60 A + 20 A: FP holds both
}

// The solar controller's own share goes home to it, not over BACK.
TEST_F(PairedReturns, OfABatteryBesideSolarOnlyItsOwnCounts) {
  house(60);
  solar_on_the_bars();
  built.bus("P1");
  built.wire("ON", "PB", "P1");
  for (const std::string n : {"1", "2"}) {
    built.fuse("F" + n, 5);
    built.on("F" + n, "P1");
    built.load("L" + n);
    built.wire("OUT" + n, "F" + n + ".out", "L" + n + "+");
    built.wire("RET" + n, "L" + n + "-", "NB");
  }
  EXPECT_EQ(amps("BACK"), 60);
}

TEST_F(PairedReturns, LimitedSourceAloneBringsItsLimit) {
  built.limited("SOL", 20);
  built.bus("PB");
  built.bus("NB");
  built.wire("SUN", "SOL+", "PB");
  built.wire("BACK", "NB", "SOL-");
  circuit("1", 5);
  circuit("2", 5);
  EXPECT_EQ(amps("BACK"), 20);
  EXPECT_THAT(by("BACK"), ElementsAre("SOL"));
}

TEST_F(PairedReturns, TwoBatteriesOnOneReturnAddUp) {
  house(60);
  built.battery("BAT2");
  built.fuse("F9", 40);
  built.on("F9", "BAT2+");
  built.wire("MAIN2", "F9.out", "PB");
  built.wire("TIE", "BAT2-", "BAT-");
  built.bus("P1");
  built.wire("ON", "PB", "P1");
  for (const std::string n : {"1", "2"}) {
    built.fuse("F" + n, 5);
    built.on("F" + n, "P1");
    built.load("L" + n);
    built.wire("OUT" + n, "F" + n + ".out", "L" + n + "+");
    built.wire("RET" + n, "L" + n + "-", "NB");
  }
  EXPECT_EQ(amps("BACK"), 100);
  EXPECT_THAT(by("BACK"), ElementsAre("F0", "F9"));
}

TEST_F(PairedReturns, GreaterMainOfAChangeoverCounts) {
  built.battery("BAT");
  built.changeover("S", 2);
  for (const auto& [n, a] : std::vector<std::pair<std::string, double>>{{"M1", 60}, {"M2", 100}}) {
    built.fuse(n, a);
    built.on(n, "BAT+");
    built.wire("TO" + n, n + ".out", n == "M1" ? "S.out1" : "S.out2");
  }
  built.bus("PB");
  built.bus("NB");
  built.wire("MAIN", "S.in", "PB");
  built.wire("BACK", "NB", "BAT-");
  circuit("1", 5);
  circuit("2", 10);
  EXPECT_EQ(amps("BACK"), 100);
  EXPECT_THAT(by("BACK"), ElementsAre("M2"));
  EXPECT_EQ(of("BACK").ways, 1u);
}

TEST_F(PairedReturns, FeedWithoutADeviceIsAMatterForTheFeedSide) {
  bare_house();
  circuit("1", 5);
  circuit("2", 10);
  EXPECT_EQ(amps("BACK"), 15);
}

}  // namespace
}  // namespace loomleaf
