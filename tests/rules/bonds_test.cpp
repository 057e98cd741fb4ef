// Leads between a battery's - and metalwork: their least size, and what a chafed wire drives over them.
#include <gmock/gmock.h>

#include "rules/support/examined.h"

namespace loomleaf::test {
namespace {

using testing::HasSubstr;

// An inverter behind a 200 A fuse, and the frame bonded from the minus bar.
std::string bonded_by(const std::string& bond, const std::string& rules = "rv", const std::string& length = "0.5 m") {
  return "system 12 V rules " + rules +
         "\ndefault wire insulation 105 C\nsource B 12.8 V low 12.2 V 200 Ah max 200 A short-circuit 3 kA\n"
         "fuse F0 200 A class-t on B+\nbus PB, NB 300 A 6 ways\nload INV 1.5 kW\nchassis FR \"Frame\"\n"
         "wire W1 F0 to PB 4/0 AWG red 0.3 m\nwire W2 NB to B- 4/0 AWG black 0.3 m\n"
         "wire W3 PB to INV+ 4/0 AWG red 0.3 m\nwire W4 INV- to NB 4/0 AWG black 0.3 m\nwire B1 NB to FR " +
         bond + " " + length + "\n";
}

// "Not smaller than 8 AWG, nor than the unbonded battery lead": NEC 552.10(C)(4).
TEST(LeastSize, OfABondIsThatOfTheBatterysOtherLead) {
  EXPECT_FALSE(fires("least-size", bonded_by("4/0 AWG green bond")));
  const auto findings = findings_of("least-size", bonded_by("3/0 AWG green bond"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::caution);
  EXPECT_EQ(findings[0].subjects, std::vector<std::string>{"B1"});
  EXPECT_EQ(findings[0].message, "B1 is 3/0 AWG, the least for the bond of a battery with a lead like W1 is 4/0 AWG");
  EXPECT_EQ(findings[0].mend, "make B1 4/0 AWG");
  EXPECT_THAT(findings[0].source, HasSubstr("NEC 552.10(C)(4)"));
}

TEST(LeastSize, OfALeadToMetalworkHoldsWhateverItIsCalled) {
  EXPECT_TRUE(fires("least-size", bonded_by("8 AWG black")));
}

TEST(LeastSize, OfABondIsNoMatterOfBooksThatAreSilentOnIt) {
  EXPECT_FALSE(fires("least-size", bonded_by("8 AWG green bond", "marine")));
}

// The frame is bonded as the book asks; what else stands about is no bond of the battery.
TEST(LeastSize, OfABondIsAskedOfTheBatterysThickestOne) {
  EXPECT_FALSE(fires("least-size", bonded_by("4/0 AWG green bond") +
                                       "chassis CASE \"Fridge case\"\nwire B2 NB to CASE 12 AWG green bond 1 m\n"));
}

// A lamp on the frame of a small battery: 8 AWG is the least where the lead is thinner.
std::string small_battery_bonded_by(const std::string& bond) {
  return "system 12 V rules rv\nsource B 12.8 V 20 Ah max 15 A short-circuit 300 A\nfuse F0 15 A blade on B+\n"
         "load L 12 W\nchassis FR \"Frame\"\nwire W1 F0 to L+ 14 AWG red 1 m\nwire W2 L- to FR 14 AWG black 1 m\n"
         "wire B1 FR to B- " +
         bond + " 0.5 m\n";
}

TEST(LeastSize, OfABondIsEightAwgAtLeast) {
  EXPECT_FALSE(fires("least-size", small_battery_bonded_by("8 AWG black")));
  const auto findings = findings_of("least-size", small_battery_bonded_by("10 AWG black"));
  ASSERT_EQ(findings.size(), 1u);  // of the lamp's own lead to the frame nothing is said
  EXPECT_EQ(findings[0].subjects, std::vector<std::string>{"B1"});
  EXPECT_THAT(findings[0].message, HasSubstr("the bond of a battery to metalwork is 8 AWG"));
}

// The fuse lets 200 A through for as long as it likes and clears a short of some 2 kA in tens of milliseconds: 18 AWG,
// k = 115 at 105 C insulation up to 250 C (BS 7671 table 43.1), is past its limit long before.
TEST(ShortNotCleared, HoldsABondToWhatAChafedWireDrivesOverIt) {
  for (const char* rules : {"rv", "marine", "metric"}) {
    EXPECT_FALSE(fires("short-not-cleared", bonded_by("4 AWG green bond", rules))) << rules;
    const auto findings = findings_of("short-not-cleared", bonded_by("18 AWG green bond", rules));
    ASSERT_EQ(findings.size(), 1u) << rules;
    EXPECT_EQ(findings[0].severity, Severity::warning);
    EXPECT_EQ(findings[0].subjects, (std::vector<std::string>{"B1", "F0", "W3"}));
    EXPECT_THAT(findings[0].message, HasSubstr("a short circuit at INV+ to the metalwork FR draws"));
    EXPECT_THAT(findings[0].mend, HasSubstr("make B1 "));
  }
}

TEST(ShortNotCleared, OfABondIsMendedByWhatItsMendSays) {
  const auto findings = findings_of("short-not-cleared", bonded_by("18 AWG green bond"));
  ASSERT_EQ(findings.size(), 1u);
  const std::string& mend = findings[0].mend;
  const std::string size = mend.substr(8, mend.find(" or thicker") - 8);  // "make B1 SIZE or thicker"
  for (const char* rule : {"short-not-cleared", "least-size"})
    EXPECT_FALSE(fires(rule, bonded_by(size + " green bond"))) << mend;
}

TEST(ShortNotCleared, OfABondIsNotCheckedWhereNoCurveSaysHowSoonTheFuseOpens) {
  std::string plan = bonded_by("18 AWG green bond");
  plan.replace(plan.find("200 A class-t"), 13, "200 A breaks 20 kA 32 V");
  EXPECT_FALSE(fires("short-not-cleared", plan));
  bool is_told = false;
  for (const Finding& finding : findings_of("not-checked", plan))
    is_told = is_told || finding.message.starts_with("short-not-cleared not checked for F0");
  EXPECT_TRUE(is_told);
}

// Only the appliance's own wires can touch its case.
TEST(ShortNotCleared, LeavesTheCaseOfAnApplianceAloneWhereTheFrameIsBonded) {
  EXPECT_FALSE(fires(
      "short-not-cleared",
      bonded_by("4/0 AWG green bond") + "chassis CASE \"Fridge case\"\nwire B2 NB to CASE 18 AWG green bond 1 m\n"));
}

TEST(ShortNotCleared, LeavesMetalworkAloneThatIsNotBonded) {
  std::string plan = bonded_by("18 AWG green bond");
  plan.replace(plan.find("NB to FR"), 8, "FR to T1");
  EXPECT_FALSE(fires("short-not-cleared", plan + "tail T1 \"later\"\n"));
}

}  // namespace
}  // namespace loomleaf::test
