// Stretches of exposed conductors against the rows of a rulebook; each plan says why it ends as it does.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "protection/support/stretch.h"

namespace loomleaf {
namespace {

using test::Stretch;
using testing::ElementsAre;
using testing::IsEmpty;

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
