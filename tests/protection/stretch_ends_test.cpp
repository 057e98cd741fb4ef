// Stretches between supplies: what they end at, and where their length is counted from.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "protection/support/stretch.h"

namespace loomleaf {
namespace {

using test::Stretch;
using testing::ElementsAre;

// Two batteries joined in a bus are one bank: what counts is how far a lead is from the nearest of its posts.
TEST_F(Stretch, LeadsOfABankAreMeasuredFromTheNearestPost) {
  built.battery("BAT1");
  built.battery("BAT2");
  built.bus("PB");
  built.fuse("F0", 60);
  built.on("F0", "PB");
  built.wire("LINK1", "BAT1+", "PB", 100, 0.2);
  built.wire("LINK2", "BAT2+", "PB", 100, 0.4572);
  EXPECT_EQ(of("LINK1").exposure, Exposure::tolerated);
  EXPECT_EQ(of("LINK2").exposure, Exposure::tolerated);
  EXPECT_DOUBLE_EQ(length("LINK1"), 0.2);
  EXPECT_DOUBLE_EQ(length("LINK2"), 0.4572);
  built.figures[built.conductor("LINK2")].length = metres(0.4573);
  EXPECT_EQ(of("LINK2").exposure, Exposure::too_far);
  EXPECT_EQ(of("LINK2").fed_at, built.terminal("BAT2+"));
  EXPECT_EQ(of("LINK1").exposure, Exposure::tolerated);
}

// Four in a row: each link is as far from a post as half of it, wherever the rest of the bank stands.
TEST_F(Stretch, LinksOfARowOfBatteriesAreMeasuredFromTheirOwnPosts) {
  for (const char* id : {"B1", "B2", "B3", "B4"}) built.battery(id);
  built.fuse("F0", 60);
  built.on("F0", "B1+");
  built.wire("LINK1", "B1+", "B2+", 100, 0.3);
  built.wire("LINK2", "B2+", "B3+", 100, 0.3);
  built.wire("LINK3", "B3+", "B4+", 100, 0.5);
  for (const char* id : {"LINK1", "LINK2", "LINK3"}) EXPECT_EQ(of(id).exposure, Exposure::tolerated) << id;
  EXPECT_DOUBLE_EQ(length("LINK1"), 0.15);
  EXPECT_DOUBLE_EQ(length("LINK3"), 0.25);
  built.figures[built.conductor("LINK3")].length = metres(0.501);  // no link of batteries that stand side by side
  EXPECT_EQ(of("LINK3").exposure, Exposure::too_far);
  EXPECT_DOUBLE_EQ(length("LINK3"), 0.501);
  EXPECT_EQ(of("LINK1").exposure, Exposure::tolerated);
}

// A contact parts them: the lead beyond it may be fed from the far battery alone.
TEST_F(Stretch, LeadsBeyondAContactAreMeasuredFromTheFarBatteryToo) {
  built.battery("B1");
  built.battery("B2");
  built.isolator("S");
  built.wire("W1", "B1+", "S.in", 100, 0.3);
  built.wire("W2", "S.out", "B2+", 100, 0.3);
  EXPECT_EQ(of("W1").exposure, Exposure::too_far);
  EXPECT_DOUBLE_EQ(length("W1"), 0.6);
}

TEST_F(Stretch, SeriesLinkEndsAtASourceTerminal) {
  built.battery("A");
  built.battery("B");
  built.wire("LINK", "A+", "B-", 100, 0.3);
  EXPECT_EQ(of("LINK").exposure, Exposure::tolerated);
  EXPECT_EQ(of("LINK").fed_at, built.terminal("A+"));
}

TEST_F(Stretch, SeriesLinkIsMeasuredFromTheNearerOfItsTwoPosts) {
  built.battery("A");
  built.battery("B");
  built.wire("LINK", "A+", "B-", 100, 0.5);
  EXPECT_EQ(of("LINK").exposure, Exposure::tolerated);
  EXPECT_DOUBLE_EQ(length("LINK"), 0.25);
  built.figures[built.conductor("LINK")].length = metres(0.501);
  EXPECT_EQ(of("LINK").exposure, Exposure::too_far);
}

// Two pieces side by side from the post to the fuse: either may be the one that is left when the other comes loose.
TEST_F(Stretch, EachOfTwoSideBySideHasToBearTheFuseBeyond) {
  for (const bool thin_first : {true, false}) {
    built = {};
    built.battery("BAT");
    built.fuse("F", 60);
    built.load("L");
    built.wire(thin_first ? "THIN" : "THICK", "BAT+", "F.in", thin_first ? 30 : 100, 0.1);
    built.wire(thin_first ? "THICK" : "THIN", "BAT+", "F.in", thin_first ? 100 : 30, thin_first ? 0.1 : 0.101);
    built.wire("OUT", "F.out", "L+", 100, 1);
    built.wire("BACK", "L-", "BAT-", 100, 1);
    EXPECT_EQ(of("THIN").exposure, Exposure::too_thin_for_device);
    EXPECT_THAT(beyond("THIN"), ElementsAre("F"));
    EXPECT_EQ(of("THICK").exposure, Exposure::tolerated);
  }
}

TEST_F(Stretch, EachOfTwoWaysOfLikeLengthHasToBearTheFuseBeyond) {
  built.battery("BAT");
  built.fuse("F", 60);
  built.bus("P1");
  built.bus("P2");
  built.wire("THICK1", "BAT+", "P1", 100, 0.1);
  built.wire("THICK2", "P1", "F.in", 100, 0.1);
  built.wire("THIN1", "BAT+", "P2", 30, 0.1);
  built.wire("THIN2", "P2", "F.in", 30, 0.1);
  for (const char* id : {"THIN1", "THIN2"}) EXPECT_EQ(of(id).exposure, Exposure::too_thin_for_device) << id;
  for (const char* id : {"THICK1", "THICK2"}) EXPECT_EQ(of(id).exposure, Exposure::tolerated) << id;
}

TEST_F(Stretch, SeriesLinkHasToBearTheFuseOfItsBank) {
  built.battery("A");
  built.battery("B");
  built.fuse("F1", 100);
  built.on("F1", "B+");
  built.wire("LINK", "A+", "B-", 99, 0.3);
  EXPECT_EQ(of("LINK").exposure, Exposure::too_thin_for_device);
  EXPECT_THAT(beyond("LINK"), ElementsAre("F1"));
  built.figures[built.conductor("LINK")].may_carry = amperes(100);
  EXPECT_EQ(of("LINK").exposure, Exposure::tolerated);
}

TEST_F(Stretch, SeriesLinksBearTheFuseAtTheFarEndOfTheLeadAboveThem) {
  for (const char* id : {"A", "B", "C"}) built.battery(id);
  built.fuse("F1", 100);
  built.wire("LINK1", "A+", "B-", 99, 0.3);
  built.wire("LINK2", "B+", "C-", 101, 0.3);
  built.wire("LEAD", "C+", "F1.in", 101, 0.3);
  EXPECT_EQ(of("LINK1").exposure, Exposure::too_thin_for_device);
  EXPECT_EQ(of("LINK2").exposure, Exposure::tolerated);
}

// The lead from the middle of the bank bears its own fuse alone: what flows in it does not go on through the bank.
TEST_F(Stretch, TapOfASeriesBankBearsItsOwnFuseAlone) {
  built.battery("A");
  built.battery("B");
  built.fuse("F1", 100);
  built.on("F1", "B+");
  built.fuse("F2", 20);
  built.wire("LINK", "A+", "B-", 100, 0.3);
  built.wire("TAP", "B-", "F2.in", 20, 0.1);
  EXPECT_EQ(of("LINK").exposure, Exposure::tolerated);
  EXPECT_EQ(of("TAP").exposure, Exposure::tolerated);
  built.figures[built.conductor("TAP")].may_carry = amperes(19);
  EXPECT_EQ(of("TAP").exposure, Exposure::too_thin_for_device);
}

TEST_F(Stretch, TieBetweenTheMiddlesOfTwoStringsBearsTheFuseOfTheOther) {
  for (const char* id : {"A1", "A2", "B1", "B2"}) built.battery(id);
  built.fuse("FA", 60);
  built.fuse("FB", 100);
  built.on("FA", "A2+");
  built.on("FB", "B2+");
  built.wire("LINKA", "A1+", "A2-", 100, 0.1);
  built.wire("LINKB", "B1+", "B2-", 100, 0.1);
  built.wire("TIE", "A1+", "B1+", 99, 0.1);
  EXPECT_EQ(of("TIE").exposure, Exposure::too_thin_for_device);
  EXPECT_THAT(beyond("TIE"), ElementsAre("FB"));
}

// What comes from the charger's fuse along a lead that bears it is no matter for a lamp's lead at the post: that one is
// counted from the post on (the length starts anew where the size falls: ISO 13297 12.3, NEC 240.21(B), from memory).
TEST_F(Stretch, WayThatBearsWhatComesAlongItIsNotCounted) {
  built.battery("BAT");
  built.fuse("FA", 90);
  built.fuse("FB", 10);
  built.limited("ALT", 70, 12.8, Source::Kind::alternator);
  built.wire("W0", "BAT+", "FA.in", 100, 0.3);
  built.wire("W1", "FA.out", "ALT+", 100, 2);
  built.wire("W3", "BAT+", "FB.in", 15, 0.3);
  EXPECT_EQ(of("W3").exposure, Exposure::tolerated);
  EXPECT_DOUBLE_EQ(length("W3"), 0.3);
  EXPECT_EQ(of("W3").fed_at, built.terminal("BAT+"));
  built.figures[built.conductor("W0")].may_carry = amperes(69);  // the alternator's limit is above it
  EXPECT_EQ(of("W3").exposure, Exposure::too_far);
  EXPECT_DOUBLE_EQ(length("W3"), 0.6);
}

TEST_F(Stretch, LengthTheFindingIsAboutBelongsToThePointItIsCountedFrom) {
  built.battery("BAT");
  add_row(metres(2)).only_from_battery = true;
  for (const char* id : {"FX", "FR"}) built.fuse(id, 80);
  built.battery("FAR");
  built.bus("SE");
  built.wire("W1", "BAT+", "SE", 70, 0.5);
  built.wire("WF", "FAR+", "FX.in", 100, 0.1);
  built.wire("W3", "FX.out", "SE", 70, 0.3);
  built.wire("W5", "SE", "FR.in", 70, 0.5);
  EXPECT_EQ(of("W5").exposure, Exposure::too_far);
  EXPECT_DOUBLE_EQ(length("W5"), 1.0);                // from BAT+, which the book lets be
  EXPECT_DOUBLE_EQ(of("W5").reach->in(metres), 0.8);  // from FX.out, which it does not
  EXPECT_EQ(of("W5").fed_at, built.terminal("FX.out"));
}

TEST_F(Stretch, TapAtAContactOfAProtectedRunIsFedRightThere) {
  built.battery("BAT");
  built.fuse("F0", 150);
  built.on("F0", "BAT+");
  built.isolator("S0");
  built.load("M");
  built.fuse("FK", 3);
  built.wire("T1", "F0.out", "S0.in", 150, 1);
  built.wire("T2", "S0.out", "M+", 150, 1);
  built.wire("TAP", "S0.out", "FK.in", 10, 0.15);
  EXPECT_EQ(of("TAP").exposure, Exposure::tolerated);
  EXPECT_DOUBLE_EQ(length("TAP"), 0.15);
  built.figures[built.conductor("TAP")].length = metres(0.5);
  EXPECT_EQ(of("TAP").exposure, Exposure::too_far);
}

// ISO 13297 12.3: the charger's own device stands besides the one at the battery.
TEST_F(Stretch, ThatEndsAtAChargingSourceNeedsADevice) {
  built.battery("BAT");
  built.limited("SUN", 5);
  built.wire("LEAD", "SUN+", "BAT+", 6, 0.1);
  EXPECT_EQ(of("LEAD").exposure, Exposure::open_stretch);
  EXPECT_THAT(beyond("LEAD"), ElementsAre("SUN"));
}

TEST_F(Stretch, ThatEndsAtAConvertersOutputNeedsADevice) {
  built.battery("BAT");
  built.converter("DC", 20, 14);
  built.wire("LEAD", "DC.out+", "BAT+", 25, 0.1);
  EXPECT_EQ(of("LEAD").exposure, Exposure::open_stretch);
  EXPECT_THAT(beyond("LEAD"), ElementsAre("DC"));
}

TEST_F(Stretch, BetweenBatteriesThatARelayPartsNeedsADevice) {
  built.battery("A");
  built.battery("B");
  built.relay("K");
  built.wire("W1", "A+", "K.30", 100, 0.1);
  built.wire("W2", "K.87", "B+", 100, 0.1);
  EXPECT_EQ(of("W1").exposure, Exposure::open_stretch);
  EXPECT_THAT(beyond("W1"), ElementsAre("A"));  // seen from the farther one
  EXPECT_THAT(beyond("W2"), ElementsAre("B"));
}

TEST_F(Stretch, BetweenBatteriesOfOneBankNeedsNone) {
  built.battery("A");
  built.battery("B");
  built.wire("LINK", "A+", "B+", 100, 0.1);
  EXPECT_EQ(of("LINK").exposure, Exposure::tolerated);
}

}  // namespace
}  // namespace loomleaf
