// The rules that read the circuit alone: what is joined to what, and by which size.
#include <gmock/gmock.h>

#include "rules/support/examined.h"

namespace loomleaf::test {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

TEST(SoundBase, HasNoFindings) { EXPECT_THAT(all_found(sound_base + a_lamp), IsEmpty()); }

// -- loads without supply or return

TEST(NoSupply, AloneIsSaidOfALoadThatNothingJoins) {
  EXPECT_THAT(all_found(sound_base + a_lamp + "load X 6 W\n"), ElementsAre("no-supply X"));
}

TEST(NoSupply, IsSaidOfAConvertersInput) {
  const std::string plan = sound_base + a_lamp + R"(
converter CV out 24 V 2 A
load X 12 W 24 V
wire A1 CV.out+ to X+ 14 AWG red 1 m
wire A2 X- to CV.out- 14 AWG black 1 m
wire A3 CV.in- to NB 14 AWG black 1 m
)";
  const auto findings = findings_of("no-supply", plan);
  ASSERT_FALSE(findings.empty());
  EXPECT_THAT(findings, testing::Contains(testing::Field(&Finding::subjects, ElementsAre("CV"))));
}

// Two converters, each at the output of the other, and a lamp; `feed` may bring them a source.
std::string ring_of_converters(const std::string& feed) {
  return sound_base + a_lamp + R"(
converter C1, C2 in 12 V out 12 V 5 A
load X 6 W
wire A1 C1.out+ to C2.in+ 14 AWG red 1 m
wire A2 C2.out+ to C1.in+ 14 AWG red 1 m
wire A3 C1.out- to C2.in- 14 AWG black 1 m
wire A4 C2.out+ to X+ 14 AWG red 1 m
wire A5 X- to C2.out- 14 AWG black 1 m
wire A6 C2.out- to NB 10 AWG black 1 m
)" + feed;
}

TEST(NoSupply, IsSaidOfConvertersThatFeedEachOtherAlone) {
  const auto findings = findings_of("no-supply", ring_of_converters(""));
  ASSERT_EQ(findings.size(), 2u);
  EXPECT_THAT(findings[0].subjects, ElementsAre("C1"));
  EXPECT_THAT(findings[1].subjects, ElementsAre("C2"));
  EXPECT_FALSE(
      fires("no-supply", ring_of_converters("fuse F9 5 A blade on PB\nwire A7 F9 to C1.in+ 14 AWG red 1 m\n")));
}

TEST(NoSupply, IsSilentWhereOneSwitchPositionFeeds) {
  const std::string plan = sound_base + a_lamp + R"(
switch S1 10 A 32 V 2 ways
load X 6 W
wire A1 PB to S1.in 14 AWG red 0.3 m
wire A2 S1.out2 to X+ 14 AWG red 0.3 m
wire A3 X- to NB 14 AWG black 0.3 m
)";
  EXPECT_FALSE(fires("no-supply", plan));
}

TEST(NoReturn, NamesTheTerminalThatNothingJoins) {
  const std::string plan = sound_base + a_lamp + "load X 6 W\nwire A1 PB to X+ 10 AWG red 0.3 m\n";
  const auto findings = findings_of("no-return", plan);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_THAT(findings[0].message, HasSubstr("nothing is joined to X-"));
  EXPECT_FALSE(fires("no-supply", plan));
}

// -- loads in series

std::string in_line(const std::string& one, const std::string& other) {
  return sound_base + "load X " + one + "\nload Y " + other +
         "\nwire A1 PB to X+ 10 AWG red 0.3 m\nwire A2 X- to Y+ 10 AWG red 0.3 m\n"
         "wire A3 Y- to NB 10 AWG black 0.3 m\n";
}

TEST(LoadsInSeries, AreNotCheckedAndLackNothing) {
  EXPECT_THAT(all_found(in_line("6 W resistive", "6 W resistive")), ElementsAre("not-checked X"));
  const auto findings = findings_of("not-checked", in_line("6 W", "6 W"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_THAT(findings[0].subjects, ElementsAre("X", "Y"));
}

TEST(LoadsInSeries, LeaveWhatElseLacksItsSupplyOrReturnAFinding) {
  const std::string plan = in_line("6 W", "6 W") + "load Z 6 W\nwire B1 PB to Z+ 10 AWG red 0.3 m\nload V 6 W\n" +
                           "wire B2 V- to NB 10 AWG black 0.3 m\n";
  EXPECT_THAT(findings_of("no-return", plan), ElementsAre(testing::Field(&Finding::subjects, ElementsAre("Z"))));
  EXPECT_THAT(findings_of("no-supply", plan), ElementsAre(testing::Field(&Finding::subjects, ElementsAre("V"))));
  // The second load of the line leads nowhere: nothing is in series.
  const std::string open_ended =
      sound_base + "load X 6 W\nload Y 6 W\nwire A1 PB to X+ 10 AWG red 0.3 m\nwire A2 X- to Y+ 10 AWG red 0.3 m\n";
  EXPECT_TRUE(fires("no-return", open_ended));
}

// -- polarity

std::string wired_backwards(const std::string& load) {
  return sound_base + load + "\nwire A1 PB to X- 10 AWG red 0.3 m\nwire A2 X+ to NB 10 AWG black 0.3 m\n";
}

TEST(ReversedPolarity, IsTheOneFindingOfALoadWiredBackwards) {
  EXPECT_THAT(all_found(wired_backwards("load X 6 W")), ElementsAre("reversed-polarity X"));
}

TEST(ReversedPolarity, IsSilentOnTheMiddleOfABank) {
  for (const auto& [volts, last] : {std::pair("36 V", "A3"), std::pair("48 V", "A4")}) {
    const std::string bank = last;
    std::string text = std::string("system ") + volts + " rules rv\nsource A1.." + bank +
                       " 12.8 V 100 Ah max 100 A short-circuit 800 A\nfuse F 10 A class-t on " + bank +
                       "+\nload L 10 W\nwire W4 F to L+ 14 AWG red 1 m\nwire W5 L- to A1- 14 AWG black 1 m\n"
                       "wire L1 A1+ to A2- 6 AWG red 0.2 m\nwire L2 A2+ to A3- 6 AWG red 0.2 m\n";
    if (bank == "A4") text += "wire L3 A3+ to A4- 6 AWG red 0.2 m\n";
    EXPECT_FALSE(fires("reversed-polarity", text)) << volts;
  }
}

TEST(ReversedPolarity, FiresOnABatteryTheWrongWayRoundBesideAnother) {
  EXPECT_TRUE(fires("reversed-polarity", R"(
system 12 V rules rv
source B1, B2 12.8 V low 12 V 100 Ah max 100 A short-circuit 2 kA
fuse F1 60 A class-t on B1+
fuse F2 60 A class-t on B2-
bus P, N 100 A 9 ways
wire W0 F1 to P 4 AWG red 0.2 m
wire W1 F2 to P 4 AWG red 0.2 m
wire W2 B1- to N 4 AWG black 0.2 m
wire W3 B2+ to N 4 AWG black 0.2 m
)"));
}

TEST(ReversedPolarity, MindsElectronicsAlone) {
  EXPECT_TRUE(fires("reversed-polarity", wired_backwards("load X 6 W")));
  EXPECT_TRUE(fires("reversed-polarity", wired_backwards("load X 0.5 A constant-current")));
  EXPECT_FALSE(fires("reversed-polarity", wired_backwards("load X 6 W motor")));
  EXPECT_FALSE(fires("reversed-polarity", wired_backwards("load X 6 W resistive")));
}

// A charger and a battery straight across each other; `plus` and `minus` are where the charger's ends go.
std::string charging(const std::string& plus, const std::string& minus, const std::string& more = "") {
  return "system 12 V rules rv\nsource BAT 12.8 V low 12 V 50 Ah max 30 A short-circuit 500 A\n"
         "source CH charger 14 V limit 10 A\nfuse F1 15 A blade\nwire W1 CH+ to F1 10 AWG red 0.1 m\nwire W2 F1 to " +
         plus + " 10 AWG red 0.1 m\nwire W3 CH- to " + minus + " 10 AWG black 0.1 m\n" + more;
}

TEST(ReversedPolarity, OfAChargerAgainstABatteryNamesTheChargerAlone) {
  EXPECT_FALSE(fires("reversed-polarity", charging("BAT+", "BAT-")));
  const auto findings = findings_of("reversed-polarity", charging("BAT-", "BAT+"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].subjects, (std::vector<std::string>{"CH"}));
  EXPECT_EQ(findings[0].mend, "change over the two conductors at CH");
}

TEST(ReversedPolarity, OfABatteryAgainstChargerAndLoadNamesTheBattery) {
  const std::string lamp =
      "load X 6 W\nfuse F2 5 A blade\nwire W4 CH+ to F2 10 AWG red 0.1 m\n"
      "wire W5 F2 to X+ 10 AWG red 0.1 m\nwire W6 X- to CH- 10 AWG black 0.1 m\n";
  const auto findings = findings_of("reversed-polarity", charging("BAT-", "BAT+", lamp));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].subjects[0], "BAT");
}

// -- joints

std::string splice_with(int loads, const std::string& splice) {
  std::string plan = sound_base + splice + "\nwire A0 PB to SP1 10 AWG red 0.3 m\n";
  for (int at = 1; at <= loads; ++at) {
    const std::string n = std::to_string(at);
    plan += "load X" + n + " 6 W\nwire A" + n + " SP1 to X" + n + "+ 12 AWG red 0.3 m\nwire B" + n + " X" + n +
            "- to NB 10 AWG black 0.3 m\n";
  }
  return plan;
}

TEST(CrowdedSplice, LetsAllWaysBeUsed) {
  EXPECT_FALSE(fires("crowded-splice", splice_with(2, "splice SP1 3 ways 32 A takes 0.2..6 mm2")));
  const auto findings = findings_of("crowded-splice", splice_with(3, "splice SP1 3 ways 32 A takes 0.2..6 mm2"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_DOUBLE_EQ(findings[0].values->is, 4);
  EXPECT_DOUBLE_EQ(findings[0].values->may_be, 3);
}

TEST(CrowdedSplice, LetsASizeBeThreePerCentOutside) {
  // 10 AWG is 5.261 mm2 (ASTM B258): 2.9 % over 5.11 mm2, 3.2 % over 5.10 mm2.
  EXPECT_FALSE(fires("crowded-splice", splice_with(1, "splice SP1 2 ways 32 A takes 0.2..5.11 mm2")));
  const auto findings = findings_of("crowded-splice", splice_with(1, "splice SP1 2 ways 32 A takes 0.2..5.1 mm2"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_THAT(findings[0].subjects, ElementsAre("SP1", "A0"));
  EXPECT_NEAR(findings[0].values->is, 5.261, 0.001);
}

TEST(CrowdedSplice, MindsWiresThatAreTooThin) {
  // 12 AWG is 3.309 mm2.
  EXPECT_FALSE(fires("crowded-splice", splice_with(1, "splice SP1 2 ways 32 A takes 3.4..6 mm2")));
  EXPECT_TRUE(fires("crowded-splice", splice_with(1, "splice SP1 2 ways 32 A takes 3.5..6 mm2")));
}

TEST(CrowdedSplice, CountsWhatIsOnABusToo) {
  const auto plan = [](const char* ways) {
    return std::string(
               "system 12 V rules rv\nsource BAT 12.8 V low 12 V 50 Ah max 30 A short-circuit 500 A\nbus PB 100 A ") +
           ways + R"(
fuse F0 10 A blade
fuse F1, F2 10 A blade on PB
load X, Y 6 W
wire W1 BAT+ to F0 10 AWG red 0.1 m
wire W2 F0 to PB 10 AWG red 0.1 m
wire W3 F1 to X+ 10 AWG red 0.1 m
wire W4 F2 to Y+ 10 AWG red 0.1 m
wire W5 X- to BAT- 10 AWG black 0.1 m
wire W6 Y- to BAT- 10 AWG black 0.1 m
)";
  };
  EXPECT_FALSE(fires("crowded-splice", plan("3 ways")));
  EXPECT_TRUE(fires("crowded-splice", plan("2 ways")));
}

// -- loose ends and unused items

TEST(LooseEnd, IsNoFindingOnASpareWayOfAFuseBlock) {
  EXPECT_THAT(all_found(sound_base + a_lamp + "fuse F9 10 A blade on PB\n"), IsEmpty());
}

TEST(LooseEnd, IsNoFindingOnTheOffPositionOfAChangeover) {
  const std::string plan = sound_base + R"(
switch S1 10 A 32 V 3 ways
load X 6 W
wire A1 PB to S1.in 10 AWG red 0.3 m
wire A2 S1.out1 to X+ 10 AWG red 0.3 m
wire A3 X- to NB 10 AWG black 0.3 m
)";
  EXPECT_FALSE(fires("loose-end", plan));
}

TEST(LooseEnd, IsNoFindingOnUnusedPolesOfAPlug) {
  const std::string plan = sound_base + R"(
connector P9 7 poles 16 A takes 0.2..6 mm2
load X 6 W
wire A1 PB to P9.in3 10 AWG red 0.3 m
wire A2 P9.out3 to X+ 10 AWG red 0.3 m
wire A3 X- to NB 10 AWG black 0.3 m
)";
  EXPECT_THAT(all_found(plan), IsEmpty());
}

std::vector<std::string> loose(const std::string& items) {
  std::vector<std::string> messages;
  for (const Finding& finding : findings_of("loose-end", sound_base + a_lamp + items))
    messages.push_back(finding.message);
  return messages;
}

TEST(LooseEnd, NamesTheTerminalOfEachKindOfItem) {
  EXPECT_THAT(loose("switch S1 10 A\nwire A1 PB to S1 10 AWG red 1 m\n"), ElementsAre(HasSubstr("joined to S1.out")));
  EXPECT_THAT(loose("fuse F9 10 A blade\nwire A1 PB to F9 10 AWG red 1 m\n"),
              ElementsAre(HasSubstr("joined to F9.out")));
  EXPECT_THAT(loose("load X 6 W\nwire A1 PB to X+ 10 AWG red 1 m\n"), ElementsAre(HasSubstr("joined to X-")));
  EXPECT_THAT(loose("connector P9 2 poles 16 A\nwire A1 PB to P9.in2 10 AWG red 1 m\n"),
              ElementsAre(HasSubstr("P9.out2")));
  EXPECT_THAT(
      loose("relay R1 contact 9 A coil 2 W\nwire A1 PB to R1.30 10 AWG red 1 m\nwire A2 PB to R1.86 10 AWG red 1 m\n"),
      ElementsAre(testing::AllOf(HasSubstr("R1.85"), HasSubstr("R1.87"))));
  EXPECT_THAT(loose("dimmer D1 8 A\nwire A1 PB to D1.in+ 10 AWG red 1 m\nwire A2 D1.in- to NB 10 AWG black 1 m\n"),
              ElementsAre(testing::AllOf(HasSubstr("D1.out+"), HasSubstr("D1.out-"))));
  EXPECT_THAT(loose("splice SP1 2 ways 20 A\nwire A1 PB to SP1 10 AWG red 1 m\n"),
              ElementsAre(HasSubstr("1 conductor alone")));
}

TEST(LooseEnd, IsSaidOfBothEndsOfACoilWhoseContactIsInUse) {
  const std::string contact =
      "relay R1 contact 9 A coil 2 W\nload X 6 W\nwire A1 PB to R1.30 10 AWG red 1 m\n"
      "wire A2 R1.87 to X+ 10 AWG red 1 m\nwire A3 X- to NB 10 AWG black 1 m\n";
  EXPECT_THAT(loose(contact),
              ElementsAre(testing::AllOf(HasSubstr("joined to R1.85 and R1.86"), HasSubstr("at rest"))));
  EXPECT_THAT(loose(contact + "wire A4 PB to R1.86 10 AWG red 1 m\n"), ElementsAre(HasSubstr("joined to R1.85, and")));
  EXPECT_THAT(loose(contact + "wire A4 PB to R1.86 10 AWG red 1 m\nwire A5 R1.85 to NB 10 AWG black 1 m\n"), IsEmpty());
  EXPECT_THAT(loose("relay R1 contact 9 A coil 2 W\n"), IsEmpty());  // nothing joins it at all: unused-item
}

TEST(LooseEnd, TakesOneNegativeOfAConverterForBothUnlessItIsIsolated) {
  const std::string wires =
      "load X 12 W 24 V\nwire A1 PB to CV.in+ 10 AWG red 1 m\nwire A2 CV.out+ to X+ 10 AWG red 1 m\n"
      "wire A3 X- to CV.out- 10 AWG black 1 m\nwire A4 CV.out- to NB 10 AWG black 1 m\n";
  EXPECT_THAT(loose("converter CV in 12 V out 24 V 2 A\n" + wires), IsEmpty());
  EXPECT_THAT(loose("converter CV in 12 V out 24 V 2 A isolated\n" + wires),
              ElementsAre(HasSubstr("joined to CV.in-")));
}

TEST(LooseEnd, IsNoFindingOnATail) { EXPECT_THAT(loose("tail T1\nwire A1 NB to T1 10 AWG black 1 m\n"), IsEmpty()); }

TEST(UnusedItem, IsSaidOfEachKindThatIsNoLoad) {
  const std::string items =
      "switch S9 10 A 32 V\nsplice SP9 2 ways 10 A takes 0.2..4 mm2\nfuse F9 5 A blade\nbus B9 10 A 2 ways\n";
  EXPECT_THAT(all_found(sound_base + a_lamp + items),
              ElementsAre("unused-item S9", "unused-item SP9", "unused-item F9", "unused-item B9"));
}

// -- sizes in series

std::string in_series(const std::string& first, const std::string& second, const std::string& between = "") {
  const std::string through = between.empty() ? "splice Z1 2 ways 32 A takes 0.2..10 mm2" : between;
  return sound_base + through + "\nload X 6 W\nwire A1 PB to Z1 " + first + " red 0.3 m\nwire A2 Z1 to X+ " + second +
         " red 0.3 m\nwire A3 X- to NB 10 AWG black 0.3 m\n";
}

TEST(GaugeStep, MindsARunThatGetsThickerAwayFromTheSupply) {
  EXPECT_FALSE(fires("gauge-step", in_series("12 AWG", "12 AWG")));
  EXPECT_FALSE(fires("gauge-step", in_series("12 AWG", "14 AWG")));
  const auto findings = findings_of("gauge-step", in_series("14 AWG", "12 AWG"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_THAT(findings[0].subjects, ElementsAre("A2", "A1"));
}

TEST(GaugeStep, LooksThroughASwitchAndNotThroughAFuse) {
  EXPECT_TRUE(fires("gauge-step", in_series("14 AWG", "12 AWG", "switch Z1 10 A 32 V")));
  EXPECT_FALSE(fires("gauge-step", in_series("14 AWG", "12 AWG", "fuse Z1 10 A blade")));
}

TEST(GaugeStep, IsSilentBehindTwoWiresSideBySide) {
  const std::string plan = sound_base + R"(
splice Z1 3 ways 32 A takes 0.2..10 mm2
load X 6 W
wire A1 PB to Z1 12 AWG red 0.3 m
wire A4 PB to Z1 12 AWG red 0.3 m
wire A2 Z1 to X+ 10 AWG red 0.3 m
wire A3 X- to NB 10 AWG black 0.3 m
)";
  EXPECT_FALSE(fires("gauge-step", plan));
}

TEST(GaugeStep, IsSilentWhereASupplyLiesOnTheOtherSideToo) {
  const std::string plan = in_series("12 AWG", "10 AWG") + R"(
source SOL solar 14 V limit 5 A
wire A4 SOL+ to Z1 10 AWG red 0.2 m
wire A5 SOL- to NB 10 AWG black 0.2 m
)";
  EXPECT_FALSE(fires("gauge-step", plan));
}

}  // namespace
}  // namespace loomleaf::test
