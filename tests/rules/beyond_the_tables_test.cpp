// Conductors of which the rulebook has no table, and what a rulebook lets a device be at which voltage.
#include <gmock/gmock.h>

#include "rules/support/examined.h"

namespace loomleaf::test {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

// A fuse on PB and what it feeds through A1, whose properties these are; whatever is not A1 bears 100 A and more.
std::string behind(const std::string& fuse, const std::string& a1, const std::string& rules,
                   const std::string& load = "12 W") {
  return "system 12 V rules " + rules + R"(
source BAT 12.8 V low 12.0 V 100 Ah max 100 A short-circuit 500 A
bus PB, NB 200 A 9 ways
fuse F1 60 A class-t
wire M1 BAT+ to F1 1/0 AWG red 100 mm
wire M2 F1 to PB 1/0 AWG red 100 mm
wire M3 NB to BAT- 1/0 AWG black 100 mm
load X )" +
         load + "\nfuse F2 " + fuse + " on PB\nwire A1 F2 to X+ " + a1 +
         " red 0.2 m\nwire A2 X- to NB 1/0 AWG black 0.2 m\n";
}

std::vector<std::string> not_checked(const std::string& plan) {
  std::vector<std::string> messages;
  for (const Finding& finding : findings_of("not-checked", plan))
    if (finding.message.find("gauge-mismatch") != std::string::npos) messages.push_back(finding.message);
  return messages;
}

TEST(GaugeMismatch, OfAWireThinnerThanTheTablesIsHeldAgainstTheThinnestRow) {
  // 18 AWG: 6 A whatever its insulation (NEC 552.10(E)(1), from memory)
  const auto findings = findings_of("gauge-mismatch", behind("20 A blade", "22 AWG", "rv"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::danger);
  EXPECT_THAT(findings[0].message, HasSubstr("A1 may carry no more than the 6 A of 18 AWG, F2 lets 20 A through"));
  EXPECT_EQ(findings[0].mend, "make A1 12 AWG or thicker, which may carry 20 A");
  EXPECT_THAT(findings[0].source, HasSubstr("NEC 552.10(E)(1)"));
  for (const char* insulation : {"", " insulation 60 C", " insulation 105 C"}) {
    const std::string size = std::string("22 AWG") + insulation;
    EXPECT_FALSE(fires("gauge-mismatch", behind("6 A", size, "rv"))) << insulation;
    EXPECT_TRUE(fires("gauge-mismatch", behind("6.01 A", size, "rv"))) << insulation;
  }
}

TEST(GaugeMismatch, OfAThinWireIsSilentWithNotCheckedUpToTheBound) {
  EXPECT_THAT(not_checked(behind("6 A", "22 AWG", "rv")),
              ElementsAre(HasSubstr("for A1: the rulebook has no ampacity for this size")));
  EXPECT_THAT(not_checked(behind("6.01 A", "22 AWG", "rv")), IsEmpty());
  EXPECT_THAT(not_checked(behind("6 A", "18 AWG", "rv")), IsEmpty());
}

TEST(GaugeMismatch, OfAThinWireTakesTheRowOfItsInsulation) {
  // ISO 10133:2012 table A.1 (from memory): 0.75 mm2 carries 6 A at 60 C, 16 A at 105 C
  EXPECT_FALSE(fires("gauge-mismatch", behind("6 A", "0.5 mm2", "metric")));
  EXPECT_TRUE(fires("gauge-mismatch", behind("7.5 A blade", "0.5 mm2", "metric")));
  EXPECT_FALSE(fires("gauge-mismatch", behind("16 A", "0.5 mm2 insulation 105 C", "metric")));
  EXPECT_TRUE(fires("gauge-mismatch", behind("20 A blade", "0.5 mm2 insulation 105 C", "metric")));
}

TEST(GaugeMismatch, OfAnInsulationCoolerThanTheTablesIsHeldAgainstTheCoolest) {
  // ISO 10133:2012 table A.1 (from memory): 4 mm2 of 60 C carries 22 A, 6 mm2 29 A
  const std::string cool = "4 mm2 insulation 50 C";
  EXPECT_FALSE(fires("gauge-mismatch", behind("22 A", cool, "metric")));
  EXPECT_THAT(not_checked(behind("22 A", cool, "metric")),
              ElementsAre(HasSubstr("for A1: the rulebook has no ampacity for this insulation")));
  const auto findings = findings_of("gauge-mismatch", behind("25 A blade", cool, "metric"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_THAT(findings[0].message, HasSubstr("A1 may carry no more than the 22 A of 60 C insulation"));
  EXPECT_EQ(findings[0].mend, "make A1 6 mm2 or thicker with insulation for 60 C, which may carry 29 A");
}

TEST(GaugeMismatch, OfAThinLeadBeforeItsFuseCountsTheFuseBehindIt) {
  // 100 mm are within the 18 in of NEC 552.10(E)(4), if only the lead bears its fuse.
  const auto lead = [](const std::string& fuse) {
    return "system 12 V rules rv\nsource BAT 12.8 V low 12.0 V 50 Ah max 30 A short-circuit 500 A\nfuse F1 " + fuse +
           "\nload X 6 W\nwire W1 BAT+ to F1 22 AWG red 100 mm\nwire W2 F1 to X+ 6 AWG red 1 m\n"
           "wire W3 X- to BAT- 6 AWG black 1 m\n";
  };
  EXPECT_FALSE(fires("gauge-mismatch", lead("6 A")));
  EXPECT_FALSE(fires("unfused-run", lead("6 A")));
  const auto findings = findings_of("gauge-mismatch", lead("7.5 A blade"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_THAT(findings[0].message, HasSubstr("F1 beyond it lets 7.5 A through"));
}

TEST(UnfusedRun, OfAThinWireOffersNoFuseThatItMightNotBear) {
  const std::string plan = R"(
system 12 V rules rv
source BAT 12.8 V low 12.0 V 50 Ah max 30 A short-circuit 500 A
fuse F1 5 A blade
load X 6 W
wire W1 BAT+ to F1 22 AWG red 2 m
wire W2 F1 to X+ 6 AWG red 1 m
wire W3 X- to BAT- 6 AWG black 1 m
)";
  const auto findings = findings_of("unfused-run", plan);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_THAT(findings[0].mend, HasSubstr("make W1 18 AWG or thicker"));
}

TEST(OverloadedWire, OfAWireThinnerThanTheTablesIsHeldAgainstTheThinnestRow) {
  const auto drawing = [](const char* ampere) {
    return behind("20 A blade", "22 AWG", "rv", std::string(ampere) + " constant-current");
  };
  EXPECT_FALSE(fires("overloaded-wire", drawing("6 A")));
  const auto findings = findings_of("overloaded-wire", drawing("6.01 A"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_THAT(findings[0].message,
              HasSubstr("A1 carries 6.01 A in normal work, but may carry no more than the 6 A of 18 AWG"));
}

TEST(OverloadedWire, OfAThinWireCountsWhatRunsTogether) {
  // ABYC E-11 as seen: two together 0.7; 33 CFR 183.425 table 5: 18 AWG of 60 C carries 10 A
  const auto drawing = [](const char* ampere) {
    return behind("10 A blade", "1/0 AWG", "marine", std::string(ampere) + " constant-current") + "load Y " + ampere +
           " constant-current\ncable C1 PB, NB to Y 22 AWG 0.2 m\n";
  };
  EXPECT_FALSE(fires("overloaded-wire", drawing("7 A")));
  const auto findings = findings_of("overloaded-wire", drawing("7.01 A"));
  ASSERT_EQ(findings.size(), 2u);
  EXPECT_THAT(findings[0].message, HasSubstr("no more than the 7 A of 18 AWG (x 0.7 for 2 run together)"));
}

// Batteries of these volts in series with a fuse of 60 A between and another behind them, and 12 AWG of 105 C behind
// it: 45 A (33 CFR 183.425 table 5, seen).
std::string on_a_boat(const std::string& first, const std::string& second, const std::string& rest = "") {
  return "system 12 V, 24 V, 48 V rules marine\ndefault wire insulation 105 C\nsource B1 " + first +
         " 100 Ah max 100 A short-circuit 500 A\nsource B2 " + second + R"( 100 Ah max 100 A short-circuit 500 A
fuse F1, F2 60 A class-t
load X 12 W 48 V max 60 V
wire L1 B1+ to F2 2/0 AWG red 50 mm
wire L2 F2 to B2- 12 AWG red 300 mm
wire M1 B2+ to F1 2/0 AWG red 50 mm
wire A1 F1 to X+ 12 AWG red 1 m
wire A2 X- to B1- 12 AWG black 1 m
)" + rest;
}

std::vector<std::string> mismatched(const std::string& plan) {
  std::vector<std::string> conductors;
  for (const Finding& finding : findings_of("gauge-mismatch", plan)) conductors.push_back(finding.subjects.at(0));
  return conductors;
}

// 33 CFR 183.455(c), seen: below 50 V a device may be 150 % of the table, 67.5 A; from 50 V up 100 %
TEST(GaugeMismatch, DropsTheAllowanceOfTheMarineBookFromFiftyVoltsUp) {
  EXPECT_THAT(mismatched(on_a_boat("24 V high 25 V", "24 V high 24.9 V")), IsEmpty());
  EXPECT_THAT(mismatched(on_a_boat("24 V high 25 V", "24 V high 25 V")), ElementsAre("L2", "A1", "A2"));
  const auto findings = findings_of("gauge-mismatch", on_a_boat("25 V", "25 V"));
  ASSERT_EQ(findings.size(), 3u);
  EXPECT_THAT(findings[1].message, HasSubstr("A1 may carry 45 A, F1 lets 60 A through"));
  EXPECT_EQ(findings[1].mend, "change F1 to 45 A");
  EXPECT_THAT(findings[1].source, HasSubstr("33 CFR 183.455(c)(2)"));
}

// On charge a battery stands some 1.2 times as high as its name says: common practice, no source.
TEST(GaugeMismatch, TakesABatteryOfUnknownHighestVoltageAsOnCharge) {
  EXPECT_THAT(mismatched(on_a_boat("20.8 V", "20.8 V")), IsEmpty());  // 49.92 V
  EXPECT_THAT(mismatched(on_a_boat("20.9 V", "20.9 V")), ElementsAre("L2", "A1", "A2"));
  EXPECT_THAT(mismatched(on_a_boat("20.9 V high 24 V", "20.9 V high 24 V")), IsEmpty());
}

TEST(GaugeMismatch, KeepsTheAllowanceBehindAConverterOfLowVoltage) {
  const std::string lamp = R"(
converter CV in 48 V out 12 V 100 A isolated
load Y 12 W 12 V
fuse F3 60 A class-t
wire C1 F1 to CV.in+ 2/0 AWG red 50 mm
wire C2 CV.in- to B1- 2/0 AWG black 50 mm
wire C3 CV.out+ to F3 1/0 AWG red 50 mm
wire C4 F3 to Y+ 12 AWG red 1 m
wire C5 Y- to CV.out- 12 AWG black 1 m
)";
  EXPECT_THAT(mismatched(on_a_boat("24 V high 28 V", "24 V high 28 V", lamp)), ElementsAre("L2", "A1", "A2"));
}

}  // namespace
}  // namespace loomleaf::test
