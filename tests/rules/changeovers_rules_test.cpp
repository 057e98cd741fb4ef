// Changeovers that meet only through a device, and selectors that join both their batteries: what their standings bring
// to findings.
#include <fmt/format.h>
#include <gmock/gmock.h>

#include "rules/support/examined.h"

namespace loomleaf::test {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;

// Two selectors behind a fuse each, of which each heats in one way; the loads' returns meet in SR. The second is wired
// the other way about, so that both heat in unlike positions.
std::string two_selectors(const std::string& way_of_second, const std::string& size) {
  const std::string other = way_of_second == "1" ? "2" : "1";
  return R"(
system 12 V rules rv
default wire insulation 105 C
source A 12.8 V low 12.2 V 100 Ah max 60 A short-circuit 900 A
fuse F0 60 A class-t on A+
bus PB, NB 60 A 6 ways
splice SR 4 ways 60 A
wire W1 F0 to PB 6 AWG red 0.5 m
wire W3 NB to A- 6 AWG black 0.5 m
fuse F1, F2 20 A blade on PB
switch S1, S2 20 A 32 V 2 ways
load P1, P2 2 W
load H1, H2 120 W drop 8 %
wire W4 F1 to S1.in 12 AWG red 1 m
wire W5 S1.out1 to P1+ 12 AWG red 1 m
wire W6 S1.out2 to H1+ 12 AWG red 1 m
wire W7 P1- to NB 12 AWG black 1 m
wire W8 H1- to SR 12 AWG black 1 m
wire W9 F2 to S2.in 12 AWG red 1 m
wire W12 P2- to NB 12 AWG black 1 m
wire W13 H2- to SR 12 AWG black 1 m
wire W10 S2.out)" +
         way_of_second + " to H2+ 12 AWG red 1 m\nwire W11 S2.out" + other +
         " to P2+ 12 AWG red 1 m\nwire W14 SR to NB " + size + " black 1 m\n";
}

TEST(ChangeoversApart, LetThroughOfACommonReturnIsThatOfUnlikePositions) {
  // 12 AWG is good for 20 A, and gets 20 A twice (NEC 552.10(E)(1)); 6 AWG for the 60 A of the main fuse
  for (const char* way : {"1", "2"}) {
    const auto findings = findings_of("gauge-mismatch", two_selectors(way, "12 AWG"));
    ASSERT_EQ(findings.size(), 1u) << way;
    EXPECT_EQ(findings[0].subjects[0], "W14");
    EXPECT_THAT(findings_of("gauge-mismatch", two_selectors(way, "6 AWG")), IsEmpty()) << way;
  }
}

TEST(ChangeoversApart, DeadShortOfUnlikePositionsIsFound) {
  const std::string plan = R"(
system 12 V rules rv
source B 12.8 V 100 Ah short-circuit 900 A
fuse F0 15 A class-t on B+
switch S1, S2 15 A 2 ways
fuse F1 10 A class-t
load L, L2 12 W
wire W1 F0 to S1.in 14 AWG red 1 m
wire W2 S1.out1 to L+ 14 AWG red 1 m
wire W3 L- to B- 14 AWG black 1 m
wire W4 S1.out2 to F1 14 AWG red 1 m
wire W5 F1 to S2.in 14 AWG red 1 m
wire W6 S2.out2 to L2+ 14 AWG red 1 m
wire W7 L2- to B- 14 AWG black 1 m
)";
  EXPECT_TRUE(fires("dead-short", plan + "wire W8 S2.out1 to B- 14 AWG red 1 m\n"));
  EXPECT_FALSE(fires("dead-short", plan));
}

// Seven heaters of 5 A on one bus, each through a changeover of its own: 128 combinations, and 35 A only with all of
// them in their second way.
std::string seven_heaters(double bus) {
  std::string plan = fmt::format(
      "system 12 V rules rv\ndefault wire insulation 105 C\n"
      "source A 12.8 V low 12 V 100 Ah max 60 A short-circuit 900 A\nfuse F 40 A class-t on A+\n"
      "bus P {} A 20 ways\nbus N 100 A 20 ways\nwire W1 F to P 8 AWG red 0.5 m\nwire W2 N to A- 8 AWG black 0.5 m\n",
      bus);
  for (int i = 1; i <= 7; ++i)
    plan += fmt::format(
        "switch S{0} 10 A 32 V 2 ways\nload H{0} 5 A constant-current\nload L{0} 3 W\n"
        "wire P{0} P to S{0}.in 8 AWG red 1 m\nwire A{0} S{0}.out2 to H{0}+ 8 AWG red 1 m\n"
        "wire B{0} S{0}.out1 to L{0}+ 8 AWG red 1 m\nwire M{0} H{0}- to N 8 AWG black 1 m\n"
        "wire K{0} L{0}- to N 8 AWG black 1 m\n",
        i);
  return plan;
}

TEST(ManyChangeovers, AllInOneWayAtOnceAreTried) {
  EXPECT_FALSE(fires("overloaded-bus", seven_heaters(35.01)));
  const auto findings = findings_of("overloaded-bus", seven_heaters(34.99));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_NEAR(findings[0].values->is, 35.0, 1e-6);
}

TEST(ManyChangeovers, ThatNotEveryCombinationIsTriedIsSaid) {
  const auto said = [](const std::string& plan) {
    for (const Finding& finding : findings_of("not-checked", plan))
      if (finding.message.find("every combination of positions") != std::string::npos) return finding.subjects.size();
    return std::size_t{0};
  };
  EXPECT_EQ(said(seven_heaters(100)), 7u);
  EXPECT_EQ(said(two_selectors("1", "6 AWG")), 0u);
}

// Two banks of 90 A each and a selector; what leads on from it is good for 90 A.
std::string selector(const std::string& kind, const std::string& size) {
  return R"(
system 12 V rules rv
default wire insulation 105 C
source S, H 12.6 V low 12.2 V 100 Ah max 100 A short-circuit 900 A
fuse F1 90 A class-t on S+
fuse F2 90 A class-t on H+
switch SEL "Battery selector" 300 A 32 V )" +
         kind + R"(
wire W1 F1 to SEL.out1 4 AWG red 0.5 m
wire W2 F2 to SEL.out2 4 AWG red 0.5 m
wire W3 S- to H- 3/0 AWG black 0.5 m
wire W4 SEL.in to INV+ )" +
         size + R"( red 2 m
load INV "Inverter" 700 W drop 6 %
wire W6 INV- to H- 3/0 AWG black 2 m
)";
}

TEST(SelectorOfBoth, BringsWhatBothBatteriesFusesLetThrough) {
  const auto of_lead = [](const std::string& plan) {
    std::vector<Finding> found;
    for (Finding& finding : findings_of("gauge-mismatch", plan))
      if (finding.subjects[0] == "W4") found.push_back(std::move(finding));
    return found;
  };
  EXPECT_THAT(of_lead(selector("2 ways", "4 AWG")), IsEmpty());
  const auto findings = of_lead(selector("2 ways both", "4 AWG"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_DOUBLE_EQ(findings[0].values->is, 180.0);
  EXPECT_THAT(findings[0].message, HasSubstr("SEL=both"));
  EXPECT_THAT(of_lead(selector("2 ways both", "3/0 AWG")), IsEmpty());
}

TEST(SelectorOfBoth, LetsWhatLiesBehindItBeThickerThanEachOfItsWays) {
  EXPECT_FALSE(fires("gauge-step", selector("2 ways both", "3/0 AWG")));
  EXPECT_TRUE(fires("gauge-step", selector("2 ways", "3/0 AWG")));
}

TEST(SelectorOfBoth, AddsUpTheShortCircuitCurrentsOfBoth) {
  const auto plan = [](const std::string& kind) {
    return R"(
system 12 V rules marine
default wire insulation 105 C
source S, H 12.6 V low 12.2 V 100 Ah short-circuit 1.5 kA max 100 A
switch SEL 300 A 32 V )" +
           kind + R"(
wire W1 S+ to SEL.out1 1/0 AWG red 0.5 m
wire W2 H+ to SEL.out2 1/0 AWG red 0.5 m
wire W3 S- to H- 1/0 AWG black 0.5 m
fuse BR 100 A breaks 1.6 kA
wire W4 SEL.in to BR 2 AWG red 0.3 m
load L 500 W
wire W5 BR to L+ 2 AWG red 1 m
wire W6 L- to H- 2 AWG black 1 m
)";
  };
  EXPECT_FALSE(fires("interrupt-rating", plan("2 ways")));
  EXPECT_TRUE(fires("interrupt-rating", plan("2 ways both")));
}

TEST(SelectorOfBoth, ClashesWhereItJoinsUnlikeVoltages) {
  const auto plan = [](const std::string& kind) {
    return R"(
system 12 V, 24 V rules marine
source S 12.8 V 100 Ah short-circuit 900 A
source H 25.6 V 100 Ah short-circuit 900 A
fuse F1, F2 10 A class-t
load L 30 W 12 V max 32 V
switch SEL 30 A 32 V )" +
           kind + R"(
wire W1 S+ to F1 12 AWG red 0.2 m
wire W2 H+ to F2 12 AWG red 0.2 m
wire W3 F1 to SEL.out1 12 AWG red 0.2 m
wire W4 F2 to SEL.out2 12 AWG red 0.2 m
wire W5 SEL.in to L+ 12 AWG red 0.2 m
wire W6 L- to H- 12 AWG black 0.2 m
wire W7 H- to S- 12 AWG black 0.2 m
)";
  };
  EXPECT_FALSE(fires("voltage-clash", plan("2 ways")));
  EXPECT_TRUE(fires("voltage-clash", plan("2 ways both")));
}

}  // namespace
}  // namespace loomleaf::test
