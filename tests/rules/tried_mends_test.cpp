// Mends carried out in the plan, and the plan checked again: the finding is gone and nothing graver has come.
#include <fmt/format.h>
#include <gmock/gmock.h>

#include <algorithm>

#include "rules/support/carried_out.h"
#include "rules/support/examined.h"

namespace loomleaf::test {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;

bool is_on(const Finding& finding, std::string_view rule, const std::string& subject) {
  return finding.rule == rule && finding.subjects.front() == subject;
}

// The mend of the one finding of this rule on this subject.
std::string mend_of(std::string_view rule, const std::string& subject, const std::string& plan) {
  for (const Finding& finding : findings_of(rule, plan))
    if (finding.subjects.front() == subject) return finding.mend;
  ADD_FAILURE() << "no " << rule << " on " << subject;
  return "";
}

// What it says is done, and then looked at.
void expect_cured(std::string_view rule, const std::string& subject, const std::string& plan) {
  const std::string mend = mend_of(rule, subject, plan);
  const std::string then = carried_out(mend, plan);
  const Examination examination = examined(then);
  EXPECT_TRUE(examination.understood()) << mend;
  EXPECT_TRUE(std::ranges::none_of(examination.findings, [&](const Finding& f) { return is_on(f, rule, subject); }))
      << mend;
  const std::vector<std::string> before = grave_in(plan);
  for (const std::string& grave : grave_in(then)) EXPECT_THAT(before, testing::Contains(grave)) << mend;
}

// Its own limit protects the lead of an alternator up to the fuse at the battery; from the battery that fuse does.
const std::string alternator = R"(
system 12 V rules rv
default wire insulation 105 C
source BAT 12.8 V low 12.2 V high 14.4 V 100 Ah max 100 A short-circuit 900 A
source ALT alternator 14.4 V limit 70 A
fuse FA 60 A class-t on BAT+
wire A1 ALT+ to FA 6 AWG red 2.5 m
wire A2 ALT- to BAT- 6 AWG black 2 m
)";

// Controllers push for more than three hours: counted 1.25 times.
const std::string solar = R"(
system 12 V rules rv
default wire insulation 60 C
source BAT 12.8 V low 12.2 V high 14.4 V 100 Ah max 100 A short-circuit 900 A
source SOL solar 14.4 V limit 40 A
fuse FA 40 A class-t on BAT+
wire A1 SOL+ to FA 8 AWG red 2.5 m
wire A2 SOL- to BAT- 8 AWG black 2 m
)";

// Two batteries feed a panel, each by a switch of its own, and meet there in one of four standings alone.
const std::string two_selectors = R"(
system 12 V rules rv
default wire insulation 105 C
source A 12.8 V 100 Ah short-circuit 900 A
source C 12.8 V 100 Ah short-circuit 900 A
wire N0 A- to C- 6 AWG black 0.3 m
fuse FA 20 A class-t on A+
fuse FC 20 A class-t on C+
bus PB 60 A 10 ways
switch S1 30 A 2 ways
switch S2 30 A 2 ways
load T1 5 W
load T2 5 W
wire W1 FA to S1.in 12 AWG red 1 m
wire W2 S1.out2 to PB 12 AWG red 1 m
wire W2b S1.out1 to T1+ 12 AWG red 1 m
wire W3 FC to S2.in 12 AWG red 1 m
wire W4 S2.out1 to PB 12 AWG red 1 m
wire W4b S2.out2 to T2+ 12 AWG red 1 m
wire W5 T1- to A- 12 AWG black 1 m
wire W6 T2- to A- 12 AWG black 1 m
load HEAT 240 W resistive
wire W7 PB to HEAT+ 12 AWG red 1 m
wire W8 HEAT- to A- 12 AWG black 1 m
)";

TEST(FuseTooSmall, AsksForAThickerLeadWhereItsOwnSourceProtectedItSoFar) {
  EXPECT_EQ(mend_of("fuse-too-small", "FA", alternator), "change FA to 90 A, and make A1 4 AWG at least");
  expect_cured("fuse-too-small", "FA", alternator);
  EXPECT_EQ(mend_of("fuse-too-small", "FA", solar), "change FA to 50 A, and make A1 6 AWG at least");
  expect_cured("fuse-too-small", "FA", solar);
}

TEST(FuseTooSmall, AsksForNoThickerLeadWhereItBearsTheLargerFuse) {
  std::string thick = alternator;
  thick.replace(thick.find("to FA 6 AWG"), 11, "to FA 4 AWG");
  EXPECT_EQ(mend_of("fuse-too-small", "FA", thick), "change FA to 90 A");
  expect_cured("fuse-too-small", "FA", thick);
}

TEST(FuseTooSmall, LooksAtEveryStandingOfTheChangeovers) {
  for (const char* fuse : {"FA", "FC"}) expect_cured("fuse-too-small", fuse, two_selectors);
}

TEST(FuseTooSmall, AsksForOtherCircuitsWhereAThickerLeadDoesNotFit) {
  // The thicker lead would not go into the splice.
  std::string spliced = alternator;
  spliced.replace(spliced.find("wire A1"), std::string("wire A1 ALT+ to FA 6 AWG red 2.5 m").size(),
                  "splice SP 2 ways 80 A takes 8..14 mm2\nwire A0 ALT+ to SP 6 AWG red 0.2 m\n"
                  "wire A1 SP to FA 6 AWG red 2.3 m");
  EXPECT_EQ(mend_of("fuse-too-small", "FA", spliced), "share the loads of FA among several circuits");
}

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

// A starter behind a fuse of 300 A, and an alternator that comes in between them.
std::string starter(const std::string& feed, const std::string& lead) {
  return R"(
system 12 V rules metric
default wire insulation 105 C
place E ambient 50 C
source BAT 12.6 V low 12.2 V 100 Ah max 100 A short-circuit 2 kA at E
load ST 1.2 kW starter drop 10 % at E
bus PS 400 A 4 ways at E
)" + feed +
         lead +
         R"(
wire W2 ST- to BAT- 70 mm2 black 1 m
source ALT alternator 14.4 V limit 50 A at E
fuse FA 80 A mega on PS
wire W3 ALT+ to FA 25 mm2 red 1 m
wire W4 ALT- to BAT- 25 mm2 black 1 m
)";
}
const std::string from_300_A = "fuse F 300 A class-t on BAT+\nwire W0 F to PS 70 mm2 red 0.5 m\n";
const std::string straight = "wire W1 PS to ST+ 70 mm2 red 1 m\n";

TEST(GaugeMismatch, PutsAFuseWhereItHasAllInFrontThatComesIn) {
  EXPECT_THAT(mend_of("gauge-mismatch", "W1", starter(from_300_A, straight)),
              testing::StartsWith("put a fuse of 275 A at most in W1 close to PS, or make W1 "));
  // Close to the first fuse, where the way starts that is too thin, the alternator would come in behind it.
  const std::string too_early = starter(
      "fuse F 300 A class-t on BAT+\nfuse F9 275 A anl on F.out\nwire W0 F9 to PS 70 mm2 red 0.5 m\n", straight);
  EXPECT_TRUE(fires("gauge-mismatch", too_early));
  EXPECT_THAT(mend_of("gauge-mismatch", "W1", too_early), HasSubstr("put a fuse of 275 A at most close to PS"));
  const std::string where_said = starter("fuse F 275 A class-t on BAT+\nwire W0 F to PS 70 mm2 red 0.5 m\n",
                                         "fuse F9 275 A anl on PS\nwire W1 F9 to ST+ 70 mm2 red 1 m\n");
  EXPECT_FALSE(fires("gauge-mismatch", where_said));
}

TEST(GaugeMismatch, AgreesWithOverloadedWireOnTheThickerSize) {
  const std::string plan = R"(
system 12 V rules marine
default wire insulation 105 C
source BAT 12.8 V low 12.2 V high 14.4 V 100 Ah max 60 A short-circuit 900 A
source ALT alternator 14.4 V limit 60 A
fuse F0 80 A class-t on BAT+
wire W5 F0 to ALT+ 4 AWG red 1 m
wire W6 ALT- to BAT- 14 AWG black 2 m
)";
  EXPECT_THAT(mend_of("gauge-mismatch", "W6", plan), HasSubstr("make W6 10 AWG or thicker"));
  EXPECT_THAT(mend_of("overloaded-wire", "W6", plan), HasSubstr("make W6 10 AWG or thicker"));
  expect_cured("gauge-mismatch", "W6", plan);
  expect_cured("overloaded-wire", "W6", plan);
}

// Ends in a lamp or in a tail.
std::string thin_branch(const std::string& rest) {
  return R"(
system 12 V rules marine
default wire insulation 105 C
source BAT 12.8 V low 12.2 V high 14.4 V 100 Ah max 60 A short-circuit 900 A
fuse F0 60 A class-t on BAT+
bus PB, NB 60 A 6 ways
wire W1 F0 to PB 6 AWG red 1.5 m
wire W2 NB to BAT- 6 AWG black 1.5 m
fuse F1 15 A blade on PB
load PUMP 120 W motor drop 6 %
wire W5 F1 to PUMP+ 10 AWG red 2 m
wire W6 PUMP- to NB 10 AWG black 2 m
)" + rest;
}

TEST(GaugeMismatch, OffersAFuseBeforeASpareLeadAndLeavesTheMainAlone) {
  const std::string spare = thin_branch("tail T1\nwire W9 PB to T1 16 AWG red 1 m\n");
  const std::string cure = "put a small fuse, 35 A at most, in W9 close to PB, or take W9 off until it is used";
  EXPECT_EQ(mend_of("gauge-mismatch", "W9", spare), cure);
  EXPECT_EQ(mend_of("short-not-cleared", "W9", spare), cure);
  const std::string fused = thin_branch("tail T1\nfuse F9 5 A blade on PB\nwire W9 F9 to T1 16 AWG red 1 m\n");
  EXPECT_THAT(grave_in(fused), IsEmpty());
}

TEST(GaugeMismatch, OffersASmallerMainWhereTheLeadFeedsSomething) {
  const std::string lamp =
      thin_branch("load LAMP 12 W\nwire W9 PB to LAMP+ 16 AWG red 1 m\nwire W10 LAMP- to NB 16 AWG black 1 m\n");
  EXPECT_EQ(mend_of("gauge-mismatch", "W9", lamp), "change F0 to 35 A");
}

TEST(ShortNotCleared, AsksForNoLargerFuseThanTheThinConductorMayHave) {
  // 14 AWG may have 15 A. The short alone would let the main be larger.
  const std::string plan = R"(
system 12 V rules rv drop 20 %
default wire insulation 105 C
source BAT 12.6 V low 12.2 V high 14.6 V 75 Ah max 75 A short-circuit 900 A
bus PB 100 A 12 ways
fuse F0 60 A class-t on BAT+
wire W1 F0 to PB 6 AWG red 0.4 m
bus NB 100 A 6 ways
wire W2 NB to BAT- 6 AWG black 0.4 m
fuse F1, F2, F3 25 A blade on PB
load L1, L2, L3 21 W resistive
wire A1 F1 to L1+ 10 AWG red 9 m
wire A2 F2 to L2+ 10 AWG red 9 m
wire A3 F3 to L3+ 10 AWG red 9 m
bus TN 30 A 10 ways
wire B1 L1- to TN 10 AWG black 0.5 m
wire B2 L2- to TN 10 AWG black 0.5 m
wire B3 L3- to TN 10 AWG black 0.5 m
wire W3 TN to NB 14 AWG black 4 m
)";
  EXPECT_THAT(mend_of("gauge-mismatch", "W3", plan), HasSubstr("change F0 to 15 A"));
  EXPECT_EQ(mend_of("short-not-cleared", "W3", plan), "change F0 to 15 A");
  expect_cured("short-not-cleared", "W3", plan);
}

}  // namespace
}  // namespace loomleaf::test
