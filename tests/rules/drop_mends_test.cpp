// Mends of voltage-drop and low-voltage carried out in the plan, and the plan checked again.
#include <fmt/format.h>
#include <gmock/gmock.h>

#include "rules/support/carried_out.h"
#include "rules/support/examined.h"

namespace loomleaf::test {
namespace {

using testing::HasSubstr;

// A solar controller has the shortest leads to the bus bars, and is off while loads draw.
const std::string beside_a_controller = R"(
system 12 V rules rv drop 2 %
default wire insulation 105 C
source BAT 12.8 V low 12.2 V high 14.4 V 100 Ah max 60 A short-circuit 900 A
fuse F0 40 A class-t on BAT+
switch S0 60 A 32 V
bus PB 60 A 6 ways
bus NB 60 A 6 ways
shunt SH 100 A 0.5 mohm
wire W0 F0 to S0 8 AWG red 0.3 m
wire W1 S0 to PB 8 AWG red 6 m
wire W2 NB to SH 8 AWG black 6 m
wire W7 SH to BAT- 8 AWG black 0.3 m
source SOL solar 14.4 V limit 20 A
wire W3 SOL+ to FS 10 AWG red 0.8 m
fuse FS 30 A class-t on PB
wire W4 SOL- to NB 10 AWG black 0.8 m
fuse F1 15 A class-t on PB
load PUMP 120 W motor
wire W5 F1 to PUMP+ 6 AWG red 0.3 m
wire W6 PUMP- to NB 6 AWG black 0.3 m
)";

TEST(VoltageDrop, NamesWhatCarriesTheLoadsCurrentAndNoChargersLeads) {
  EXPECT_EQ(mend_of("voltage-drop", "PUMP", beside_a_controller), "make W1 4 AWG and W2 4 AWG at least");
  expect_cured("voltage-drop", "PUMP", beside_a_controller);
}

std::string lamp_with_two_switches(double watt) {
  return fmt::format(R"(
system 12 V rules rv
default wire insulation 105 C
source BAT 12.8 V low 12.2 V high 14.4 V 100 Ah max 60 A short-circuit 900 A
fuse F0 5 A class-t on BAT+
switch S1 10 A 32 V 2 ways
switch S2 10 A 32 V 2 ways
load LAMP {} W
wire W1 F0 to S1.in 14 AWG red 0.5 m
wire W2 S1.out1 to S2.out1 16 AWG red 8 m
wire W3 S1.out2 to S2.out2 16 AWG brown 8 m
wire W4 S2.in to LAMP+ 14 AWG red 0.5 m
wire W5 LAMP- to BAT- 14 AWG black 1 m
)",
                     watt);
}

TEST(VoltageDrop, NamesBothTravellersOfTwoWaySwitches) {
  const std::string plan = lamp_with_two_switches(40);
  EXPECT_EQ(mend_of("voltage-drop", "LAMP", plan), "make W2 14 AWG and W3 14 AWG at least");
  expect_cured("voltage-drop", "LAMP", plan);
}

TEST(VoltageDrop, NamesTheLongerTravellerAloneWhereTheOtherIsWellEnough) {
  std::string plan = lamp_with_two_switches(40);
  plan.replace(plan.find("16 AWG brown 8 m"), 16, "16 AWG brown 1 m");
  EXPECT_EQ(mend_of("voltage-drop", "LAMP", plan), "make W2 14 AWG at least");
  expect_cured("voltage-drop", "LAMP", plan);
}

TEST(VoltageDrop, OffersNoSizeThatDoesNotGoIntoThePlug) {
  const auto plan = [](const char* takes) {
    return sound_base + fmt::format(
                            "connector X 2 poles 20 A takes {}\nload Y 4.2 A constant-current\n"
                            "wire A1 PB to X.in1 12 AWG red 10 m\nwire A2 X.in2 to NB 12 AWG black 10 m\n"
                            "wire B1 X.out1 to Y+ 12 AWG red 0.1 m\nwire B2 Y- to X.out2 12 AWG black 0.1 m\n",
                            takes);
  };
  EXPECT_EQ(mend_of("voltage-drop", "Y", plan("1..6 mm2")), "make A1 10 AWG and A2 10 AWG at least");
  EXPECT_EQ(mend_of("voltage-drop", "Y", plan("1..4 mm2")),
            "shorten the way to Y, or feed it by a thicker main of its own");
}

TEST(LowVoltage, IsCuredByWhatItsMendNames) {
  std::string plan = lamp_with_two_switches(40);
  plan.replace(plan.find("40 W"), 4, "40 W drop 50 % min 11.85 V");
  expect_cured("low-voltage", "LAMP", plan);
}

TEST(VoltageDrop, IsCuredForEachLoadInTurnInAChainOfLamps) {
  const std::string plan = sound_base + R"(
load LA1..LA4 15 W
wire A1 PB to LA1+ 14 AWG red 8 m
wire A2..A4 LA1+ to LA2+ to LA3+ to LA4+ 16 AWG red 2 m
wire B1 LA1- to NB 14 AWG black 8 m
wire B2..B4 LA1- to LA2- to LA3- to LA4- 16 AWG black 2 m
)";
  const std::vector<Finding> findings = findings_of("voltage-drop", plan);
  ASSERT_FALSE(findings.empty());
  for (const Finding& finding : findings) EXPECT_THAT(finding.mend, HasSubstr("A1 ")) << finding.message;
}

}  // namespace
}  // namespace loomleaf::test
