// `explain`: the page of a finding, the same with a plan's own figures, and the limits of a rulebook.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "command/support/trial.h"
#include "loomleaf/rules/rule.h"

namespace loomleaf::testing {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

constexpr const char* long_lamp = R"(plan "Long lamp"
system 12 V rules rv drop 3 %
source BAT 12 V 20 Ah max 10 A short-circuit 300 A
fuse F1 10 A blade on BAT+
load LMP 24 W constant-current
leg L1 HERE to THERE 6 m conduit 8 mm
place HERE
place THERE
wire W2 F1 to LMP+ 14 AWG red 10 m
wire W3 LMP- to BAT- 14 AWG black 10 m
)";

Said explain(const std::string& rule, const std::string& id) { return loomleaf({"explain", rule, "-", id}, long_lamp); }

TEST(ExplainPlan, WorksOutADropWithTheReadersOwnFigures) {
  const Said said = explain("voltage-drop", "LMP");
  EXPECT_EQ(said.status, ExitStatus::clean) << said.err;
  EXPECT_THAT(said.out, HasSubstr("How it is worked out:"));
  EXPECT_THAT(said.out, HasSubstr("With the figures of the plan, for LMP:"));
  EXPECT_THAT(said.out, HasSubstr("in case `load` (everything on,"));
  EXPECT_THAT(said.out, HasSubstr("in W2: 2 A x "));
  EXPECT_THAT(said.out, HasSubstr("is more than 3 %: a finding"));
}

// Two-way switches, lamps in a chain beyond, and a solar controller nearer than the battery.
TEST(ExplainPlan, ListsWhatCarriesTheLampsCurrentInThatCaseAndNothingElse) {
  const char* plan = R"(system 12 V rules rv drop 1 %
source BAT 12 V 20 Ah max 10 A short-circuit 300 A
fuse F0 10 A blade on BAT+
bus PB, NB 30 A
wire M1 F0 to PB 10 AWG red 1 m
wire M2 NB to BAT- 10 AWG black 1 m
source SOL solar 14.4 V limit 5 A
fuse FS 10 A blade on PB
wire G1 SOL+ to FS 14 AWG red 0.2 m
wire G2 SOL- to NB 14 AWG black 0.2 m
fuse F1 5 A blade on PB
switch S1, S2 10 A 2 ways
wire W1 F1 to S1.in 14 AWG red 1 m
wire T1 S1.out1 to S2.out1 14 AWG red 5 m
wire T2 S1.out2 to S2.out2 14 AWG brown 5 m
wire W2 S2.in to LA1+ 14 AWG red 1 m
load LA1..LA3 6 W constant-current
wire A2..A3 LA1+ to LA2+ to LA3+ 14 AWG red 1 m
wire B1 LA1- to NB 14 AWG black 5 m
wire B2..B3 LA1- to LA2- to LA3- 14 AWG black 1 m
)";
  const Said said = loomleaf({"explain", "voltage-drop", "-", "LA1"}, plan);
  EXPECT_EQ(said.status, ExitStatus::clean) << said.err;
  for (const char* piece : {"M1", "F0", "F1", "W1", "T1", "W2", "B1", "M2"})
    EXPECT_THAT(said.out, HasSubstr(std::string("\n  in ") + piece + ": 1.5 A x ")) << piece;
  for (const char* piece : {"T2", "A2", "A3", "B2", "B3", "G1", "G2", "FS"})
    EXPECT_THAT(said.out, Not(HasSubstr(std::string("in ") + piece + ":"))) << piece;
  // 12 V less what it gets is what the pieces lose together.
  EXPECT_THAT(said.out, HasSubstr("it gets 11.7"));
  EXPECT_THAT(said.out, HasSubstr("together, out and back: 0.2"));
}

// Of two wires side by side, 10 m and 20 m, two thirds and one third of the current pass: each then loses as much, and
// counts for its share.
TEST(ExplainPlan, CountsWiresSideBySideByTheirShares) {
  const char* plan = R"(system 12 V rules rv drop 1 %
source BAT 12 V 20 Ah max 10 A short-circuit 300 A
fuse F1 10 A blade on BAT+
bus PB 30 A
wire W1 F1 to PB 14 AWG red 10 m
wire W2 F1 to PB 14 AWG red 20 m
load LMP 24 W constant-current
wire W3 PB to LMP+ 14 AWG red 1 m
wire W4 LMP- to BAT- 14 AWG black 10 m
)";
  const std::string out = loomleaf({"explain", "voltage-drop", "-", "LMP"}, plan).out;
  // 2 A x 87.83 mohm x 2/3 = 0.117 V, 10 m of 14 AWG as in W4 (8.45 ohm/km at 20 C, ASTM B258, 3.9 % more at 30 C)
  EXPECT_THAT(out, HasSubstr("in W1: 1.33 A x 87.83 mohm = 0.117 V, of which 0.078 V counts")) << out;
  EXPECT_THAT(out, HasSubstr("= 0.117 V, of which 0.039 V counts")) << out;
  EXPECT_THAT(out, HasSubstr("in W4: 2 A x 87.83 mohm = 0.176 V\n")) << out;
}

TEST(ExplainPlan, StatesTheWayFromTableToWhatAWireMayCarry) {
  const Said said = explain("gauge-mismatch", "W2");
  EXPECT_THAT(said.out, HasSubstr("table: 14 AWG, insulation not given, may carry 15 A (NEC"));
  EXPECT_THAT(said.out, HasSubstr("10 A is not more than 15 A: no finding"));
}

TEST(ExplainPlan, GivesTheFiguresOfAShortCircuit) {
  EXPECT_THAT(explain("interrupt-rating", "F1").out, HasSubstr("draws 300 A"));
  EXPECT_THAT(explain("interrupt-rating", "F1").out, HasSubstr("300 A is not more than 1000 A: no finding"));
  const Said said = explain("short-not-cleared", "W2");
  EXPECT_THAT(said.out, HasSubstr("k = 226 x sqrt(ln((234.5 + 160) / (234.5 + 60))) = 122 A s^0.5 / mm2"));
  EXPECT_THAT(said.out, HasSubstr("no finding"));
}

TEST(ExplainPlan, ExplainsAllThatIsFoundWhereNoIdIsGiven) {
  const Said said = loomleaf({"explain", "voltage-drop", "-"}, long_lamp);
  EXPECT_EQ(said.status, ExitStatus::clean);
  EXPECT_THAT(said.out, HasSubstr("for LMP:"));
  EXPECT_THAT(loomleaf({"explain", "overloaded-wire", "-"}, long_lamp).out, HasSubstr("no finding of this kind"));
}

TEST(ExplainPlan, OffersTheNearestId) {
  const Said said = explain("voltage-drop", "LPM");
  EXPECT_EQ(said.status, ExitStatus::not_understood);
  EXPECT_THAT(said.err, HasSubstr("there is no `LPM` in the plan, but `LMP`"));
}

TEST(ExplainPlan, SaysWhereARuleHasNothingToWorkOutForAnId) {
  const Said said = explain("voltage-drop", "W2");
  EXPECT_EQ(said.status, ExitStatus::not_understood);
  EXPECT_THAT(said.err, HasSubstr("voltage-drop has nothing to work out for `W2`"));
}

// The page, and below it what the plan comes to.
TEST(ExplainPlan, SaysWhereAPlanHasNoFindingOfARuleWithoutAFigure) {
  for (const Said& said : {loomleaf({"explain", "no-supply", "-"}, long_lamp), explain("no-supply", "LMP")}) {
    EXPECT_EQ(said.status, ExitStatus::clean) << said.err;
    EXPECT_THAT(said.out, HasSubstr("no-supply (WARNING)\n"));
    EXPECT_THAT(said.out, HasSubstr("The plan has no finding of this kind"));
  }
  EXPECT_EQ(explain("no-supply", "LPM").status, ExitStatus::not_understood);
}

TEST(ExplainPlan, GivesTheFindingsOfARuleWithoutAFigureOnTheirSubjectsAlone) {
  const std::string plan = example("faulty/reversed-polarity.loom");
  const Said all = loomleaf({"explain", "reversed-polarity", plan});
  EXPECT_EQ(all.status, ExitStatus::clean) << all.err;
  EXPECT_THAT(all.out, HasSubstr("WARNING: reversed-polarity: "));
  EXPECT_THAT(all.out, HasSubstr("    mend: "));
  EXPECT_THAT(loomleaf({"explain", "reversed-polarity", plan, "F1"}).out, HasSubstr("no finding of this kind on F1"));
}

TEST(Explain, TellsOfACoreWhatIsFoundOnItsCable) {
  const std::string alike =
      "system 12 V rules rv\nsource BAT 12.8 V 50 Ah\nfuse F1 3 A blade on BAT+\nload X 6 W\n"
      "cable CO1 F1, BAT- to X 18 AWG cores red, black 1 m\ncable C01 F1, BAT- to X 18 AWG cores red, black 1 m\n";
  for (const char* id : {"CO1", "CO1.red"})
    EXPECT_THAT(loomleaf({"explain", "same-label", "-", id}, alike).out, HasSubstr("NOTICE: same-label")) << id;
}

TEST(ExplainPlan, ComparesASupplyWithWhatStandsBesideIt) {
  EXPECT_THAT(explain("voltage-clash", "BAT").out, HasSubstr("no other supply stands across its two points"));
  const std::string clash = example("faulty/voltage-clash.loom");
  for (const char* id : {"BAT", "OLD"}) {
    const std::string out = loomleaf({"explain", "voltage-clash", clash, id}).out;
    EXPECT_THAT(out, HasSubstr("OLD of 25.6 V, BAT of 12.8 V"));
    EXPECT_THAT(out, HasSubstr("1.25 x 12.8 V = 16 V"));
    EXPECT_THAT(out, HasSubstr("25.6 V is more than 16 V: a finding"));
  }
}

TEST(ExplainPlan, ComparesAConductorWithTheOneThatFeedsIt) {
  const std::string step = example("faulty/gauge-step.loom");
  EXPECT_THAT(loomleaf({"explain", "gauge-step", step, "W3"}).out, HasSubstr("3.31 mm2 is more than 2.14 mm2"));
  // W2 is the thin one of the two: what names it is given.
  EXPECT_THAT(loomleaf({"explain", "gauge-step", step, "W2"}).out, HasSubstr("CAUTION: gauge-step: W3 is 12 AWG"));
}

TEST(ExplainPlan, OfAToleratedPieceEndsInNoFinding) {
  const char* tapped = R"(plan "Tap"
system 12 V rules rv
source BAT 12.8 V low 12 V 50 Ah max 30 A short-circuit 500 A
fuse F0 30 A blade on BAT+
bus PB 50 A 4 ways
fuse F1 10 A blade
load LMP 24 W
wire W1 F0 to PB 10 AWG red 0.3 m
wire W2 PB to F1 14 AWG red 100 mm
wire W3 F1 to LMP+ 14 AWG red 1 m
wire W4 LMP- to BAT- 10 AWG black 1 m
)";
  const Said said = loomleaf({"explain", "gauge-mismatch", "-", "W2"}, tapped);
  EXPECT_THAT(said.out,
              HasSubstr("what can flow in through F0 = 30 A\n  it may carry 15 A; the rulebook tolerates it"));
  EXPECT_THAT(said.out, HasSubstr("no finding\n"));
  EXPECT_THAT(said.out, Not(HasSubstr("a finding\n")));
}

TEST(ExplainPlan, RoundsAFigureTheSameWayThroughout) {
  const std::string out = explain("voltage-drop", "LMP").out;  // a little over 3 %, told with what sets it apart
  const std::size_t worked = out.find(" / 12 V = ");
  ASSERT_NE(worked, std::string::npos) << out;
  const std::size_t from = worked + 10;
  const std::string drop = out.substr(from, out.find('\n', from) - from);
  EXPECT_THAT(out, HasSubstr("\n  " + drop + " is more than 3 %: a finding")) << out;
}

TEST(ExplainPlan, ComplainsOfAPlanAsCheckDoes) {
  const Said said = loomleaf({"explain", "voltage-drop", "-", "X"}, "fuze F1 5 A\n");
  EXPECT_EQ(said.status, ExitStatus::not_understood);
  EXPECT_THAT(said.err, HasSubstr("-:1:1:"));
  EXPECT_EQ(loomleaf({"explain", "voltage-drop", "nowhere.loom"}).status, ExitStatus::file_trouble);
}

// Each rule with a figure explains the subject of its own faulty example.
class ExplainFaulty : public ::testing::TestWithParam<std::string> {};

TEST_P(ExplainFaulty, EndsInAFinding) {
  const Said said = loomleaf({"explain", GetParam(), example("faulty/" + GetParam() + ".loom")});
  EXPECT_EQ(said.status, ExitStatus::clean) << said.err;
  EXPECT_THAT(said.out, HasSubstr("With the figures of the plan"));
  EXPECT_THAT(said.out, HasSubstr("a finding\n"));
}

// Each of the others gives the finding itself below its page.
class ExplainFaultyWithoutFigure : public ::testing::TestWithParam<std::string> {};

TEST_P(ExplainFaultyWithoutFigure, GivesTheFinding) {
  const Said said = loomleaf({"explain", GetParam(), example("faulty/" + GetParam() + ".loom")});
  EXPECT_EQ(said.status, ExitStatus::clean) << said.err;
  EXPECT_THAT(said.out, HasSubstr("How to mend it:"));
  EXPECT_THAT(said.out, HasSubstr(": " + GetParam() + ": "));
}

std::vector<std::string> rules_by_figure(bool with) {
  std::vector<std::string> names;
  for (const Rule& rule : all_rules())
    if ((rule.work_out != nullptr) == with) names.emplace_back(rule.name);
  return names;
}

std::string name_of_test(const ::testing::TestParamInfo<std::string>& tested) {
  std::string name = tested.param;
  std::erase(name, '-');
  return name;
}

INSTANTIATE_TEST_SUITE_P(Rules, ExplainFaulty, ::testing::ValuesIn(rules_by_figure(true)), name_of_test);
INSTANTIATE_TEST_SUITE_P(Rules, ExplainFaultyWithoutFigure, ::testing::ValuesIn(rules_by_figure(false)), name_of_test);

TEST(ExplainRulebook, ListsEachLimitWithItsSourceAndHowItIsKnown) {
  const Said said = loomleaf({"explain", "rv"});
  EXPECT_EQ(said.status, ExitStatus::clean) << said.err;
  EXPECT_THAT(said.out, HasSubstr("457.2 mm\n      (NEC 552.10(E)(4), 2008; seen)"));
  EXPECT_THAT(said.out, HasSubstr("18 AWG 6 A"));
  EXPECT_THAT(said.out, HasSubstr("(NEC 552.10(E)(1), 2008; from memory)"));
  EXPECT_THAT(said.out, HasSubstr("(common practice, no source)"));
  EXPECT_THAT(loomleaf({"explain", "marine"}).out, HasSubstr("any length, to a starter"));
  EXPECT_THAT(loomleaf({"explain", "metric"}).out,
              HasSubstr("1.8 m, from a charger, solar controller or alternator\n      (ISO 13297:2020 12.3; seen)"));
}

TEST(ExplainRulebook, OfAnIdInAPlanIsWhatItsLimitsComeTo) {
  const Said own = explain("rv", "W2"), other = explain("marine", "W2");
  EXPECT_EQ(own.status, ExitStatus::clean) << own.err;
  EXPECT_TRUE(own.out.starts_with("rv: ")) << own.out;
  EXPECT_THAT(own.out, HasSubstr("gauge-mismatch (DANGER), for W2:\n  table: 14 AWG, insulation not given, may carry "
                                 "15 A (NEC"));
  EXPECT_THAT(own.out, HasSubstr("least-size (CAUTION), for W2:"));
  EXPECT_TRUE(other.out.starts_with("marine: ")) << other.out;
  EXPECT_THAT(other.out, HasSubstr("may carry 20 A"));
  EXPECT_THAT(explain("rv", "LMP").out, HasSubstr("voltage-drop (CAUTION), for LMP:"));
  EXPECT_THAT(explain("rv", "W9").err, HasSubstr("there is no `W9` in the plan"));
}

TEST(ExplainRulebook, ComplainsOfAPlanThatItCannotRead) {
  EXPECT_EQ(loomleaf({"explain", "rv", "nosuchfile"}).status, ExitStatus::file_trouble);
  EXPECT_EQ(loomleaf({"explain", "rv", "-"}, "fuze F1 5 A\n").status, ExitStatus::not_understood);
  const Said all = loomleaf({"explain", "words"});
  EXPECT_THAT(all.out, HasSubstr("`14 SAE`"));
  EXPECT_THAT(all.out, HasSubstr("boat-cable"));
  EXPECT_THAT(all.out, HasSubstr("class-t"));
  const Said words = loomleaf({"explain", "words", "van.loom"});
  EXPECT_EQ(words.status, ExitStatus::not_understood);
  EXPECT_THAT(words.err, HasSubstr("leave out `van.loom`"));
}

TEST(ExplainRulebook, IsOfferedWhereANameIsUnknown) {
  const Said said = loomleaf({"explain", "marin"});
  EXPECT_EQ(said.status, ExitStatus::not_understood);
  EXPECT_THAT(said.err, HasSubstr("but `marine`"));
  EXPECT_THAT(said.err, HasSubstr("the rulebooks are marine, metric, rv"));
}

// A rulebook of one's own in templates/ beside the plan.
class OwnRulebook : public ::testing::Test {
 protected:
  OwnRulebook() : plan_(folder_.write("van.loom", plan_text())) {
    std::filesystem::create_directories(folder_.path() / "templates" / "rulebooks");
  }
  static std::string plan_text() {
    std::string text = long_lamp;
    text.replace(text.find("rules rv drop 3 %"), 17, "rules farm");
    return text;
  }
  // The installed `rv` with one thing changed.
  void write_book(const std::string& from, const std::string& to) {
    std::string book = read_all(LOOMLEAF_ROOT "/templates/rulebooks/rv.xml");
    const std::size_t at = book.find(from);
    ASSERT_NE(at, std::string::npos);
    folder_.write("templates/rulebooks/farm.xml", book.replace(at, from.size(), to));
  }

  PassingFolder folder_;
  std::filesystem::path plan_;
};

TEST_F(OwnRulebook, IsTakenForThePlan) {
  write_book("<voltage_drop percent=\"3\" source=\"NEC informational note, advice, edition not known\"",
             "<voltage_drop percent=\"1\" source=\"the farm's own rule\"");
  const Said said = loomleaf({"check", plan_.string()});
  EXPECT_THAT(said.out, HasSubstr("may lose at most 1 %"));
  EXPECT_THAT(said.out, HasSubstr("after: the farm's own rule"));
}

TEST_F(OwnRulebook, IsExplainedWithThePlan) {
  write_book("<voltage_drop percent=\"3\"", "<voltage_drop percent=\"1\"");
  EXPECT_THAT(loomleaf({"explain", "farm", plan_.string()}).out, HasSubstr("1 % at most"));
  EXPECT_EQ(loomleaf({"explain", "farm"}).status, ExitStatus::not_understood);
}

TEST_F(OwnRulebook, IsComplainedOfByLine) {
  write_book("<voltage_drop percent=\"3\"", "<voltage_drop percent=\"300\"");
  const std::string book = read_all(folder_.path() / "templates/rulebooks/farm.xml");
  const auto line =
      1 + std::count(book.begin(), book.begin() + static_cast<std::ptrdiff_t>(book.find("percent=\"300\"")), '\n');
  const Said said = loomleaf({"check", plan_.string()});
  EXPECT_EQ(said.status, ExitStatus::not_understood);
  EXPECT_THAT(said.err, HasSubstr("farm.xml:" + std::to_string(line) + ": "));
  EXPECT_EQ(said.out, "");

  const Said json = loomleaf({"check", "--json", plan_.string()});
  EXPECT_EQ(json.status, ExitStatus::not_understood);
  const auto complaints = nlohmann::json::parse(json.out)["complaints"];
  ASSERT_EQ(complaints.size(), 1u);
  EXPECT_TRUE(complaints[0]["file"].get<std::string>().ends_with("farm.xml"));
  EXPECT_EQ(complaints[0]["line"], line);
  EXPECT_THAT(said.err, HasSubstr(complaints[0]["message"].get<std::string>()));
  EXPECT_TRUE(complaints[0]["column"].is_null());
}

TEST_F(OwnRulebook, SaysWhichBooksThereAreWhereItsNameIsWrong) {
  write_book("<voltage_drop percent=\"3\"", "<voltage_drop percent=\"2\"");
  const Said said = loomleaf({"check", "--rules", "frm", plan_.string()});
  EXPECT_EQ(said.status, ExitStatus::not_understood);
  EXPECT_THAT(said.err, HasSubstr("farm"));
  EXPECT_THAT(said.err, Not(HasSubstr("\x1b")));
}

}  // namespace
}  // namespace loomleaf::testing
