// The rules on short circuits: what they say, and where they must stay silent.
#include <fmt/format.h>
#include <gmock/gmock.h>

#include <algorithm>

#include "rules/support/examined.h"

namespace loomleaf::test {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;

// F1 sits on the terminal: what it may have to break is what the battery gives.
std::string on_battery(const std::string& short_circuit, const std::string& fuse, const std::string& more = "") {
  return "system 12 V rules rv\nsource BAT 12.8 V low 12.0 V 50 Ah max 30 A " + short_circuit + "\n" + fuse +
         " on BAT+\nload X 24 W\nwire W2 F1 to X+ 12 AWG red 1 m\nwire W3 X- to BAT- 12 AWG black 1 m\n" + more;
}

TEST(InterruptRating, IsSilentUpToWhatABladeBreaks) {  // 1000 A at 32 V, a maker's data
  EXPECT_FALSE(fires("interrupt-rating", on_battery("short-circuit 1000 A", "fuse F1 10 A blade")));
  const auto findings = findings_of("interrupt-rating", on_battery("short-circuit 1001 A", "fuse F1 10 A blade"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::danger);
  EXPECT_EQ(findings[0].subjects, std::vector<std::string>{"F1"});
  EXPECT_NEAR(findings[0].values->is, 1001, 1e-3);
  EXPECT_THAT(findings[0].message, HasSubstr("draws up to 1001 A, it can break 1000 A"));
  EXPECT_DOUBLE_EQ(findings[0].values->may_be, 1000);
}

TEST(InterruptRating, OfTheDeviceItselfCountsBeforeItsFamilys) {
  EXPECT_FALSE(fires("interrupt-rating", on_battery("short-circuit 2 kA", "fuse F1 10 A blade breaks 2 kA")));
  EXPECT_TRUE(fires("interrupt-rating", on_battery("short-circuit 900 A", "fuse F1 10 A blade breaks 500 A")));
}

TEST(InterruptRating, HangsOnTheVoltage) {
  // mrbf: 10 kA up to 15 V, 5 kA up to 32 V (makers' data, from memory)
  const auto plan = [](const char* voltage) {
    return std::string("system 12 V, 24 V rules rv\nsource BAT ") + voltage +
           " 50 Ah max 30 A short-circuit 8 kA\nfuse F1 30 A mrbf on BAT+\nload X 24 W 24 V max 40 V\n"
           "wire W2 F1 to X+ 10 AWG red 1 m\nwire W3 X- to BAT- 10 AWG black 1 m\n";
  };
  EXPECT_FALSE(fires("interrupt-rating", plan("12.8 V high 14.4 V")));
  EXPECT_TRUE(fires("interrupt-rating", plan("25.6 V high 28.8 V")));
}

// A branch fuse behind a main: the battery gives 5 kA.
std::string behind(const std::string& mains, const std::string& wires) {
  return "system 12 V rules rv\nsource BAT 12.8 V low 12.0 V 50 Ah max 30 A short-circuit 5 kA\n" + mains +
         "\nfuse F1 10 A blade\nload X 24 W\n" + wires +
         "wire W2 F1 to X+ 6 AWG red 1 m\nwire W3 X- to BAT- 6 AWG black 1 m\n";
}

TEST(InterruptRating, IsSilentBehindACurrentLimitingFuse) {
  EXPECT_THAT(
      findings_of("interrupt-rating", behind("fuse F0 30 A class-t on BAT+", "wire W1 F0 to F1 6 AWG red 100 mm\n")),
      IsEmpty());
}

TEST(InterruptRating, IsACautionBehindAFuseThatBreaksItButDoesNotLimitIt) {
  const auto findings = findings_of(
      "interrupt-rating", behind("fuse F0 40 A anl on BAT+", "wire W1 F0 to F1 6 AWG red 100 mm\n"));  // anl: 6 kA
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::caution);
  EXPECT_EQ(findings[0].subjects, (std::vector<std::string>{"F1", "F0"}));
  EXPECT_THAT(findings[0].message, HasSubstr("F0 before it can break that"));
}

TEST(InterruptRating, IsADangerBehindAFuseThatCannotBreakItEither) {
  const auto findings =
      findings_of("interrupt-rating", behind("fuse F0 40 A maxi on BAT+", "wire W1 F0 to F1 6 AWG red 100 mm\n"));
  ASSERT_EQ(findings.size(), 2u);
  EXPECT_EQ(findings[0].severity, Severity::danger);
  EXPECT_EQ(findings[1].severity, Severity::danger);
}

TEST(InterruptRating, IsADangerWhereTheBackUpLiesOnOneOfTwoWaysAlone) {
  const auto findings = findings_of("interrupt-rating",
                                    behind("fuse F0 30 A class-t on BAT+",
                                           "wire W1 F0 to F1 6 AWG red 100 mm\nwire W0 BAT+ to F1 6 AWG red 100 mm\n"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::danger);
}

// Several branch fuses on a bar behind a main of this family.
std::string branches_behind(const std::string& main, const std::string& rest) {
  std::string plan =
      "system 12 V rules rv\nsource BAT 12.8 V low 12.0 V 50 Ah max 30 A short-circuit 5 kA\nfuse F0 40 A " + main +
      " on BAT+\nbus PB, NB 60 A\nwire W1 F0 to PB 6 AWG red 100 mm\nwire W2 NB to BAT- 6 AWG black 100 mm\n";
  for (int i = 1; i <= 4; ++i)
    plan += fmt::format(
        "fuse F{0} 10 A blade on PB\nload X{0} 24 W\nwire A{0} F{0} to X{0}+ 12 AWG red 1 m\n"
        "wire B{0} X{0}- to NB 12 AWG black 1 m\n",
        i);
  return plan + rest;
}

TEST(InterruptRating, IsOneCautionOnAllThatOneDeviceBacksUp) {
  const auto findings = findings_of("interrupt-rating", branches_behind("anl", ""));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::caution);
  EXPECT_EQ(findings[0].subjects, (std::vector<std::string>{"F1", "F2", "F3", "F4", "F0"}));
  EXPECT_THAT(findings[0].message, HasSubstr("F2, F3 and F4 can no more break what they are asked for"));
  EXPECT_THAT(findings[0].mend, testing::StartsWith("fit a current-limiting fuse before all of them; or fit a fuse"));
}

TEST(InterruptRating, IsADangerForEachWhereNothingBacksThemUp) {
  const auto findings = findings_of("interrupt-rating", branches_behind("maxi", ""));
  ASSERT_EQ(findings.size(), 5u);  // of F0 as well
  for (const Finding& finding : findings) {
    EXPECT_EQ(finding.severity, Severity::danger);
    EXPECT_EQ(finding.subjects.size(), 1u);
  }
}

TEST(InterruptRating, LeavesWhatThePlanAcceptsAFindingOfItsOwn) {
  const std::string plan = branches_behind("anl", "accept interrupt-rating on F2 \"replaced next week\"\n");
  const auto findings = findings_of("interrupt-rating", plan);
  ASSERT_EQ(findings.size(), 2u);
  EXPECT_EQ(findings[0].subjects, (std::vector<std::string>{"F1", "F3", "F4", "F0"}));
  EXPECT_FALSE(findings[0].accepted);
  EXPECT_EQ(findings[1].subjects, (std::vector<std::string>{"F2", "F0"}));
  EXPECT_TRUE(findings[1].accepted);
  EXPECT_FALSE(fires("idle-accept", plan));
}

// Two batteries of 3 kA side by side, each with a main fuse of its own, a fuse block on their bus.
std::string bank_behind(const std::string& main1, const std::string& main2) {
  return "system 12 V rules rv\nsource B1, B2 12.8 V 100 Ah max 100 A short-circuit 3 kA\nfuse M1 " + main1 +
         " on B1+\nfuse M2 " + main2 +
         " on B2+\nbus PB, NB 200 A\nfuse F1 10 A blade on PB\nload X 24 W\n"
         "wire P1 M1 to PB 2/0 AWG red 200 mm\nwire P2 M2 to PB 2/0 AWG red 200 mm\n"
         "wire N1 NB to B1- 2/0 AWG black 200 mm\nwire N2 NB to B2- 2/0 AWG black 200 mm\n"
         "wire X1 F1 to X+ 16 AWG red 1 m\nwire X2 X- to NB 16 AWG black 1 m\n";
}

TEST(InterruptRating, IsSilentWhereEachBatteryHasALimitingFuseOfItsOwn) {
  EXPECT_THAT(findings_of("interrupt-rating", bank_behind("100 A class-t", "100 A class-t")), IsEmpty());
  const auto findings = findings_of("interrupt-rating", bank_behind("100 A class-t", "100 A class-t breaks 900 A"));
  ASSERT_EQ(findings.size(), 2u);  // of M2 itself as well
  for (const Finding& finding : findings) EXPECT_EQ(finding.severity, Severity::danger);
}

TEST(InterruptRating, IsACautionWhereOneOfTheMainsBreaksButDoesNotLimit) {
  const auto findings = findings_of("interrupt-rating", bank_behind("100 A class-t", "100 A anl"));  // anl: 6 kA
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::caution);
  EXPECT_EQ(findings[0].subjects, std::vector<std::string>{"F1"});
  EXPECT_THAT(findings[0].message, HasSubstr("the devices before it can break that, but do not limit it"));
}

// The stronger battery stands behind a limiting fuse, the weaker, on the other way of the selector, behind none.
TEST(InterruptRating, OfAWayThatIsNotTheWorstCounts) {
  const auto plan = [](const char* weaker) {
    return std::string("system 12 V rules rv\nsource B1 12.8 V 100 Ah max 60 A short-circuit 5 kA\nsource B2 12.8 V ") +
           "100 Ah max 60 A short-circuit " + weaker +
           "\nfuse M1 60 A class-t on B1+\nswitch S 2 ways 100 A\nfuse F1 10 A blade\nload X 24 W\n"
           "wire P1 M1 to S.out1 4 AWG red 100 mm\nwire P2 B2+ to S.out2 4 AWG red 100 mm\n"
           "wire P3 S.in to F1 4 AWG red 100 mm\nwire X1 F1 to X+ 16 AWG red 1 m\nbus NB 100 A\n"
           "wire N1 NB to B1- 4 AWG black 200 mm\nwire N2 NB to B2- 4 AWG black 200 mm\n"
           "wire X2 X- to NB 16 AWG black 1 m\n";
  };
  EXPECT_THAT(findings_of("interrupt-rating", plan("1 kA")), IsEmpty());
  const auto findings = findings_of("interrupt-rating", plan("3 kA"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::danger);
  EXPECT_LT(findings[0].values->is, 3000);
}

// No battery stands before the breaker: what the supply gives is all that can help or hurt.
std::string fed_by_supply(const std::string& limit, const std::string& breaks) {
  return "system 12 V rules marine\nsource A 12.8 V supply limit " + limit + "\nbreaker F2 15 A breaks " + breaks +
         " 32 V on A+\nload L 12 W\nwire W1 F2 to L+ 14 AWG red 0.2 m\nwire W3 L- to A- 14 AWG black 0.5 m\n";
}

TEST(InterruptRating, IsHeldAgainstASupplyWithoutABattery) {
  EXPECT_FALSE(fires("interrupt-rating", fed_by_supply("300 A", "300 A")));
  const auto findings = findings_of("interrupt-rating", fed_by_supply("300 A", "299 A"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::danger);
}

TEST(InterruptRating, IsHeldAgainstAConverterWithoutABattery) {
  const auto plan = [](const char* breaks) {
    return std::string("system 24 V, 12 V rules marine\nsource B 24 V 100 Ah max 100 A short-circuit 900 A\n") +
           "fuse F 100 A class-t on B+\nconverter C in 24 V out 12 V 150 A\nwire W1 F to C.in+ 2 AWG red 0.2 m\n"
           "wire W2 C.in- to B- 2 AWG black 0.2 m\nbreaker F2 10 A breaks " +
           breaks +
           " 32 V\nload L 12 W 12 V\nwire W3 C.out+ to F2 2 AWG red 0.1 m\nwire W4 F2 to L+ 14 AWG red 1 m\n"
           "wire W5 L- to C.out- 14 AWG black 1 m\n";
  };
  EXPECT_FALSE(fires("interrupt-rating", plan("150 A")));
  EXPECT_TRUE(fires("interrupt-rating", plan("149 A")));
}

// The battery's fuse limits what the battery gives, not what the alternator adds behind it.
TEST(InterruptRating, CountsWhatAChargerAddsBehindTheBatterysLimitingFuse) {
  const auto plan = [](const char* limit) {
    return std::string("system 12 V rules marine\nsource B 12.8 V low 12 V 100 Ah max 100 A short-circuit 3 kA\n") +
           "source A 12.8 V alternator limit " + limit +
           "\nbus P, N 300 A 5 ways\nfuse F 60 A class-t on B+\nwire W0 F to P 6 AWG red 0.1 m\n"
           "wire W1 A+ to P 2 AWG red 0.1 m\nwire W2 A- to N 2 AWG black 0.1 m\nwire W3 N to B- 2 AWG black 0.1 m\n"
           "breaker F2 10 A breaks 150 A 32 V on P\nload L 12 W\nwire W4 F2 to L+ 14 AWG red 0.2 m\n"
           "wire W5 L- to N 14 AWG black 0.5 m\n";
  };
  EXPECT_FALSE(fires("interrupt-rating", plan("150 A")));
  const auto findings = findings_of("interrupt-rating", plan("151 A"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].subjects.front(), "F2");
  EXPECT_EQ(findings[0].severity, Severity::danger);
}

TEST(InterruptRating, NamesAFamilyThatBreaksIt) {
  const auto findings = findings_of("interrupt-rating", on_battery("short-circuit 2.5 kA", "fuse F1 30 A maxi"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_THAT(findings[0].mend, HasSubstr("breaks 2.5 kA or more as F1, such as `"));
}

TEST(InterruptRating, IsNotCheckedWhereNobodySaysWhatTheBatteryGives) {
  const auto findings = findings_of("not-checked", on_battery("", "fuse F1 10 A blade"));
  ASSERT_FALSE(findings.empty());
  EXPECT_EQ(findings[0].subjects, std::vector<std::string>{"BAT"});
  EXPECT_THAT(findings[0].message, HasSubstr("interrupt-rating and short-not-cleared"));
  EXPECT_THAT(findings[0].mend, HasSubstr("short-circuit"));
}

TEST(InterruptRating, IsNotCheckedWhereNobodySaysWhatTheFuseBreaks) {
  const auto findings = findings_of("not-checked", on_battery("short-circuit 500 A", "fuse F1 8 A ceramic-torpedo"));
  EXPECT_TRUE(std::any_of(findings.begin(), findings.end(), [](const Finding& finding) {
    return finding.message == "interrupt-rating not checked for F1: no breaking capacity is given";
  }));
}

// A 10 A blade opens within 5 s from twice its rating on (ISO 8820-3, from memory). The battery's own resistance sets
// the current: a touch under or over 20 A.
TEST(ShortNotCleared, IsACautionWhereTheFuseMayTakeMoreThanFiveSeconds) {
  const auto at = [](const char* internal) {
    return on_battery(std::string("internal ") + internal, "fuse F1 10 A blade");
  };
  // 12 V / 20 A = 600 mohm, of which the fuse and 2 m of 12 AWG take some 19
  EXPECT_FALSE(fires("short-not-cleared", at("575 mohm")));
  const auto findings = findings_of("short-not-cleared", at("600 mohm"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::caution);
  EXPECT_EQ(findings[0].subjects, (std::vector<std::string>{"W2", "F1"}));
  EXPECT_GT(findings[0].values->is, 5.0);
  EXPECT_DOUBLE_EQ(findings[0].values->may_be, 5.0);
  EXPECT_THAT(findings[0].mend, HasSubstr("change F1 to 7.5 A"));
}

// 20 A maxi: no later than 1 s at 120 A, the same I2t beyond (SAE J1888, from memory): 14,400 A2s. k is 122 from 60 to
// 160 C: 18 AWG, 0.823 mm2, bears 10,080 A2s; 16 AWG, 1.31 mm2, 25,500 A2s.
TEST(ShortNotCleared, IsAWarningWhereTheWirePassesItsAdiabaticLimit) {
  const auto with = [](const std::string& size) {
    return "system 12 V rules rv\nsource BAT 12.8 V low 12.0 V 50 Ah max 30 A short-circuit 500 A\n"
           "fuse F1 20 A maxi on BAT+\nload X 24 W\nwire W2 F1 to X+ " +
           size + " red 1 m\nwire W3 X- to BAT- 12 AWG black 1 m\n";
  };
  EXPECT_FALSE(fires("short-not-cleared", with("16 AWG")));
  const auto findings = findings_of("short-not-cleared", with("18 AWG"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::warning);
  EXPECT_EQ(findings[0].subjects, (std::vector<std::string>{"W2", "F1"}));
  EXPECT_THAT(findings[0].source, HasSubstr("BS 7671 table 43.1"));
}

// A fuse block's lead and its only lamp: a short at the block goes back from the minus bar, not over the lamp's return.
TEST(ShortNotCleared, OfALeadToABlockDoesNotRunOverTheReturnOfItsOnlyLamp) {
  const auto plan = [](const std::string& block_back) {
    return "system 12 V rules marine drop 10 %\ndefault wire insulation 105 C\n"
           "source B 12.8 V low 12.2 V 100 Ah max 60 A short-circuit 900 A\nfuse F0 60 A midi on B+\n"
           "bus PB, NB 100 A 6 ways\nwire W1 F0 to PB 6 AWG red 4 m\nwire W2 NB to B- " +
           block_back +
           " black 4 m\nfuse F1 3 A blade on PB\nload L 10 W\nwire W3 F1 to L+ 16 AWG red 0.3 m\n"
           "wire W4 L- to NB 16 AWG black 0.3 m\n";
  };
  EXPECT_FALSE(fires("short-not-cleared", plan("6 AWG")));
  EXPECT_TRUE(fires("short-not-cleared", plan("16 AWG")));
}

// The main carries less, and takes longer, once the fuse of one of the two ways behind it has opened: the other way
// bears the short all at once, but not what is left of it.
TEST(ShortNotCleared, CountsOnTheMainTakingLongerOnceOneOfTwoWaysHasOpened) {
  const auto plan = [](const std::string& unfused_way) {
    return "system 12 V rules marine\ndefault wire insulation 105 C\n"
           "source B 12.8 V low 12 V 100 Ah max 300 A internal 24 mohm\nfuse F2 100 A midi on B+\n"
           "bus PA, PB 200 A 5 ways\nload L 60 W\nwire W1 F2 to PA 2 AWG red 0.5 m\nwire WY PA to PB " +
           unfused_way +
           " red 8 m\nfuse F1 60 A maxi on PA\nwire WX F1 to PB 2 AWG red 0.5 m\nwire WL PB to L+ 2 AWG red 2 m\n"
           "wire W3 L- to B- 2 AWG black 3 m\n";
  };
  for (const Finding& slow : findings_of("short-not-cleared", plan("4 AWG")))
    EXPECT_EQ(slow.severity, Severity::caution) << slow.message;  // the fuse takes its time, and nothing suffers
  const auto findings = findings_of("short-not-cleared", plan("8 AWG"));
  ASSERT_FALSE(findings.empty());
  EXPECT_EQ(findings[0].severity, Severity::warning);
  EXPECT_EQ(findings[0].subjects.front(), "WY");
}

TEST(ShortNotCleared, LeavesAMissingFuseToTheFindingOnThat) {
  EXPECT_FALSE(fires("short-not-cleared", faulty_example("unfused-run")));
}

TEST(ShortNotCleared, IsNotCheckedWhereNoCurveSaysHowSoonTheFuseOpens) {
  const std::string plan = on_battery("internal 600 mohm", "fuse F1 10 A breaks 1 kA 32 V");
  EXPECT_FALSE(fires("short-not-cleared", plan));
  const auto findings = findings_of("not-checked", plan);
  EXPECT_TRUE(std::any_of(findings.begin(), findings.end(), [](const Finding& finding) {
    return finding.message == "short-not-cleared not checked for F1: no curve gives the time to open";
  }));
}

TEST(ShortNotCleared, CanBeAccepted) {
  const std::string plan =
      on_battery("internal 600 mohm", "fuse F1 10 A blade", "accept short-not-cleared on W2 \"a dry cell\"\n");
  const auto findings = findings_of("short-not-cleared", plan);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].accepted, "a dry cell");
}

// A tap from a stud behind 100 A to a small fuse; 33 CFR 183.455(c) lets it be 7 in (178 mm) long (from memory).
std::string tap_of(const std::string& length) {
  return R"(
system 12 V rules marine drop 10 %
default wire insulation 105 C
source B 12.8 V low 12.2 V 100 Ah max 60 A short-circuit 1.9 kA
fuse F0 100 A anl on B+
bus PB, NB 150 A 6 ways
wire W1 F0 to PB 2 AWG red 2 m
fuse FC 3 A blade
load L 10 W
wire W3 FC to L+ 16 AWG red 1 m
wire W4 L- to NB 16 AWG black 1 m
load M 500 W motor
wire W6 PB to M+ 2 AWG red 1 m
wire W7 M- to NB 2 AWG black 1 m
wire W5 NB to B- 2 AWG black 2 m
wire W2 PB to FC 16 AWG red )" +
         length + "\n";
}

TEST(ShortNotCleared, IsSilentOnWhatTheRulebookToleratesBeforeItsDevice) {
  EXPECT_THAT(findings_of("short-not-cleared", tap_of("100 mm")), IsEmpty());
  const auto findings = findings_of("short-not-cleared", tap_of("2 m"));
  ASSERT_FALSE(findings.empty());
  EXPECT_THAT(findings[0].subjects, testing::Contains("W2"));
}

}  // namespace
}  // namespace loomleaf::test
