// Mends carried out in the plan, and the plan checked again: the finding is gone and nothing graver has come.
#include <gmock/gmock.h>

#include "rules/support/carried_out.h"
#include "rules/support/examined.h"

namespace loomleaf::test {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

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

// No size may carry 600 A; the charger's 60 A 6 AWG may.
TEST(OverloadedWire, NamesWhatBearsTheWorkWhereNothingBearsAllThatCanFlowIn) {
  const std::string plan = R"(
system 12 V rules rv
default wire insulation 105 C
source BAT 12.8 V low 12.2 V high 14.4 V 400 Ah max 400 A short-circuit 900 A
source ALT charger 14.4 V limit 60 A
fuse F0 600 A anl on BAT+
wire W5 F0 to ALT+ 12 AWG red 1 m
wire W6 ALT- to BAT- 12 AWG black 1 m
)";
  EXPECT_THAT(mend_of("overloaded-wire", "W5", plan), HasSubstr("make W5 6 AWG or thicker, which may carry 75 A"));
  EXPECT_THAT(mend_of("gauge-mismatch", "W5", plan), Not(HasSubstr("6 AWG")));
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

// The return of three lamps behind a plug, beside a feed of 60 A.
std::string trailer(const std::string& plug) {
  return R"(
system 12 V rules rv drop 20 %
default wire insulation 105 C
source BAT 12.6 V low 12.2 V high 14.6 V 75 Ah max 75 A short-circuit 900 A
bus PB, NB 100 A 12 ways
fuse F0 60 A class-t on BAT+
wire W1 F0 to PB 6 AWG red 0.4 m
wire W2 NB to BAT- 6 AWG black 0.4 m
fuse F1, F2, F3 15 A blade on PB
load L1, L2, L3 21 W resistive
wire A1 F1 to L1+ 10 AWG red 9 m
wire A2 F2 to L2+ 10 AWG red 9 m
wire A3 F3 to L3+ 10 AWG red 9 m
bus TN 60 A 10 ways
wire B1 L1- to TN 10 AWG black 0.5 m
wire B2 L2- to TN 10 AWG black 0.5 m
wire B3 L3- to TN 10 AWG black 0.5 m
wire W4 TN to X.out1 6 AWG black 4 m
wire W3 X.in1 to NB 14 AWG black 4 m
connector X 1 poles 60 A )" +
         plug + "\n";
}

TEST(GaugeMismatch, NamesThePlugThatDoesNotTakeTheThickerConductor) {
  EXPECT_EQ(mend_of("gauge-mismatch", "W3", trailer("takes 2..16 mm2")),
            "make W3 6 AWG or thicker, which may carry 75 A, or change F0 to 15 A");
  expect_cured("gauge-mismatch", "W3", trailer("takes 2..16 mm2"));
  EXPECT_EQ(mend_of("gauge-mismatch", "W3", trailer("takes 2..10 mm2")),
            "change F0 to 15 A, or make W3 6 AWG or thicker, which may carry 75 A, with X for that size");
  expect_cured("gauge-mismatch", "W3", trailer("takes 2..10 mm2"));
}

TEST(ShortNotCleared, AsksForNoLargerFuseThanTheThinConductorMayHave) {
  // 14 AWG may have 15 A. The short alone would let the main be larger.
  const std::string plan = R"(
system 12 V rules rv drop 20 %
default wire insulation 105 C
source BAT 12.6 V low 12.2 V high 14.6 V 75 Ah max 75 A short-circuit 900 A
bus PB 100 A 12 ways
fuse F0 60 A class-t on BAT+
wire W1 F0 to PB 6 AWG red 2 m
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
