// The rules on voltage at the loads, on sizes, places, conduits, colours and names.
#include <fmt/format.h>
#include <gmock/gmock.h>

#include <cmath>

#include "rules/support/examined.h"

namespace loomleaf::test {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

std::string far_load(const std::string& load) {
  return sound_base + "load X " + load + "\nwire A1 PB to X+ 12 AWG red 10 m\nwire A2 X- to NB 12 AWG black 10 m\n";
}

TEST(VoltageDrop, IsSilentAHundredthOfAPerCentUnderTheLimitAndSpeaksAHundredthOver) {
  const Examination examination = examined(far_load("3 A constant-current drop 50 %"));
  const double drop = examination.study.working.loads.at(0).drop->value * 100;
  // 3 A through 20 m of 12 AWG (5.21 ohm/km at 20 C, ASTM B258, 3.9 % more at 30 C) lose 2.71 % of 12 V, and the mains
  // and a 10 A blade fuse of some 7.5 mohm 0.2 % more.
  EXPECT_NEAR(drop, 2.95, 0.1);
  EXPECT_FALSE(fires("voltage-drop", far_load(fmt::format("3 A constant-current drop {:.6f} %", drop + 0.01))));
  const auto findings =
      findings_of("voltage-drop", far_load(fmt::format("3 A constant-current drop {:.6f} %", drop - 0.01)));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_NEAR(findings[0].values->is, drop, 1e-9);
  EXPECT_NEAR(findings[0].values->may_be, drop - 0.01, 1e-5);
  EXPECT_EQ(findings[0].values->unit, "%");
}

std::string out_and_back(const char* amperes_drawn, const char* out, const char* back) {
  return sound_base +
         fmt::format("load X {} constant-current\nwire A1 PB to X+ {} red 10 m\nwire A2 X- to NB {} black 10 m\n",
                     amperes_drawn, out, back);
}

TEST(VoltageDrop, NamesTheLeastCopperThatWorks) {
  const auto findings = findings_of("voltage-drop", out_and_back("4.5 A", "12 AWG", "12 AWG"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].mend, "make A1 10 AWG and A2 10 AWG at least");
  EXPECT_TRUE(fires("voltage-drop", out_and_back("4.5 A", "10 AWG", "12 AWG")));
  EXPECT_FALSE(fires("voltage-drop", out_and_back("4.5 A", "10 AWG", "10 AWG")));
}

TEST(VoltageDrop, ChangesOnePieceWhereThatIsEnough) {
  const auto findings = findings_of("voltage-drop", out_and_back("3.4 A", "12 AWG", "12 AWG"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].mend, "make A1 10 AWG at least");
  EXPECT_FALSE(fires("voltage-drop", out_and_back("3.4 A", "10 AWG", "12 AWG")));
}

TEST(VoltageDrop, NamesACableByItself) {
  const auto plan = [](const char* size) {
    return sound_base + fmt::format("load X 6 A constant-current\ncable C1 PB, NB to X 2x{} 10 m\n", size);
  };
  const auto findings = findings_of("voltage-drop", plan("12 AWG"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].mend, "make C1 8 AWG at least");
  EXPECT_TRUE(fires("voltage-drop", plan("10 AWG")));
  EXPECT_FALSE(fires("voltage-drop", plan("8 AWG")));
}

TEST(LowVoltage, IsSilentAtTheMinimumAndSpeaksUnderIt) {
  const Examination examination = examined(far_load("3 A constant-current drop 50 %"));
  const double gets = examination.study.working.loads.at(0).voltage->value.in(volts);
  EXPECT_FALSE(fires("low-voltage", far_load(fmt::format("3 A constant-current drop 50 % min {:.6f} V", gets - 0.01))));
  const auto findings =
      findings_of("low-voltage", far_load(fmt::format("3 A constant-current drop 50 % min {:.6f} V", gets + 0.01)));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_NEAR(findings[0].values->is, gets, 1e-9);
  EXPECT_EQ(findings[0].values->unit, "V");
}

TEST(LowVoltage, SaysWhereNoWorkingPointExists) {
  // 12 V through R brings V^2 / 4R at most: 200 m of 18 AWG are more than 4 ohm, so 9 W at most.
  const std::string plan =
      sound_base + "load X 30 W\nwire A1 PB to X+ 18 AWG red 100 m\nwire A2 X- to NB 18 AWG black 100 m\n";
  const auto findings = findings_of("low-voltage", plan);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].subjects[0], "X");
  EXPECT_THAT(findings[0].message, HasSubstr("breaks down"));
}

TEST(LowVoltage, OffersAConverterWhereTheSupplyItselfIsTooLow) {
  const auto findings = findings_of("low-voltage", far_load("0.1 A constant-current min 12.5 V"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_THAT(findings[0].mend, HasSubstr("converter"));
}

std::string marine_with(const std::string& conductors) {
  return "system 12 V rules marine\nsource BAT 12.8 V low 12 V 50 Ah max 30 A short-circuit 500 A\nfuse F1 3 A blade\n"
         "load X 2 W\nwire W1 BAT+ to F1 16 AWG red 0.1 m\n" +
         conductors;
}

TEST(LeastSize, LetsCoresOfACableBeThinnerThanSingleWires) {  // 33 CFR 183.425: 16 AWG, 18 AWG in a sheath
  EXPECT_FALSE(fires("least-size", marine_with("cable C1 F1, BAT- to X 2x18 AWG cores red, black 1 m\n")));
  const auto findings =
      findings_of("least-size", marine_with("wire W2 F1 to X+ 18 AWG red 1 m\nwire W3 X- to BAT- 16 AWG black 1 m\n"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_THAT(findings[0].source, HasSubstr("183.425(e)"));
}

TEST(LeastSize, SaysOneFindingOfACable) {
  EXPECT_EQ(findings_of("least-size", marine_with("cable C1 F1, BAT- to X 2x20 AWG cores red, black 1 m\n")).size(),
            1u);
}

TEST(LeastSize, LeavesSignalsAlone) {
  EXPECT_FALSE(fires("least-size", sound_base + a_lamp + "tail T1, T2\nwire G1 T1 to T2 22 AWG white 1 m signal\n"));
}

TEST(LongTail, LetsSevenInchesPass) {  // 33 CFR 183.425(g): 7 in are 177.8 mm
  const auto plan = [](const char* length) {
    return fmt::format("system 12 V rules marine\nsource BAT 12.8 V\nload X 2 W tails 18 AWG {}\n", length);
  };
  for (const char* length : {"7 in", "177.8 mm"}) EXPECT_FALSE(fires("long-tail", plan(length))) << length;
  for (const char* length : {"7.01 in", "178 mm"}) EXPECT_TRUE(fires("long-tail", plan(length))) << length;
}

std::string conduit(const char* bore, int wires) {
  std::string plan = sound_base + a_lamp + fmt::format("place P\nplace Q\nleg L9 P to Q 1 m conduit {} mm\n", bore);
  for (int wire = 1; wire <= wires; ++wire) plan += fmt::format("wire G{} T1 to T2 14 AWG white\n", wire);
  return plan + "tail T1 at P\ntail T2 at Q\n";
}

TEST(FullConduit, HoldsTheSectionsAgainstTheRulebooksShare) {
  const Examination examination = examined(conduit("30", 3));
  const double diameter = examination.stock.find(WireSize::awg(14))->single_od.in(millimetres);
  // Three or more may fill 40 % (NEC chapter 9 Table 1): 3 d^2 / D^2 = 0.40.
  const double bore = diameter * std::sqrt(3 / 0.40);
  EXPECT_FALSE(fires("full-conduit", conduit(fmt::format("{:.4f}", bore + 0.001).c_str(), 3)));
  const auto findings = findings_of("full-conduit", conduit(fmt::format("{:.4f}", bore - 0.001).c_str(), 3));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_THAT(findings[0].subjects, ElementsAre("L9", "G1", "G2", "G3"));
  EXPECT_DOUBLE_EQ(findings[0].values->may_be, 40);
}

// The stock has no outside diameter for a cable of 4 AWG.
std::string conduit_with_a_cable(double bore, int wires) {
  return conduit(fmt::format("{:.4f}", bore).c_str(), wires) + "tail T3, T5 at P\ntail T4, T6 at Q\n" +
         "cable C9 T3, T5 to T4, T6 2x4 AWG\n";
}

TEST(FullConduit, CountsACableOfUnknownDiameterInNumberAlone) {
  const Examination examination = examined(conduit("30", 1));
  const double diameter = examination.stock.find(WireSize::awg(14))->single_od.in(millimetres);
  // One alone may fill 53 %, two 31 % (NEC chapter 9 Table 1): d^2 / D^2 = 0.31 with the cable beside it.
  const double bore = diameter / std::sqrt(0.31);
  EXPECT_FALSE(fires("full-conduit", conduit(fmt::format("{:.4f}", bore - 0.01).c_str(), 1)));
  EXPECT_FALSE(fires("full-conduit", conduit_with_a_cable(bore + 0.001, 1)));
  const auto findings = findings_of("full-conduit", conduit_with_a_cable(bore - 0.001, 1));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_THAT(findings[0].subjects, ElementsAre("L9", "G1", "C9"));
  EXPECT_DOUBLE_EQ(findings[0].values->may_be, 31);
  EXPECT_THAT(findings[0].message, HasSubstr("C9 of unknown diameter is there too"));
  EXPECT_THAT(findings[0].mend, HasSubstr("with room for C9 too"));
}

TEST(HiddenSplice, LetsARemovableCoverPass) {
  const auto plan = [](const char* cover) {
    return sound_base + a_lamp + fmt::format("place P cover \"Panel\" {}\n", cover) +
           "fuse F9 5 A blade on PB\nfuse F8 5 A blade at P\nwire G1 PB to F8 10 AWG red 1 m\n";
  };
  EXPECT_FALSE(fires("hidden-splice", plan("removable")));
  const auto findings = findings_of("hidden-splice", plan(""));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].subjects[0], "F8");
}

TEST(HiddenSplice, LetsSwitchesAndLoadsPass) {
  EXPECT_FALSE(fires("hidden-splice", sound_base + "place P cover \"Panel\"\nload X 6 W at P\nswitch S1 5 A at P\n"));
}

TEST(ColourClash, TakesATracerWithAnAllowedBase) {
  const auto plan = [](const char* colour) {
    return sound_base +
           fmt::format("load X 6 W\nwire A1 PB to X+ 10 AWG {} 1 m\nwire A2 X- to NB 10 AWG black 1 m\n", colour);
  };
  EXPECT_FALSE(fires("colour-clash", plan("red")));
  EXPECT_FALSE(fires("colour-clash", plan("red/white")));
  EXPECT_TRUE(fires("colour-clash", plan("green")));
  EXPECT_TRUE(fires("colour-clash", plan("green/yellow")));
}

TEST(ColourClash, IsSilentOfConductorsWithoutAColour) {
  EXPECT_FALSE(
      fires("colour-clash", sound_base + "load X 6 W\nwire A1 PB to X+ 10 AWG 1 m\nwire A2 X- to NB 10 AWG 1 m\n"));
}

TEST(SameLabel, TakesLettersThatLookAlikeForOne) {
  const auto names = [](const char* one, const char* other) {
    return sound_base + a_lamp + fmt::format("tail {}, {}\n", one, other);
  };
  EXPECT_TRUE(fires("same-label", names("T10", "T1O")));
  EXPECT_TRUE(fires("same-label", names("TL1", "Tl1")));
  EXPECT_TRUE(fires("same-label", names("T-1", "T_1")));
  EXPECT_FALSE(fires("same-label", names("T10", "T11")));
  EXPECT_FALSE(fires("same-label", names("T1", "T11")));
}

// -- not-checked

std::vector<std::string> gaps(const std::string& plan) {
  std::vector<std::string> messages;
  for (const Finding& finding : findings_of("not-checked", plan)) messages.push_back(finding.message);
  return messages;
}

TEST(NotChecked, NamesWhatIsMissingOnASplice) {
  EXPECT_THAT(gaps(sound_base + R"(
splice SP1
load X 6 W
wire A1 PB to SP1 10 AWG red 1 m
wire A2 SP1 to X+ 10 AWG red 1 m
wire A3 X- to NB 10 AWG black 1 m
)"),
              ElementsAre(HasSubstr("overloaded-splice not checked for SP1"), HasSubstr("no number of ways"),
                          HasSubstr("no sizes that go in")));
}

TEST(NotChecked, NamesABatterysMissingMaximum) {
  EXPECT_THAT(gaps("system 12 V rules rv\nsource BAT 12.8 V low 12 V\nfuse F1 5 A blade\nload X 6 W\n"
                   "wire W1 BAT+ to F1 10 AWG red 0.1 m\nwire W2 F1 to X+ 10 AWG red 1 m\nwire W3 X- to BAT- 10 AWG "
                   "black 1 m\n"),
              testing::Contains(HasSubstr("overloaded-source not checked for BAT")));
}

std::string lamp_behind(const std::string& fuse) {
  return sound_base + a_lamp + "fuse F2 " + fuse + " on PB\nload X 6 W\nwire A1 F2 to X+ 10 AWG red 1 m\n" +
         "wire A2 X- to NB 10 AWG black 1 m\n";
}

TEST(NotChecked, IsSilencedByTheResistanceThatItAsksFor) {
  EXPECT_THAT(gaps(lamp_behind("3 A low-profile-mini")),
              ElementsAre(HasSubstr("voltage-drop not checked for F2: no resistance")));
  EXPECT_THAT(gaps(lamp_behind("3 A low-profile-mini 30 mohm")), testing::IsEmpty());
}

TEST(VoltageDrop, TakesAFusesStatedResistanceBeforeItsFamilys) {
  // 6 W at 12 V is 0.5 A: 1 ohm more takes about 0.5 V of 12 V, 4 %, over the limit of 3 %
  EXPECT_FALSE(fires("voltage-drop", lamp_behind("3 A blade")));
  EXPECT_TRUE(fires("voltage-drop", lamp_behind("3 A blade 1 ohm")));
}

// A shunt with a sense lead, in the feed or in the return of a lamp.
std::string with_sense_lead(const std::string& shunt_in_feed, const std::string& lead) {
  const bool in_feed = shunt_in_feed == "feed";
  return "system 12 V rules rv\nsource BAT 12.8 V low 12 V 50 Ah max 60 A short-circuit 500 A also probe\n"
         "fuse F1 5 A blade\nshunt SH 50 A 1 mohm also sense\nload X 6 W also data\nwire W1 BAT+ to F1 10 AWG red 0.1 "
         "m\n" +
         std::string(in_feed
                         ? "wire W2 F1 to SH 10 AWG red 1 m\nwire W3 SH to X+ 10 AWG red 1 m\nwire W4 X- to BAT- 10 "
                           "AWG black 1 m\n"
                         : "wire W2 F1 to X+ 10 AWG red 1 m\nwire W3 X- to SH 10 AWG black 1 m\nwire W4 SH to BAT- "
                           "10 AWG black 1 m\n") +
         lead;
}

TEST(NotChecked, NamesASenseLeadWhoseFeedLiesInsideAnItem) {
  const auto sense_leads = [](const std::string& shunt_in, const std::string& lead) {
    std::vector<std::string> messages;
    for (std::string& message : gaps(with_sense_lead(shunt_in, lead)))
      if (message.starts_with("unfused-run and gauge-mismatch")) messages.push_back(std::move(message));
    return messages;
  };
  const std::string shunts = "wire W9 SH.sense to X.data 22 AWG white 1 m signal\n";
  EXPECT_THAT(sense_leads("feed", shunts), ElementsAre(HasSubstr("not checked for W9")));
  EXPECT_THAT(sense_leads("return", shunts), testing::IsEmpty());
  const std::string batterys = "wire W9 X.data to BAT.probe 22 AWG white 1 m signal\n";
  EXPECT_THAT(sense_leads("return", batterys), ElementsAre(HasSubstr("not checked for W9")));
  EXPECT_THAT(sense_leads("feed", ""), testing::IsEmpty());
}

TEST(NotChecked, SaysWhichConduitHoldsACableOfUnknownDiameter) {
  const auto on_conduit = [](double bore, int wires) {
    std::vector<std::string> messages;
    for (std::string& message : gaps(conduit_with_a_cable(bore, wires)))
      if (message.starts_with("full-conduit")) messages.push_back(std::move(message));
    return messages;
  };
  EXPECT_THAT(on_conduit(30, 0),
              ElementsAre("full-conduit not checked for L9: the stock has no outside diameter for a wire or "
                          "cable there"));
  EXPECT_THAT(on_conduit(30, 1), ElementsAre(HasSubstr("not checked for L9")));
  EXPECT_THAT(on_conduit(5, 1), testing::IsEmpty());  // too full already: that is the finding
  EXPECT_THAT(gaps(conduit("30", 3)), testing::IsEmpty());
}

// A pump whose current goes through a main fuse and a final one; LMP hangs behind another main fuse.
std::vector<std::string> not_judged(const std::string& main, const std::string& last, const std::string& pump) {
  const std::string plan = R"(
system 12 V rules rv
source BAT 12.8 V low 12 V 50 Ah max 90 A short-circuit 500 A
bus PB, NB 100 A 4 ways
load LMP 6 W
fuse F7 0.6 A 32 V 5 mohm breaks 1 kA
fuse F8 5 A blade
wire W1 BAT+ to F0 8 AWG red 0.1 m
wire W2 F0 to PB 8 AWG red 0.1 m
wire W3 PB to F5 8 AWG red 0.1 m
wire W4 F5 to X+ 8 AWG red 0.1 m
wire W5 X- to NB 8 AWG black 0.1 m
wire W6 NB to BAT- 8 AWG black 0.1 m
wire W7 BAT+ to F7 8 AWG red 0.1 m
wire W8 F7 to F8 8 AWG red 0.1 m
wire W9 F8 to LMP+ 8 AWG red 0.1 m
wire V1 LMP- to NB 8 AWG black 0.1 m
)";
  std::vector<std::string> subjects;
  for (const Finding& finding :
       findings_of("not-checked", plan + "fuse F0 " + main + "\nfuse F5 " + last + "\nload X " + pump + "\n"))
    if (finding.message.starts_with("fuse-too-small"))
      subjects.insert(subjects.end(), finding.subjects.begin(), finding.subjects.end());
  return subjects;
}

TEST(NotChecked, NamesAMainFuseThatASurgeTakesAboveItsRatingWithoutACurve) {
  EXPECT_THAT(not_judged("10 A 32 V", "30 A maxi", "24 W motor surge 20x 5 s"), ElementsAre("F0"));
  EXPECT_THAT(not_judged("10 A blade", "30 A maxi", "24 W motor surge 20x 5 s"), testing::IsEmpty());
  EXPECT_THAT(not_judged("10 A 32 V", "30 A maxi", "24 W motor"), testing::IsEmpty());
}

TEST(NotChecked, OfASurgeIsSilentUpToTheRating) {
  // 2 A start at 8 A, on top of nothing else in F5; F0 sees the same.
  const std::string pump = "2 A constant-current surge 4x 5 s";
  EXPECT_THAT(not_judged("8 A 32 V", "8 A 32 V", pump), testing::IsEmpty());
  EXPECT_THAT(not_judged("7.9 A 32 V", "8 A 32 V", pump), ElementsAre("F0"));
  EXPECT_THAT(not_judged("8 A 32 V", "7.9 A 32 V", pump), ElementsAre("F5"));
  EXPECT_THAT(not_judged("7.9 A 32 V", "7.9 A 32 V", pump), testing::UnorderedElementsAre("F0", "F5"));
}

TEST(NotChecked, IsSilentOfItemsThatNothingJoins) {
  EXPECT_THAT(gaps(sound_base + a_lamp + "splice SP9\nbus B9\nswitch S9\n"), testing::IsEmpty());
}

TEST(NotChecked, IsSilentOfASignalThatNothingFeeds) {
  EXPECT_THAT(gaps(sound_base + a_lamp + "tail T1, T2\nwire G1 T1 to T2 22 AWG white 1 m signal\n"),
              testing::IsEmpty());
}

TEST(NotChecked, SaysThatASizeIsNotInTheRulebook) {
  EXPECT_THAT(gaps(sound_base + a_lamp +
                   "load X 1 W\nfuse F2 5 A blade on PB\nwire A1 F2 to X+ 24 AWG red 0.2 m\nwire A2 X- to NB 24 AWG "
                   "black 0.2 m\n"),
              testing::Contains(HasSubstr("gauge-mismatch and overloaded-wire not checked for A1 and A2")));
}

}  // namespace
}  // namespace loomleaf::test
