// Returns between several batteries, and those that two ways lead back by: small enough to work out by hand.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "protection/support/let_through.h"

namespace loomleaf {
namespace {

using test::LetThrough;
using testing::ElementsAre;

// A battery is a load to any other that holds more.
class LetThroughBetweenBanks : public LetThrough {
 protected:
  // A battery with a fuse on its post, joined to PB by its fuse and to a bus of negatives.
  void bank(const std::string& id, double fuse_A, const std::string& negatives = "NB") {
    built.battery(id);
    built.fuse("F" + id, fuse_A);
    built.on("F" + id, id + "+");
    built.wire("P" + id, "F" + id + ".out", "PB");
    built.wire("N" + id, id + "-", negatives);
  }
  void buses() {
    built.bus("PB");
    built.bus("NB");
  }
};

TEST_F(LetThroughBetweenBanks, NegativeLinkCarriesWhatOneBatterySendsIntoTheOther) {
  for (const std::string id : {"H", "S"}) {
    built.battery(id);
    built.fuse("F" + id, 80);
    built.on("F" + id, id + "+");
  }
  built.wire("LINK", "FH.out", "FS.out", 100);
  built.wire("W7", "S-", "H-", 20);
  EXPECT_EQ(amps("W7"), 80);
  EXPECT_THAT(by("W7"), ElementsAre("FS"));  // next to S, which H feeds
  EXPECT_EQ(of("W7").exposure, Exposure::exposed_return);
  EXPECT_EQ(of("LINK").exposure, Exposure::protected_);
}

TEST_F(LetThroughBetweenBanks, SmallerFuseOfTheTwoHoldsTheNegativeLink) {
  buses();
  bank("H", 80);
  bank("S", 30);
  EXPECT_EQ(amps("NH"), 30);
  EXPECT_EQ(amps("NS"), 30);
  EXPECT_THAT(by("NH"), ElementsAre("FS"));
}

TEST_F(LetThroughBetweenBanks, NegativeLinkIsExposedFromJustAboveWhatItMayCarry) {
  built.battery("H");
  built.battery("S");
  built.fuse("F", 80);
  built.on("F", "H+");
  built.wire("LINK", "F.out", "S+", 100);
  built.wire("BARE", "S-", "H-", 79.9);
  EXPECT_EQ(of("BARE").exposure, Exposure::exposed_return);
  built.figures[built.conductor("BARE")].may_carry = amperes(80);
  EXPECT_EQ(of("BARE").exposure, Exposure::protected_);
}

// The link between the posts is a matter of its own; so is the one between the negatives, which is like it.
TEST_F(LetThroughBetweenBanks, BatteriesInParallelThroughNoDeviceAreNoLoadToEachOther) {
  built.battery("H1");
  built.battery("H2");
  built.wire("POSTS", "H1+", "H2+");
  built.wire("NEGATIVES", "H1-", "H2-");
  EXPECT_TRUE(of("POSTS").unbounded);
  EXPECT_EQ(amps("NEGATIVES"), 0);
  built.fuse("F", 40);
  built.on("F", "H1+");
  built.load("L");
  built.wire("OUT", "F.out", "L+");
  built.wire("RET", "L-", "H1-");
  EXPECT_EQ(amps("NEGATIVES"), 40);  // what H2 gives to the load
}

// What S sends into the two of a bank may all go into the far one.
TEST_F(LetThroughBetweenBanks, LinkWithinABankCarriesWhatAnotherBankSends) {
  buses();
  bank("H1", 200);
  bank("S", 50);
  built.battery("H2");
  built.wire("POSTS", "H1+", "H2+");
  built.wire("NEGATIVES", "H1-", "H2-");
  EXPECT_EQ(amps("NEGATIVES"), 50);
  EXPECT_THAT(by("NEGATIVES"), ElementsAre("FS"));
}

// The negatives in a ring: whichever way round, the thin one may be all that is left.
TEST_F(LetThroughBetweenBanks, NegativesInARingCarryTheWholeEach) {
  buses();
  bank("H", 80);
  bank("S", 60);
  built.wire("THIN", "H-", "S-");
  EXPECT_EQ(amps("THIN"), 60);
  EXPECT_EQ(amps("NH"), 60);
  EXPECT_THAT(by("THIN"), ElementsAre("FS"));
}

// Of four alike two may feed the other two.
TEST_F(LetThroughBetweenBanks, SeveralBanksMayFeedSeveral) {
  buses();
  built.bus("NB2");
  built.bus("NB3");
  bank("B1", 50);
  bank("B2", 50);
  bank("B3", 50, "NB2");
  bank("B4", 50, "NB3");
  built.wire("R1", "NB", "NB2");
  built.wire("R2", "NB2", "NB3");
  built.wire("R3", "NB3", "NB");
  EXPECT_EQ(amps("R1"), 100);
  EXPECT_EQ(amps("NB1"), 50);
  EXPECT_EQ(amps("NB3"), 50);
}

TEST_F(LetThroughBetweenBanks, ChargerSendsItsLimitAndTakesNothing) {
  buses();
  bank("H", 100);
  built.limited("SUN", 20);
  built.wire("PSUN", "SUN+", "PB");
  built.wire("NSUN", "SUN-", "NB");
  EXPECT_EQ(amps("NH"), 20);
  EXPECT_THAT(by("NH"), ElementsAre("SUN"));
  EXPECT_EQ(amps("NSUN"), 20);
}

// Two strings of two: what one sends runs through both batteries of the other.
TEST_F(LetThroughBetweenBanks, ChainIsALoadAsAWhole) {
  buses();
  for (const std::string n : {"1", "2"}) {
    built.battery("A" + n);
    built.battery("B" + n);
    built.wire("MID" + n, "A" + n + "+", "B" + n + "-");
    built.fuse("F" + n, 40);
    built.on("F" + n, "B" + n + "+");
    built.wire("TOP" + n, "F" + n + ".out", "PB");
    built.wire("BACK" + n, "A" + n + "-", "NB");
  }
  EXPECT_EQ(amps("BACK1"), 40);
  EXPECT_EQ(amps("BACK2"), 40);
}

// Two batteries at two voltages meet over a converter alone: it gives its A, and nothing comes back.
TEST_F(LetThroughBetweenBanks, ConverterSendsItsRatingIntoTheBatteryBehindIt) {
  house(60);
  built.battery("AUX");
  built.converter("DC", 30);
  built.fuse("FI", 50);
  built.on("FI", "PB");
  built.wire("IN", "FI.out", "DC.in+");
  built.wire("OUT", "DC.out+", "AUX+");
  built.wire("NDC", "DC.in-", "NB");
  built.wire("NAUX", "AUX-", "NB");
  EXPECT_EQ(amps("NAUX"), 30);
  EXPECT_THAT(by("NAUX"), ElementsAre("DC"));
}

// Both negatives of a converter that is not isolated run to the negative bus. Its input brings what its fuse lets
// through from the battery; what it gives comes back to it the other way. Never both at once.
class LetThroughOfPairedNegatives : public LetThrough {
 protected:
  void converter_with_two_negatives(double input_fuse_A, double rating_A) {
    house(100);
    built.fuse("FI", input_fuse_A);
    built.on("FI", "PB");
    built.converter("DC", rating_A, 5);
    built.wire("IN", "FI.out", "DC.in+");
    built.wire("NIN", "DC.in-", "NB");
    built.wire("NOUT", "DC.out-", "NB");
    built.fuse("FO", 50);
    built.wire("OUT", "DC.out+", "FO.in");
    built.load("L");
    built.wire("ON", "FO.out", "L+");
    built.wire("RET", "L-", "NB");
  }
};

TEST_F(LetThroughOfPairedNegatives, CarryTheInputsWhereThatIsMore) {
  converter_with_two_negatives(20, 15);
  EXPECT_EQ(amps("NIN"), 20);
  EXPECT_EQ(amps("NOUT"), 20);
  EXPECT_THAT(by("NIN"), ElementsAre("FI"));
}

TEST_F(LetThroughOfPairedNegatives, CarryTheOutputsWhereThatIsMore) {
  converter_with_two_negatives(10, 15);
  EXPECT_EQ(amps("NIN"), 15);
  EXPECT_EQ(amps("NOUT"), 15);
  EXPECT_THAT(by("NOUT"), ElementsAre("DC"));
}

// A load that returns to the converter itself is no third: it brings nothing to the bus from its own supply.
TEST_F(LetThroughOfPairedNegatives, CarryWhatReturnsAtTheConverterFromTheBattery) {
  converter_with_two_negatives(10, 12);
  built.fuse("F2", 5);
  built.on("F2", "PB");
  built.load("L2");
  built.wire("OUT2", "F2.out", "L2+");
  built.wire("RET2", "L2-", "DC.in-");
  EXPECT_EQ(amps("NIN"), 15);
  EXPECT_THAT(by("NIN"), ElementsAre("FI", "F2"));
}

// A third way round, over another bus: what the battery brings to the converter has to leave at the bus, what the
// converter brings to the bus at the converter, and neither passes a conductor both ways.
TEST_F(LetThroughOfPairedNegatives, InAWiderRingCarryTheGreaterToo) {
  converter_with_two_negatives(20, 15);
  built.bus("NB2");
  built.wire("WAY", "DC.in-", "NB2");
  built.wire("ROUND", "NB2", "NB");
  EXPECT_EQ(amps("NIN"), 20);
  EXPECT_EQ(amps("WAY"), 20);
  EXPECT_THAT(by("ROUND"), ElementsAre("FI"));
}

TEST_F(LetThroughOfPairedNegatives, ParallelReturnMainsEachSeeTheWhole) {
  house(60);
  circuit("1", 5);
  circuit("2", 10);
  built.wire("BACK2", "NB", "BAT-");
  built.load("L3");
  built.fuse("F3", 20);
  built.on("F3", "PB");
  built.wire("OUT3", "F3.out", "L3+");
  built.wire("RET3", "L3-", "BAT-");
  EXPECT_EQ(amps("BACK"), 15);  // what returns at the battery's post passes neither
  EXPECT_EQ(amps("BACK2"), 15);
}

}  // namespace
}  // namespace loomleaf
