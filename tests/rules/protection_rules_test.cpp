// The rules on fuses before wires: what they say, and where they must stay silent.
#include <gmock/gmock.h>

#include "rules/support/examined.h"

namespace loomleaf::test {
namespace {

using testing::HasSubstr;

std::string first_fuse_at(const std::string& length, const std::string& rules = "rv") {
  return "system 12 V rules " + rules + R"(
source BAT 12.8 V low 12.0 V 50 Ah max 30 A short-circuit 500 A
fuse F1 10 A blade
load X 24 W
wire W1 BAT+ to F1 12 AWG red )" +
         length + R"(
wire W2 F1 to X+ 12 AWG red 1 m
wire W3 X- to BAT- 12 AWG black 1 m
)";
}

TEST(UnfusedRun, IsToleratedForEighteenInches) {  // NEC 552.10(E)(4): 18 in are 457.2 mm
  for (const char* length : {"18 in", "457.2 mm", "1 ft 6 in", "457 mm"})
    EXPECT_FALSE(fires("unfused-run", first_fuse_at(length))) << length;
  for (const char* length : {"18.01 in", "457.3 mm"})
    EXPECT_TRUE(fires("unfused-run", first_fuse_at(length))) << length;
  const auto findings = findings_of("unfused-run", first_fuse_at("458 mm"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_DOUBLE_EQ(findings[0].values->is, 0.458);
  EXPECT_DOUBLE_EQ(findings[0].values->may_be, 0.4572);
  EXPECT_EQ(findings[0].values->unit, "m");
  EXPECT_THAT(findings[0].message, HasSubstr("458 mm"));
  EXPECT_THAT(findings[0].message, HasSubstr("457.2 mm"));
  EXPECT_THAT(findings[0].source, HasSubstr("552.10(E)(4)"));
}

TEST(UnfusedRun, NamesTheLargestFuseThatTheWireBears) {
  // 12 AWG: 20 A (NEC 552.10(E)(1)), and 20 A blades are sold.
  const auto findings = findings_of("unfused-run", first_fuse_at("2 m"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_THAT(findings[0].mend, HasSubstr("a fuse of 20 A at most"));
}

TEST(UnfusedRun, OfALoadWithNoFuseAtAllIsOneFindingAConductor) {
  const std::string plan = R"(
system 12 V rules rv
source BAT 12.8 V low 12.0 V 50 Ah max 30 A short-circuit 500 A
switch S1 10 A 32 V
load X 24 W
wire W1 BAT+ to S1 12 AWG red 100 mm
wire W2 S1 to X+ 12 AWG red 1 m
wire W3 X- to BAT- 12 AWG black 1 m
)";
  const auto findings = findings_of("unfused-run", plan);
  ASSERT_EQ(findings.size(), 2u);
  EXPECT_EQ(findings[0].subjects, (std::vector<std::string>{"W1", "X"}));
  EXPECT_EQ(findings[1].subjects, (std::vector<std::string>{"W2", "X"}));
  EXPECT_DOUBLE_EQ(findings[1].values->may_be, 0.0);
  EXPECT_THAT(findings[1].mend, HasSubstr("close to BAT+"));
}

// A short lead without a fuse of its own, to a bus with one fuse a lamp. 12 AWG in an RV: 20 A (NEC 552.10(E)(1)).
std::string fuses_behind_a_lead(const std::string& rating, const std::string& watt) {
  std::string text = R"(
system 12 V rules rv
source BAT 12.8 V low 12.0 V 50 Ah max 60 A short-circuit 500 A
bus PB, NB 80 A
wire W1 BAT+ to PB 12 AWG red 300 mm
wire R NB to BAT- 2 AWG black 300 mm
)";
  for (const std::string number : {"1", "2", "3"})
    text += "fuse F" + number + " " + rating + " blade on PB\nload X" + number + " " + watt + "\ncable C" + number +
            " F" + number + ", NB to X" + number + " 8 AWG 500 mm cores red, black\n";
  return text;
}

// Its return, which nothing tolerates, must bear their sum.
TEST(GaugeMismatch, OfAToleratedLeadCountsTheLargestFuseBehindIt) {
  EXPECT_FALSE(fires("gauge-mismatch", fuses_behind_a_lead("20 A", "24 W")));
  EXPECT_TRUE(fires("gauge-mismatch", fuses_behind_a_lead("25 A", "24 W")));
}

TEST(GaugeMismatch, OfAToleratedLeadLeavesTheSumOfTheLoadsToOverloadedWire) {
  EXPECT_FALSE(fires("overloaded-wire", fuses_behind_a_lead("10 A", "75 W")));  // 18.75 A at 12 V, a little more
  EXPECT_TRUE(fires("overloaded-wire", fuses_behind_a_lead("10 A", "84 W")));   // 21 A
}

// A starter on leads of one size; what they bear for 30 s from 30 C on is k S / sqrt(30 s): with insulation for 105 C
// k = 226 sqrt(ln(339.5 / 264.5)) = 112.9 (IEC 60949), so 8 AWG, 8.37 mm2, bears 172.5 A and 4 AWG 435 A.
std::string starter_on(const std::string& size, const std::string& watt, const std::string& more = "") {
  return "system 12 V rules marine\nsource BAT 12 V 100 Ah max 100 A internal 1 mohm\nload ST " + watt +
         " starter drop 50 %\nwire W1 BAT+ to ST+ " + size + " insulation 105 C red 0.2 m\nwire W2 ST- to BAT- " +
         size + " insulation 105 C black 0.2 m\n" + more;
}

TEST(OverloadedWire, OfAStartersLeadIsWhatItBearsForHalfAMinute) {
  // 8 AWG may carry 80 A for ever (33 CFR 183.425 Table 5); 2000 W at 12 V are a little over 167 A, 2060 W over 172.5 A
  EXPECT_FALSE(fires("overloaded-wire", starter_on("8 AWG", "2000 W")));
  const auto findings = findings_of("overloaded-wire", starter_on("8 AWG", "2060 W"));
  ASSERT_EQ(findings.size(), 2u);
  EXPECT_THAT(findings[0].message,
              HasSubstr("while a starter runs (case `starter ST`), but bears at most 172.5 A for 30 s"));
  EXPECT_EQ(findings[0].mend, "make W1 6 AWG or thicker, which bears 274.2 A for 30 s");
}

TEST(OverloadedWire, OfAStartersLeadCountsWhatElseItCarriesForEver) {
  const auto lamp = [](const char* watt) {
    return std::string("splice SP1, SN1 4 ways\nload LMP ") + watt +
           "\nwire W3 ST+ to LMP+ 4 AWG red 0.2 m\nwire W4 LMP- to ST- 4 AWG black 0.2 m\n";
  };
  EXPECT_FALSE(fires("overloaded-wire", starter_on("8 AWG", "1500 W", lamp("900 W"))));
  EXPECT_TRUE(fires("overloaded-wire", starter_on("8 AWG", "1500 W", lamp("1000 W"))));  // 83 A
}

// 3000 W through 2 x 1.5 m of 12 AWG, 16.6 mohm: V^2 / 4R is 2.2 kW, so that there is no working point.
TEST(OverloadedWire, CountsWhatIsAskedForWhereTheVoltageBreaksDown) {
  const auto plan = [](const char* watt) {
    return std::string("system 12 V rules marine\nsource BAT 12 V 100 Ah\nload X ") + watt +
           "\nwire W1 BAT+ to X+ 12 AWG red 1.5 m\nwire W2 X- to BAT- 12 AWG black 1.5 m\n";
  };
  const auto findings = findings_of("overloaded-wire", plan("3000 W"));
  ASSERT_EQ(findings.size(), 2u);
  EXPECT_THAT(findings[0].message, HasSubstr("W1 is asked for 250 A or more, under which the voltage breaks down"));
  EXPECT_FALSE(fires("overloaded-wire", plan("240 W")));
}

TEST(OverloadedSource, LeavesOutWhatAStarterDrawsForSeconds) {
  EXPECT_FALSE(fires("overloaded-source", starter_on("8 AWG", "2000 W")));  // max 100 A all day
  EXPECT_TRUE(fires("overloaded-source",
                    starter_on("4 AWG", "2000 W", "load LMP 1300 W on BAT-\nwire W3 BAT+ to LMP+ 4 AWG 0.1 m\n")));
}

std::string fuse_on_size(const std::string& fuse, const std::string& size) {
  return sound_base + "load X 12 W\nfuse F2 " + fuse + " blade on PB\nwire A1 F2 to X+ " + size +
         " red 0.5 m\nwire A2 X- to NB 10 AWG black 0.5 m\n";
}

TEST(GaugeMismatch, IsSilentWhereTheFuseIsWhatTheWireMayCarry) {
  // 18 AWG: 6 A, 14 AWG: 15 A (NEC 552.10(E)(1)); F1 before F2 lets 10 A through.
  EXPECT_FALSE(fires("gauge-mismatch", fuse_on_size("5 A", "18 AWG")));
  const auto findings = findings_of("gauge-mismatch", fuse_on_size("7.5 A", "18 AWG"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].subjects, (std::vector<std::string>{"A1", "F2"}));
  EXPECT_DOUBLE_EQ(findings[0].values->is, 7.5);
  EXPECT_DOUBLE_EQ(findings[0].values->may_be, 6);
  EXPECT_THAT(findings[0].message, HasSubstr("A1 may carry 6 A, F2 lets 7.5 A through"));
  EXPECT_EQ(findings[0].mend, "change F2 to 5 A");
}

TEST(GaugeMismatch, AsksForAThickerWireWhereTheSmallerFuseWouldOpen) {
  const std::string plan = sound_base +
                           "load X 72 W\nfuse F2 7.5 A blade on PB\nwire A1 F2 to X+ 18 AWG red 0.2 m\n"
                           "wire A2 X- to NB 10 AWG black 0.5 m\n";
  const auto findings = findings_of("gauge-mismatch", plan);
  ASSERT_EQ(findings.size(), 1u);
  // 7.5 A: 16 AWG may carry 8 A.
  EXPECT_EQ(findings[0].mend, "make A1 16 AWG or thicker, which may carry 8 A");
}

TEST(GaugeMismatch, AddsUpTheFusesOfTwoSupplies) {
  const std::string plan = R"(
system 12 V rules rv
source B1, B2 12.8 V low 12.0 V 50 Ah max 30 A short-circuit 500 A
fuse F1, F2 15 A blade
bus PB, NB 100 A 9 ways
load X 24 W
wire W1 B1+ to F1 10 AWG red 0.1 m
wire W2 B2+ to F2 10 AWG red 0.1 m
wire W3 F1 to PB 10 AWG red 0.1 m
wire W4 F2 to PB 10 AWG red 0.1 m
wire W5 PB to X+ 12 AWG red 1 m
wire W6 X- to NB 10 AWG black 1 m
wire W7 NB to B1- 10 AWG black 0.1 m
wire W8 NB to B2- 10 AWG black 0.1 m
)";
  const auto findings = findings_of("gauge-mismatch", plan);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].subjects, (std::vector<std::string>{"W5", "F1", "F2"}));
  EXPECT_DOUBLE_EQ(findings[0].values->is, 30);
  EXPECT_THAT(findings[0].message, HasSubstr("F1 and F2 let 30 A through together"));
  EXPECT_EQ(findings[0].mend,
            "put a fuse of 20 A at most close to PB, or make W5 10 AWG or thicker, which may carry 30 A");
}

// Two batteries joined + to + through a fuse each, and - to - by a wire: whichever holds more feeds the other.
std::string batteries_joined_by(const std::string& fuse, const std::string& negative) {
  return R"(
system 12 V rules rv
source H, S 12.8 V low 12.0 V 100 Ah max 100 A short-circuit 2 kA
fuse F1, F2 )" +
         fuse + R"( class-t
switch JOIN 150 A 32 V
wire W1 H+ to F1 2 AWG red 200 mm
wire W2 F1 to JOIN.in 2 AWG red 1 m
wire W3 JOIN.out to F2 2 AWG red 1 m
wire W4 F2 to S+ 2 AWG red 200 mm
wire W7 S- to H- )" +
         negative + " black 1.5 m\n";
}

TEST(GaugeMismatch, HoldsTheNegativeLinkOfTwoBatteriesAgainstTheirFuses) {
  // 12 AWG: 20 A (NEC 552.10(E)(1)); 4 AWG: 70 A, 3 AWG: 85 A (NEC 310.16, 60 C column).
  EXPECT_FALSE(fires("gauge-mismatch", batteries_joined_by("20 A", "12 AWG")));
  EXPECT_TRUE(fires("gauge-mismatch", batteries_joined_by("30 A", "12 AWG")));
  EXPECT_TRUE(fires("gauge-mismatch", batteries_joined_by("80 A", "4 AWG")));
  EXPECT_FALSE(fires("gauge-mismatch", batteries_joined_by("80 A", "3 AWG")));
  const auto findings = findings_of("gauge-mismatch", batteries_joined_by("80 A", "12 AWG"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_THAT(findings[0].message, HasSubstr("W7 may carry 20 A, F2 lets 80 A through"));
}

TEST(DeadShort, IsOneFindingForSuppliesThatAreJoined) {
  const std::string plan = R"(
system 12 V rules rv
source B1, B2 12.8 V low 12.0 V 50 Ah max 30 A short-circuit 500 A
fuse F1, F2 15 A blade
bus PB, NB 100 A 9 ways
wire W1 B1+ to F1 10 AWG red 0.1 m
wire W2 B2+ to F2 10 AWG red 0.1 m
wire W3 F1 to PB 10 AWG red 0.1 m
wire W4 F2 to PB 10 AWG red 0.1 m
wire W5 PB to NB 10 AWG red 1 m
wire W7 NB to B1- 10 AWG black 0.1 m
wire W8 NB to B2- 10 AWG black 0.1 m
)";
  const auto findings = findings_of("dead-short", plan);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_THAT(findings[0].message, HasSubstr("B1 and B2"));
}

// Battery BAT and source CH of these properties, the + of each to the - of the other.
std::string against_each_other(const std::string& other, const std::string& system = "12 V",
                               const std::string& more = "") {
  return "system " + system + " rules rv\nsource BAT 12.8 V low 12.0 V 50 Ah max 30 A short-circuit 500 A\nsource CH " +
         other + "\nwire W1 BAT+ to CH- 10 AWG red 0.1 m\nwire W2 CH+ to BAT- 10 AWG black 0.1 m\n" + more;
}

TEST(DeadShort, OfASourceTheWrongWayRoundNamesTheOneToTurn) {
  const auto findings = findings_of("dead-short", against_each_other("charger 14 V limit 10 A"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_THAT(findings[0].message, HasSubstr("the + of CH and BAT runs straight to their -"));
  EXPECT_EQ(findings[0].mend, "turn CH: change over the two conductors at it");
  EXPECT_EQ(findings[0].subjects, (std::vector<std::string>{"CH", "BAT"}));
}

TEST(DeadShort, OfTwoBatteriesNamesTheOneThatLessAgreesWith) {
  const std::string battery = "12.8 V low 12.0 V 50 Ah max 30 A short-circuit 500 A";
  const std::string lamp = "load X 6 W\nwire A1 CH+ to X+ 10 AWG red 0.1 m\nwire A2 X- to CH- 10 AWG black 0.1 m\n";
  const auto mend = [](const std::string& plan) {
    const auto findings = findings_of("dead-short", plan);
    return findings.size() == 1 ? findings[0].mend : std::string("not one finding");
  };
  EXPECT_THAT(mend(against_each_other(battery)), testing::StartsWith("turn CH:"));
  EXPECT_THAT(mend(against_each_other(battery, "12 V", lamp)), testing::StartsWith("turn BAT:"));
  // In a system of 24 V the two may be a bank in series, and one of the wires joins its ends.
  EXPECT_THAT(mend(against_each_other(battery, "24 V")), testing::StartsWith("take off "));
  EXPECT_FALSE(fires("reversed-polarity", against_each_other(battery, "24 V")));
}

TEST(DeadShort, OfOneSwitchPositionSaysWhichAndOffersTheConductorThatFeedsNothing) {
  const std::string plan = sound_base + a_lamp + R"(
switch S1 10 A 32 V 2 ways
wire A1 PB to S1.in 10 AWG red 0.3 m
load Y 6 W
wire A2 S1.out1 to Y+ 10 AWG red 0.3 m
wire A3 Y- to NB 10 AWG black 0.3 m
wire A4 S1.out2 to NB 10 AWG black 0.3 m
)";
  const auto findings = findings_of("dead-short", plan);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_THAT(findings[0].message, HasSubstr("with S1=2"));
  EXPECT_THAT(findings[0].subjects, testing::Contains("F1"));
  EXPECT_EQ(findings[0].subjects[0], "A4");
}

TEST(DeadShort, IsSilentWhereALoadLiesBetween) { EXPECT_FALSE(fires("dead-short", sound_base + a_lamp)); }

std::string two_batteries(const std::string& second) {
  return "system 12 V, 24 V rules rv\nsource B1 12 V 50 Ah max 30 A short-circuit 500 A\nsource B2 " + second +
         R"( 50 Ah max 30 A short-circuit 500 A
fuse F1, F2 15 A blade
bus PB, NB 100 A 9 ways
wire W1 B1+ to F1 10 AWG red 0.1 m
wire W2 B2+ to F2 10 AWG red 0.1 m
wire W3 F1 to PB 10 AWG red 0.1 m
wire W4 F2 to PB 10 AWG red 0.1 m
wire W7 NB to B1- 10 AWG black 0.1 m
wire W8 NB to B2- 10 AWG black 0.1 m
)";
}

TEST(VoltageClash, LetsAQuarterPass) {
  EXPECT_FALSE(fires("voltage-clash", two_batteries("15 V")));
  const auto findings = findings_of("voltage-clash", two_batteries("15.1 V"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].subjects, (std::vector<std::string>{"B2", "B1"}));
  EXPECT_DOUBLE_EQ(findings[0].values->is, 15.1);
  EXPECT_DOUBLE_EQ(findings[0].values->may_be, 15);
}

// Two strings of four, the third of the first as it is written here.
std::string two_strings(const std::string& before_third, const std::string& after_third) {
  return "system 48 V rules rv\nsource A1..A4, C1..C4 12.8 V 100 Ah max 100 A short-circuit 2 kA\n"
         "fuse FA 80 A class-t on A4+\nfuse FC 80 A class-t on C4+\nbus PB, NB 300 A 6 ways\n"
         "wire L1 A1+ to A2- 2/0 AWG red 0.2 m\nwire L2 A2+ to " +
         before_third + " 2/0 AWG red 0.2 m\nwire L3 " + after_third +
         " to A4- 2/0 AWG red 0.2 m\nwire K1 C1+ to C2- 2/0 AWG red 0.2 m\nwire K2 C2+ to C3- 2/0 AWG red 0.2 m\n"
         "wire K3 C3+ to C4- 2/0 AWG red 0.2 m\nwire W1 FA to PB 2/0 AWG red 0.4 m\n"
         "wire W2 FC to PB 2/0 AWG red 0.4 m\nwire W3 A1- to NB 2/0 AWG black 0.4 m\n"
         "wire W4 C1- to NB 2/0 AWG black 0.4 m\nfuse FI 30 A class-t on PB\nload INV 1 kW 48 V\n"
         "wire W5 FI to INV+ 6 AWG red 1 m\nwire W6 INV- to NB 6 AWG black 1 m\n";
}

TEST(VoltageClash, SeesABatteryTheWrongWayRoundInAString) {
  EXPECT_FALSE(fires("voltage-clash", two_strings("A3-", "A3+")));
  EXPECT_FALSE(fires("reversed-polarity", two_strings("A3-", "A3+")));
  const std::string wrong = two_strings("A3+", "A3-");
  const auto findings = findings_of("voltage-clash", wrong);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::danger);
  EXPECT_DOUBLE_EQ(findings[0].values->is, 51.2);
  EXPECT_DOUBLE_EQ(findings[0].values->may_be, 32);  // 1.25 x (4 - 2) x 12.8 V
  EXPECT_THAT(findings[0].message, HasSubstr("51.2 V against 25.6 V"));
  EXPECT_THAT(findings[0].message, HasSubstr("A3 lies against the others"));
  EXPECT_EQ(findings[0].mend, "change over the two conductors at A3");
  const auto reversed = findings_of("reversed-polarity", wrong);
  ASSERT_EQ(reversed.size(), 1u);
  EXPECT_EQ(reversed[0].subjects, std::vector<std::string>{"A3"});
  EXPECT_THAT(reversed[0].message, HasSubstr("+ meets + and - meets -"));
  for (const char* silent : {"overloaded-source", "overloaded-wire", "fuse-too-small"})
    EXPECT_FALSE(fires(silent, wrong));
}

std::string at_high(const std::string& high, const std::string& items) {
  return "system 24 V rules rv\nsource BAT 25.6 V low 24 V high " + high + " 50 Ah max 30 A short-circuit 500 A\n" +
         items + R"(
wire W1 BAT+ to F1 10 AWG red 0.1 m
wire W2 F1 to S1 10 AWG red 0.1 m
wire W3 S1 to X+ 10 AWG red 0.1 m
wire W4 X- to BAT- 10 AWG black 0.1 m
)";
}

TEST(VoltageRating, IsADangerOnAFuseAndAWarningOnASwitch) {
  const std::string items = "fuse F1 10 A blade 30 V\nswitch S1 10 A 30 V\nload X 24 W max 60 V\n";
  EXPECT_FALSE(fires("voltage-rating", at_high("30 V", items)));
  const auto findings = findings_of("voltage-rating", at_high("30.01 V", items));
  ASSERT_EQ(findings.size(), 2u);
  EXPECT_EQ(findings[0].subjects[0], "F1");
  EXPECT_EQ(findings[0].severity, Severity::danger);
  EXPECT_EQ(findings[1].subjects[0], "S1");
  EXPECT_EQ(findings[1].severity, Severity::warning);
  EXPECT_DOUBLE_EQ(findings[0].values->is, 30.01);
}

TEST(VoltageRating, TakesTheFamilysVoltageWhereThePlanGivesNone) {
  const std::string items = "fuse F1 10 A blade\nswitch S1 10 A 60 V\nload X 24 W max 60 V\n";  // 32 V: ISO 8820-3
  EXPECT_FALSE(fires("voltage-rating", at_high("32 V", items)));
  EXPECT_TRUE(fires("voltage-rating", at_high("32.1 V", items)));
}

TEST(OverVoltage, LetsAQuarterOverTheRatedVoltagePass) {
  const std::string items = "fuse F1 10 A 60 V\nswitch S1 10 A 60 V\nload X 24 W\n";
  EXPECT_FALSE(fires("over-voltage", at_high("30 V", items)));  // 1.25 x 24 V
  EXPECT_TRUE(fires("over-voltage", at_high("30.01 V", items)));
}

TEST(OverVoltage, GoesByTheLoadsOwnLimitWhereItHasOne) {
  const std::string items = "fuse F1 10 A 60 V\nswitch S1 10 A 60 V\nload X 24 W max 29 V\n";
  EXPECT_FALSE(fires("over-voltage", at_high("29 V", items)));
  EXPECT_TRUE(fires("over-voltage", at_high("29.01 V", items)));
}

std::string converter_at(const std::string& high, const std::string& input) {
  return at_high(high, "fuse F1 10 A 60 V\nswitch S1 10 A 60 V\nload X 24 W max 60 V\n") + "converter CV " + input +
         " out 5 V 2 A\nload Y 5 W 5 V\nwire C1 S1.out to CV.in+ 10 AWG red 0.1 m\nwire C2 CV.in- to BAT- 10 AWG "
         "black 0.1 m\nwire C3 CV.out+ to Y+ 10 AWG red 0.1 m\nwire C4 Y- to CV.out- 10 AWG black 0.1 m\n";
}

TEST(OverVoltage, HoldsAConvertersInputAgainstItsVoltage) {
  EXPECT_FALSE(fires("over-voltage", converter_at("30 V", "in 24 V")));  // 1.25 x 24 V
  EXPECT_TRUE(fires("over-voltage", converter_at("30.01 V", "in 24 V")));
  EXPECT_FALSE(fires("over-voltage", converter_at("30.01 V", "")));  // nobody says what it is made for
  const auto findings = findings_of("over-voltage", converter_at("25.6 V", "in 12 V"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_THAT(findings[0].subjects, testing::ElementsAre("CV"));
  EXPECT_DOUBLE_EQ(findings[0].values->may_be, 15);
}

}  // namespace
}  // namespace loomleaf::test
