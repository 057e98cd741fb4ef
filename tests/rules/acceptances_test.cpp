#include <gmock/gmock.h>

#include "rules/support/examined.h"

namespace loomleaf::test {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

// Two lamps 12 m away, both over 3 %.
const std::string two_drops = sound_base + R"(
load   LA1, LA2  36 W
wire   A1  PB to LA1+    12 AWG red    12 m
wire   A2  LA1- to NB    12 AWG black  12 m
wire   B1  PB to LA2+    12 AWG red    12 m
wire   B2  LA2- to NB    12 AWG black  12 m
)";

TEST(Acceptance, KeepsSeverityAndCarriesTheReason) {
  const auto findings =
      findings_of("voltage-drop", two_drops + "accept voltage-drop on LA2 \"a path lamp may be dim\"\n");
  ASSERT_EQ(findings.size(), 2u);
  EXPECT_FALSE(findings[0].accepted);
  EXPECT_EQ(findings[1].subjects[0], "LA2");
  EXPECT_EQ(findings[1].severity, Severity::caution);
  EXPECT_EQ(findings[1].accepted, "a path lamp may be dim");
}

TEST(Acceptance, LeavesTheCounts) {
  const Tally counts = tally(examined(two_drops + "accept voltage-drop on LA1, LA2 \"dim\"\n").findings);
  EXPECT_EQ(counts.caution, 0);
  EXPECT_EQ(counts.accepted, 2);
}

TEST(Acceptance, OfOneSubjectLeavesTheOtherFinding) {
  const Tally counts = tally(examined(two_drops + "accept voltage-drop on LA1 \"dim\"\n").findings);
  EXPECT_EQ(counts.caution, 1);
  EXPECT_EQ(counts.accepted, 1);
}

TEST(Acceptance, OfACableCoversItsCores) {
  const std::string plan = sound_base + a_lamp + R"(
load   LA1  6 W
cable  C1   PB, NB to LA1  2x14 AWG  cores pink, pink/black  1 m
accept colour-clash on C1 "what was at hand"
)";
  const auto findings = findings_of("colour-clash", plan);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].subjects[0], "C1.pink/black");
  EXPECT_TRUE(findings[0].accepted);
}

TEST(Acceptance, ThatMeetsNothingIsIdleAndSaysWhereTheRuleFindsSomething) {
  const auto findings = findings_of("idle-accept", two_drops + "accept voltage-drop on A1 \"dim\"\n");
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].subjects, std::vector<std::string>{"A1"});
  EXPECT_THAT(findings[0].mend, testing::HasSubstr("LA1 and LA2"));
}

TEST(Acceptance, OfAnotherRuleOnTheSameSubjectIsIdle) {
  EXPECT_EQ(findings_of("idle-accept", two_drops + "accept low-voltage on LA1 \"dim\"\n").size(), 1u);
}

TEST(Acceptance, OfAMissingFigureTakesThatSubjectOutOfTheGroup) {
  const std::string plan = sound_base + R"(
splice SP1, SP2  2 ways  takes 0.2..6 mm2
load   LMP  6 W
wire   L1   PB   to SP1  10 AWG red    1 m
wire   L2   SP1  to SP2  10 AWG red    1 m
wire   L3   SP2  to LMP+ 10 AWG red    1 m
wire   L4   LMP- to NB   10 AWG black  1 m
)";
  const auto both = findings_of("not-checked", plan);
  ASSERT_EQ(both.size(), 1u);
  EXPECT_THAT(both[0].subjects, ElementsAre("SP1", "SP2"));
  EXPECT_EQ(tally(both).not_done, 2);
  const auto parted = findings_of("not-checked", plan + "accept not-checked on SP1 \"from the drawer, unmarked\"\n");
  ASSERT_EQ(parted.size(), 2u);
  EXPECT_EQ(tally(parted).not_done, 1);
  EXPECT_THAT(findings_of("idle-accept", plan + "accept not-checked on SP1 \"unmarked\"\n"), IsEmpty());
}

// A fuse made for 30 V (DANGER) and a switch made for 30 V (WARNING) on a battery that stands at up to 31 V.
const std::string over_30_V = R"(
system 24 V rules rv
source BAT 25.6 V low 24 V high 31 V 50 Ah max 30 A short-circuit 500 A
fuse F1 10 A blade 30 V
switch S1 10 A 30 V
load X 24 W max 60 V
wire W1 BAT+ to F1 10 AWG red 0.1 m
wire W2 F1 to S1 10 AWG red 0.1 m
wire W3 S1 to X+ 10 AWG red 0.1 m
wire W4 X- to BAT- 10 AWG black 0.1 m
)";

TEST(Acceptance, GoesByTheFindingWhereARuleIsADangerOnSomeThingsOnly) {
  const std::string plan = over_30_V + "accept voltage-rating on S1 \"made for more, its maker says\"\n";
  const auto findings = findings_of("voltage-rating", plan);
  ASSERT_EQ(findings.size(), 2u);
  EXPECT_EQ(findings[0].severity, Severity::danger);
  EXPECT_FALSE(findings[0].accepted);
  EXPECT_TRUE(findings[1].accepted);
  EXPECT_THAT(findings_of("idle-accept", plan), IsEmpty());
}

TEST(Acceptance, OfACautionOfARuleThatIsMostlyADangerHolds) {
  const std::string plan = R"(
system 12 V rules rv
source BAT 12.8 V low 12.0 V 50 Ah max 30 A short-circuit 5 kA
fuse F0 40 A anl on BAT+
fuse F1 10 A blade
load X 24 W
wire W1 F0 to F1 6 AWG red 100 mm
wire W2 F1 to X+ 6 AWG red 1 m
wire W3 X- to BAT- 6 AWG black 1 m
accept interrupt-rating on F1 "the main is replaced next week"
)";
  const auto findings = findings_of("interrupt-rating", plan);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::caution);
  EXPECT_TRUE(findings[0].accepted);
}

TEST(Acceptance, LeavesADangerAsItIsAndSaysSo) {
  const std::string plan = over_30_V + "accept voltage-rating on F1 \"it will do\"\n";
  const auto findings = findings_of("voltage-rating", plan);
  ASSERT_EQ(findings.size(), 2u);
  EXPECT_EQ(findings[0].severity, Severity::danger);
  EXPECT_FALSE(findings[0].accepted);
  EXPECT_EQ(tally(examined(plan).findings).danger, 1);
  const auto idle = findings_of("idle-accept", plan);
  ASSERT_EQ(idle.size(), 1u);
  EXPECT_THAT(idle[0].message, testing::HasSubstr("meets a DANGER, which cannot be accepted"));
  // Of both at once the switch is let be.
  const std::string both = over_30_V + "accept voltage-rating on F1, S1 \"it will do\"\n";
  EXPECT_EQ(tally(examined(both).findings).danger, 1);
  EXPECT_EQ(tally(examined(both).findings).accepted, 1);
  EXPECT_EQ(findings_of("idle-accept", both).size(), 1u);
}

TEST(Findings, StandInOrderOfSeverityThenPlace) {
  const std::string plan = sound_base + R"(
load   LA1  60 W
wire   A1   PB to LA1+   18 AWG red    8 m
wire   A2   LA1- to NB   10 AWG black  8 m
splice SP9  2 ways 10 A takes 0.2..4 mm2
)";
  const auto findings = examined(plan).findings;
  ASSERT_GE(findings.size(), 3u);
  for (std::size_t at = 1; at < findings.size(); ++at) {
    EXPECT_GE(findings[at - 1].severity, findings[at].severity);
    const bool alike = findings[at - 1].severity == findings[at].severity;
    EXPECT_TRUE(!alike || findings[at - 1].span.begin <= findings[at].span.begin);
  }
}

}  // namespace
}  // namespace loomleaf::test
