// The rules on how current comes back: what opens the return alone, and what flows through metalwork.
#include <gmock/gmock.h>

#include "rules/support/examined.h"

namespace loomleaf::test {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

std::string in_return(const std::string& item, const std::string& in, const std::string& out) {
  return sound_base + item + "\nload X 6 W\nwire A1 PB to X+ 10 AWG red 0.3 m\nwire A2 X- to " + in +
         " 10 AWG black 0.3 m\nwire A3 " + out + " to NB 10 AWG black 0.3 m\n";
}

TEST(SwitchedReturn, ExceptsShunts) {
  EXPECT_TRUE(fires("switched-return", in_return("switch S1 10 A", "S1", "S1")));
  EXPECT_TRUE(fires("switched-return", in_return("fuse S1 10 A blade", "S1", "S1")));
  EXPECT_FALSE(fires("switched-return", in_return("shunt S1 10 A 1 mohm", "S1", "S1")));
}

TEST(SwitchedReturn, ExceptsWhatOpensBothSides) {
  const std::string plan = sound_base + R"(
switch S1 10 A 32 V 2 poles
load X 6 W
wire A1 PB to S1.1.in 10 AWG red 0.3 m
wire A2 S1.1.out to X+ 10 AWG red 0.3 m
wire A3 X- to S1.2.out 10 AWG black 0.3 m
wire A4 S1.2.in to NB 10 AWG black 0.3 m
)";
  EXPECT_FALSE(fires("switched-return", plan));
}

// A switch of two poles, the first in the feed of X; `back` and `rest` are where the second pole lies.
std::string two_poles(const std::string& return_of_x, const std::string& return_of_y) {
  return sound_base + "switch S1 10 A 32 V 2 poles\nload X 6 W\nload Y 6 W\n" +
         "wire A1 PB to S1.1.in 10 AWG red 0.3 m\nwire A2 S1.1.out to X+ 10 AWG red 0.3 m\n"
         "wire A3 PB to Y+ 10 AWG red 0.3 m\nwire A4 S1.2.in to NB 10 AWG black 0.3 m\n"
         "wire A5 X- to " +
         return_of_x + " 10 AWG black 0.3 m\nwire A6 Y- to " + return_of_y + " 10 AWG black 0.3 m\n";
}

TEST(SwitchedReturn, IsJudgedPoleByPole) {
  EXPECT_FALSE(fires("switched-return", two_poles("S1.2.out", "NB")));
  for (const std::string& plan : {two_poles("NB", "S1.2.out"), two_poles("S1.2.out", "S1.2.out")}) {
    const auto findings = findings_of("switched-return", plan);
    ASSERT_EQ(findings.size(), 1u);
    EXPECT_THAT(findings[0].subjects, ElementsAre("S1", "Y"));
    EXPECT_THAT(findings[0].message, HasSubstr("S1 opens the return of Y and not its feed"));
  }
}

TEST(SwitchedReturn, ExceptsWhatPartsABatteryOnBothSides) {
  const std::string plan = R"(
system 12 V rules rv
source BAT 12.8 V low 12.0 V 100 Ah max 100 A short-circuit 500 A
fuse F1 10 A blade
switch S1 60 A 32 V 2 poles
load X 6 W
wire M1 BAT+ to F1 10 AWG red 0.1 m
wire M2 F1 to S1.1.in 10 AWG red 0.1 m
wire M3 BAT- to S1.2.in 10 AWG black 0.1 m
wire A1 S1.1.out to X+ 10 AWG red 0.3 m
wire A2 X- to S1.2.out 10 AWG black 0.3 m
)";
  EXPECT_FALSE(fires("switched-return", plan));
  EXPECT_TRUE(fires("switched-return", plan + "load Y 6 W\nwire B1 F1 to Y+ 10 AWG red 0.3 m\n"
                                              "wire B2 Y- to S1.2.out 10 AWG black 0.3 m\n"));
  // Past the pole there is a return as well: it opens nothing.
  EXPECT_FALSE(fires("switched-return", plan + "load Y 6 W\nwire B1 F1 to Y+ 10 AWG red 0.3 m\n"
                                               "wire B2 Y- to S1.2.out 10 AWG black 0.3 m\n"
                                               "wire B3 S1.2.out to BAT- 10 AWG black 0.3 m\n"));
}

TEST(ChassisReturn, LeavesABondAtRestAlone) {
  EXPECT_FALSE(fires("chassis-return", sound_base + a_lamp + "chassis FR\nwire B1 NB to FR 8 AWG green bond 0.3 m\n"));
}

TEST(ChassisReturn, MindsABondThatCarriesWorkingCurrent) {
  const std::string plan =
      sound_base + "load X 6 W\nwire A1 PB to X+ 10 AWG red 0.3 m\nwire B1 X- to NB 8 AWG green bond 0.3 m\n";
  const auto findings = findings_of("chassis-return", plan);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].subjects[0], "B1");
}

// 5 A from a battery whose - sits on the frame; `items` and `back` say how they come back to it.
std::vector<Finding> through_frame(const std::string& book, const std::string& items, const std::string& back) {
  return findings_of("chassis-return", "system 12 V rules " + book + "\nchassis FR\n" + items +
                                           "\nfuse F1 10 A blade\nwire W1 BAT+ to F1 10 AWG red 0.1 m\n"
                                           "wire W2 F1 to X+ 10 AWG red 1 m\n" +
                                           back);
}

TEST(ChassisReturn, MindsMetalworkBetweenItemsThatSitOnIt) {
  const std::string battery = "source BAT 12.8 V low 12 V 50 Ah max 30 A short-circuit 500 A";
  const std::string load = "\nload X 5 A constant-current";
  for (const char* book : {"marine", "metric"}) {
    const auto both_on = through_frame(book, battery + " on FR" + load + " on FR", "");
    ASSERT_EQ(both_on.size(), 1u) << book;
    EXPECT_THAT(both_on[0].subjects, ElementsAre("FR", "BAT", "X"));
    EXPECT_NEAR(both_on[0].values->is, 5, 1e-6);
    const auto one_on = through_frame(book, battery + " on FR" + load, "wire W3 X- to FR 10 AWG black 1 m\n");
    ASSERT_EQ(one_on.size(), 1u) << book;
    EXPECT_THAT(one_on[0].subjects, ElementsAre("FR", "W3", "BAT"));
    EXPECT_NEAR(one_on[0].values->is, 5, 1e-6);
    const auto none_on =
        through_frame(book, battery + load, "wire W3 X- to FR 10 AWG black 1 m\nwire W4 FR to BAT- 10 AWG black 1 m\n");
    ASSERT_EQ(none_on.size(), 1u) << book;
    EXPECT_NEAR(none_on[0].values->is, 5, 1e-6);
  }
  EXPECT_THAT(through_frame("rv", battery + " on FR" + load + " on FR", ""), IsEmpty());
}

TEST(ChassisReturn, IsSilentWhereTheCurrentFlowsPastTheMetalwork) {
  const std::string battery = "source BAT 12.8 V low 12 V 50 Ah max 30 A short-circuit 500 A";
  const std::string load = "\nload X 5 A constant-current";
  // The battery's - sits on the frame and has a return wire of its own.
  EXPECT_THAT(through_frame("marine", battery + " on FR" + load, "wire W3 X- to BAT- 10 AWG black 1 m\n"), IsEmpty());
  // The load sits on the battery's -, and that on the frame: nothing need cross the frame.
  EXPECT_THAT(through_frame("marine", battery + " on FR" + load + " on BAT-", ""), IsEmpty());
  const std::string shunt = "\nshunt SH 10 A 1 mohm on FR";
  const auto by_shunt =
      through_frame("marine", battery + " on FR" + load + shunt, "wire W3 X- to SH.out 10 AWG black 1 m\n");
  ASSERT_EQ(by_shunt.size(), 1u);
  EXPECT_THAT(by_shunt[0].subjects, ElementsAre("FR", "BAT", "SH"));
  EXPECT_NEAR(by_shunt[0].values->is, 5, 1e-6);
  // Two pieces of metalwork that a bond joins: it flows through both.
  EXPECT_EQ(through_frame("marine", battery + " on FR" + load + " on HULL\nchassis HULL",
                          "wire B1 HULL to FR 8 AWG green bond 0.3 m\n")
                .size(),
            2u);
}

TEST(ChassisReturn, IsSilentWhereTheRulebookAllowsMetalwork) {  // NEC 552.10(B)(1) exception
  const std::string plan =
      sound_base +
      "chassis FR\nload X 6 W\nwire A1 PB to X+ 10 AWG red 0.3 m\nwire A2 X- to FR 10 AWG black 0.3 m\n"
      "wire A3 FR to NB 10 AWG black 0.3 m\n";
  EXPECT_FALSE(fires("chassis-return", plan));
}

}  // namespace
}  // namespace loomleaf::test
