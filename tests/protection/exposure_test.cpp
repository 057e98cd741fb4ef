// Stretches of exposed conductors against the rows of a rulebook; each plan says why it ends as it does.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "protection/support/judge.h"

namespace loomleaf {
namespace {

using test::Judged;
using test::TestPlan;
using testing::ElementsAre;
using testing::IsEmpty;

class Stretch : public testing::Test {
 protected:
  const ConductorProtection& of(const std::string& wire) {
    judged = test::judge(built, book);
    return judged.protection.conductors[built.conductor(wire)];
  }
  double length(const std::string& wire) { return of(wire).exposed_length.value_or(metres(-1)).in(metres); }
  std::vector<std::string> beyond(const std::string& wire) { return test::names(built.plan, of(wire).beyond); }

  // The book's one row (457.2 mm, NEC 552.10(E)(4)) and what a test adds to it.
  PositionRow& add_row(std::optional<Length> longest) {
    book.positions.emplace_back();
    book.positions.back().longest = longest;
    return book.positions.back();
  }

  TestPlan built;
  Rulebook book = test::plain_book();
  Judged judged;
};

TEST_F(Stretch, LeadToItsFuseIsToleratedUpToTheBooksLength) {
  built.battery("BAT");
  built.fuse("F0", 60);
  built.wire("LEAD", "BAT+", "F0.in", 100, 0.4572);
  EXPECT_TRUE(of("LEAD").exposed);
  EXPECT_EQ(of("LEAD").exposure, Exposure::tolerated);
  EXPECT_DOUBLE_EQ(length("LEAD"), 0.4572);
  EXPECT_EQ(of("LEAD").fed_at, built.terminal("BAT+"));
  EXPECT_EQ(of("LEAD").tolerance->longest, millimetres(457.2));
}

TEST_F(Stretch, FuseAtTheWrongEndIsTooFar) {
  built.battery("BAT");
  built.fuse("F0", 60);
  built.wire("LEAD", "BAT+", "F0.in", 100, 0.458);
  EXPECT_EQ(of("LEAD").exposure, Exposure::too_far);
}

TEST_F(Stretch, ThinLeadToABigFuseIsTooThin) {
  built.battery("BAT");
  built.fuse("F0", 60);
  built.wire("LEAD", "BAT+", "F0.in", 59, 0.2);
  EXPECT_EQ(of("LEAD").exposure, Exposure::too_thin_for_device);
  EXPECT_THAT(beyond("LEAD"), ElementsAre("F0"));
  EXPECT_DOUBLE_EQ(of("LEAD").beyond_rating->in(amperes), 60);
}

TEST_F(Stretch, LengthRunsOnThroughAnIsolator) {
  built.battery("BAT");
  built.isolator("S0");
  built.fuse("F0", 60);
  built.wire("W1", "BAT+", "S0.in", 100, 0.2);
  built.wire("W2", "S0.out", "F0.in", 100, 0.3);
  EXPECT_EQ(of("W1").exposure, Exposure::tolerated);
  EXPECT_DOUBLE_EQ(length("W1"), 0.2);
  EXPECT_EQ(of("W2").exposure, Exposure::too_far);
  EXPECT_DOUBLE_EQ(length("W2"), 0.5);
}

TEST_F(Stretch, IsolatorOnThePostIsPartOfIt) {
  built.battery("BAT");
  built.isolator("S0");
  built.on("S0", "BAT+");
  built.fuse("F0", 60);
  built.wire("W1", "S0.out", "F0.in", 100, 0.4);
  EXPECT_EQ(of("W1").exposure, Exposure::tolerated);
  EXPECT_EQ(of("W1").fed_at, built.terminal("BAT+"));
}

TEST_F(Stretch, LeadStraightToALoadIsOpen) {
  built.battery("BAT");
  built.load("L");
  built.wire("OUT", "BAT+", "L+", 100, 0.1);
  EXPECT_EQ(of("OUT").exposure, Exposure::open_stretch);
  EXPECT_THAT(beyond("OUT"), ElementsAre("L"));
}

TEST_F(Stretch, LeadsThatMeetAtThePostAloneAreJudgedEachForItself) {
  built.battery("BAT");
  built.load("L");
  built.fuse("F0", 60);
  built.wire("OUT", "BAT+", "L+", 100, 0.1);
  built.wire("LEAD", "BAT+", "F0.in", 100, 0.1);
  EXPECT_EQ(of("OUT").exposure, Exposure::open_stretch);
  EXPECT_EQ(of("LEAD").exposure, Exposure::tolerated);
}

TEST_F(Stretch, OneOpenEndSpoilsAllThatMeetsAwayFromThePost) {
  built.battery("BAT");
  built.bus("PB");
  built.load("L");
  built.fuse("F0", 60);
  built.on("F0", "PB");
  built.wire("LEAD", "BAT+", "PB", 100, 0.1);
  built.wire("OUT", "PB", "L+", 100, 0.1);
  EXPECT_EQ(of("LEAD").exposure, Exposure::open_stretch);
  EXPECT_EQ(of("OUT").exposure, Exposure::open_stretch);
}

TEST_F(Stretch, BusOfFusesIsNoOpenEnd) {
  built.battery("BAT");
  built.bus("PB");
  for (const std::string id : {"F1", "F2"}) {
    built.fuse(id, 10);
    built.on(id, "PB");
  }
  built.wire("LEAD", "BAT+", "PB", 100, 0.1);
  EXPECT_EQ(of("LEAD").exposure, Exposure::tolerated);
}

TEST_F(Stretch, BusThatLeadsNowhereIsOpen) {
  built.battery("BAT");
  built.bus("PB");
  built.wire("LEAD", "BAT+", "PB", 100, 0.1);
  EXPECT_EQ(of("LEAD").exposure, Exposure::open_stretch);
  EXPECT_THAT(beyond("LEAD"), ElementsAre("PB"));
}

TEST_F(Stretch, TailAndLooseSwitchAreOpen) {
  built.battery("BAT");
  built.tail("T");
  built.isolator("S");
  built.wire("SPARE", "BAT+", "T", 100, 0.1);
  built.wire("HALF", "BAT+", "S.in", 100, 0.1);
  EXPECT_THAT(beyond("SPARE"), ElementsAre("T"));
  EXPECT_THAT(beyond("HALF"), ElementsAre("S"));
}

TEST_F(Stretch, FreeContactOfARelayInUseIsNoOpenEnd) {
  built.battery("BAT");
  built.relay("R");
  built.fuse("F0", 60);
  built.wire("W1", "BAT+", "R.30", 100, 0.2);
  built.wire("W2", "R.87", "F0.in", 100, 0.2);
  EXPECT_EQ(of("W1").exposure, Exposure::tolerated);
  EXPECT_EQ(of("W2").exposure, Exposure::tolerated);
  EXPECT_DOUBLE_EQ(length("W2"), 0.4);
}

TEST_F(Stretch, ConverterInputIsOpen) {
  built.battery("BAT");
  built.converter("DC", 10);
  built.wire("IN", "BAT+", "DC.in+", 100, 0.1);
  EXPECT_EQ(of("IN").exposure, Exposure::open_stretch);
  EXPECT_THAT(beyond("IN"), ElementsAre("DC"));
}

// Two batteries joined in a bus: seen from either post the far lead is the sum of both.
TEST_F(Stretch, LinkedBatteriesAreSeenFromBothPosts) {
  built.battery("BAT1");
  built.battery("BAT2");
  built.bus("PB");
  built.fuse("F0", 60);
  built.on("F0", "PB");
  built.wire("LINK1", "BAT1+", "PB", 100, 0.2);
  built.wire("LINK2", "BAT2+", "PB", 100, 0.25);
  EXPECT_EQ(of("LINK1").exposure, Exposure::tolerated);
  EXPECT_DOUBLE_EQ(length("LINK1"), 0.45);
  EXPECT_DOUBLE_EQ(length("LINK2"), 0.45);
  built.figures[built.conductor("LINK2")].length = metres(0.3);
  EXPECT_EQ(of("LINK1").exposure, Exposure::too_far);
  EXPECT_EQ(of("LINK1").fed_at, built.terminal("BAT2+"));
}

TEST_F(Stretch, SeriesLinkEndsAtASourceTerminal) {
  built.battery("A");
  built.battery("B");
  built.wire("LINK", "A+", "B-", 100, 0.3);
  EXPECT_EQ(of("LINK").exposure, Exposure::tolerated);
  EXPECT_EQ(of("LINK").fed_at, built.terminal("A+"));
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

// 60 A reach the thin piece, which carries 20 A; on either side the run is thick enough.
TEST_F(Stretch, ThinPieceInTheMiddleOfARunIsOpen) {
  built.battery("BAT");
  built.fuse("F0", 60);
  built.on("F0", "BAT+");
  built.load("L");
  for (const char* id : {"SP1", "SP2"}) built.bus(id);
  built.wire("THICK1", "F0.out", "SP1", 80, 1);
  built.wire("THIN", "SP1", "SP2", 20, 0.1);
  built.wire("THICK2", "SP2", "L+", 80, 1);
  EXPECT_EQ(of("THICK1").exposure, Exposure::protected_);
  EXPECT_EQ(of("THIN").exposure, Exposure::open_stretch);
  EXPECT_FALSE(of("THIN").unbounded);
  EXPECT_THAT(of("THIN").further, ElementsAre(built.conductor("THICK2")));
  EXPECT_THAT(beyond("THIN"), IsEmpty());
}

TEST_F(Stretch, ThinTapToItsOwnFuseIsTolerated) {
  built.battery("BAT");
  built.fuse("F0", 60);
  built.on("F0", "BAT+");
  built.bus("PB");
  built.fuse("F1", 10);
  built.load("L");
  built.wire("MAIN", "F0.out", "PB", 80, 3);
  built.wire("TAP", "PB", "F1.in", 20, 0.3);
  built.wire("OUT", "F1.out", "L+", 20, 5);
  EXPECT_EQ(of("TAP").exposure, Exposure::tolerated);
  EXPECT_DOUBLE_EQ(length("TAP"), 0.3);  // counted anew from where the run gets thin
  EXPECT_EQ(of("OUT").exposure, Exposure::protected_);
}

// 10 A from either end, 20 A in the middle: no single end brings more than the 15 A of the wires between the two
// fuses, so each is taken as fed from both.
TEST_F(Stretch, FeedsThatExceedOnlyTogetherCountFromEveryPoint) {
  for (const std::string n : {"1", "2"}) {
    built.battery("BAT" + n);
    built.fuse("F" + n, 10);
    built.on("F" + n, "BAT" + n + "+");
  }
  built.bus("PB");
  built.fuse("F3", 5);
  built.wire("A", "F1.out", "PB", 15, 0.1);
  built.wire("B", "F2.out", "PB", 15, 0.1);
  built.wire("TAP", "PB", "F3.in", 15, 0.3);
  EXPECT_EQ(of("A").exposure, Exposure::protected_);   // 10 A from either end
  EXPECT_EQ(of("TAP").exposure, Exposure::tolerated);  // 20 A from PB
  EXPECT_DOUBLE_EQ(length("TAP"), 0.3);
}

TEST_F(Stretch, StarterIsOpenWhereTheBookIsSilent) {
  built.battery("BAT");
  built.load("ST", Load::Kind::starter);
  built.wire("LEAD", "BAT+", "ST+", 100, 0.3);
  EXPECT_EQ(of("LEAD").exposure, Exposure::open_stretch);
}

TEST_F(Stretch, StarterIsToleratedWhereTheBookSaysSo) {
  built.battery("BAT");
  built.load("ST", Load::Kind::starter);
  built.fuse("F1", 30);
  built.wire("LEAD", "BAT+", "ST+", 100, 2.5);
  add_row(std::nullopt).only_starter = true;
  EXPECT_EQ(of("LEAD").exposure, Exposure::tolerated);
  EXPECT_TRUE(of("LEAD").tolerance->only_starter);
  // A feed taken on from the starter's stud is no starter lead.
  built.wire("ON", "ST+", "F1.in", 100, 0.3);
  EXPECT_EQ(of("LEAD").exposure, Exposure::tolerated);
  EXPECT_EQ(of("ON").exposure, Exposure::too_far);
  EXPECT_DOUBLE_EQ(length("ON"), 2.8);
}

TEST_F(Stretch, SheathedRowHoldsOnlyIfSheathedAllTheWay) {
  built.battery("BAT");
  built.bus("SP");
  built.fuse("F0", 60);
  add_row(millimetres(1016)).only_sheathed = true;
  built.wire("W1", "BAT+", "SP", 100, 0.6, true);
  built.wire("W2", "SP", "F0.in", 100, 0.3, false);
  EXPECT_EQ(of("W1").exposure, Exposure::tolerated);
  EXPECT_EQ(of("W1").tolerance->longest, millimetres(1016));
  EXPECT_EQ(of("W2").exposure, Exposure::too_far);
  built.routes.runs[RunId(1)].sheathed_throughout = true;
  EXPECT_EQ(of("W2").exposure, Exposure::tolerated);
}

TEST_F(Stretch, BatteryRowHoldsOnlyFromABattery) {
  add_row(millimetres(1828.8)).only_from_battery = true;
  built.battery("BAT");
  built.limited("ALT", 90, 14.4, Source::Kind::alternator);
  for (const std::string id : {"BAT", "ALT"}) {
    built.fuse("F" + id, 60);
    built.wire("LEAD" + id, id + "+", "F" + id + ".in", 70, 1.5);
  }
  EXPECT_EQ(of("LEADBAT").exposure, Exposure::tolerated);
  EXPECT_EQ(of("LEADALT").exposure, Exposure::too_far);
}

// ISO 13297:2020 12.3: the device of a charging source may sit 1,8 m from it
TEST_F(Stretch, ChargerRowHoldsOnlyFromACharger) {
  add_row(millimetres(1800)).only_from_charger = true;
  built.battery("BAT");
  built.limited("ALT", 90, 14.4, Source::Kind::alternator);
  built.limited("SUP", 90, 14.4, Source::Kind::supply);
  for (const std::string id : {"BAT", "ALT", "SUP"}) {
    built.fuse("F" + id, 60);
    built.wire("LEAD" + id, id + "+", "F" + id + ".in", 70, 1.8);
  }
  EXPECT_EQ(of("LEADALT").exposure, Exposure::tolerated);
  EXPECT_EQ(of("LEADBAT").exposure, Exposure::too_far);
  EXPECT_EQ(of("LEADSUP").exposure, Exposure::too_far);
}

TEST_F(Stretch, ChargerRowHoldsUpToItsLength) {
  add_row(millimetres(1800)).only_from_charger = true;
  built.limited("ALT", 90, 14.4, Source::Kind::alternator);
  built.fuse("F1", 60);
  built.wire("LEAD", "ALT+", "F1.in", 70, 1.81);
  EXPECT_EQ(of("LEAD").exposure, Exposure::too_far);
}

// The charger's lead is fed by the battery from the far end: 30 A reach it there over F0, and it carries 25 A.
TEST_F(Stretch, ChargersLeadIsSeenFromTheBatterysEnd) {
  built.battery("BAT");
  built.fuse("F0", 30);
  built.on("F0", "BAT+");
  built.bus("PB");
  built.limited("CH", 20);
  built.wire("MAIN", "F0.out", "PB", 40, 1);
  built.wire("CHARGE", "CH+", "PB", 25, 2);
  EXPECT_EQ(of("CHARGE").exposure, Exposure::open_stretch);  // short or long, it wants a device there
  EXPECT_EQ(of("CHARGE").fed_at, built.terminal("PB"));
  EXPECT_DOUBLE_EQ(length("CHARGE"), 2);
}

TEST_F(Stretch, SenseLeadIsOpenAtItsTerminal) {
  built.battery("BAT");
  built.load("MON");
  built.also("MON", "sense");
  built.wire("SENSE", "BAT+", "MON.sense", 3, 0.2);
  built.make_signal("SENSE");
  EXPECT_EQ(of("SENSE").side, ConductorSide::signal);
  EXPECT_EQ(of("SENSE").exposure, Exposure::open_stretch);
  EXPECT_THAT(beyond("SENSE"), ElementsAre("MON"));
}

TEST_F(Stretch, ThinReturnBehindABigFuseIsNeverTolerated) {
  built.battery("BAT");
  built.fuse("F0", 30);
  built.on("F0", "BAT+");
  built.load("L");
  built.wire("OUT", "F0.out", "L+", 40, 1);
  built.wire("RET", "L-", "BAT-", 10, 0.1);
  EXPECT_TRUE(of("RET").exposed);
  EXPECT_EQ(of("RET").exposure, Exposure::exposed_return);
  EXPECT_FALSE(of("RET").exposed_length);
}

TEST_F(Stretch, UnknownAmpacityIsExposedToABatteryAlone) {
  built.battery("BAT");
  built.fuse("F0", 30);
  built.load("L");
  built.wire("LEAD", "BAT+", "F0.in", 1, 2);
  built.wire("OUT", "F0.out", "L+", 1, 2);
  for (ConductorFigures& figure : built.figures) figure.may_carry.reset();
  EXPECT_EQ(of("LEAD").exposure, Exposure::too_far);
  EXPECT_FALSE(of("OUT").exposed);
}

// With every way closed the two leads of a changeover meet, whichever way it stands in.
TEST_F(Stretch, ChangeoverJoinsTheLeadsOfBothItsWays) {
  built.changeover("S", 2);
  built.fuse("F0", 60);
  for (const std::string n : {"1", "2"}) {
    built.battery("BAT" + n);
    built.wire("LEAD" + n, "BAT" + n + "+", "S.out" + n, 100, 0.2);
  }
  built.wire("ON", "S.in", "F0.in", 100, 0.2);
  EXPECT_DOUBLE_EQ(length("ON"), 0.4);
  EXPECT_EQ(of("ON").exposure, Exposure::tolerated);
  EXPECT_DOUBLE_EQ(length("LEAD1"), 0.4);  // from the other battery's post, across the switch
}

}  // namespace
}  // namespace loomleaf
