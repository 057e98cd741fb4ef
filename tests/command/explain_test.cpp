// `explain`: the page of a finding, the same with a plan's own figures, and the limits of a rulebook.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>

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
  EXPECT_THAT(said.out, HasSubstr("in case load"));
  EXPECT_THAT(said.out, HasSubstr("at most in W2: 2 A x "));
  EXPECT_THAT(said.out, HasSubstr("is more than 3 %: a finding"));
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
  EXPECT_THAT(explain("no-supply", "LMP").err, HasSubstr("there is no figure to work out"));
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

std::vector<std::string> rules_with_figures() {
  std::vector<std::string> names;
  for (const Rule& rule : all_rules())
    if (rule.work_out) names.emplace_back(rule.name);
  return names;
}

INSTANTIATE_TEST_SUITE_P(Rules, ExplainFaulty, ::testing::ValuesIn(rules_with_figures()), [](const auto& tested) {
  std::string name = tested.param;
  std::erase(name, '-');
  return name;
});

TEST(ExplainRulebook, ListsEachLimitWithItsSourceAndHowItIsKnown) {
  const Said said = loomleaf({"explain", "rv"});
  EXPECT_EQ(said.status, ExitStatus::clean) << said.err;
  EXPECT_THAT(said.out, HasSubstr("457 mm\n      (NEC 552.10(E)(4), 2008; seen)"));
  EXPECT_THAT(said.out, HasSubstr("18 AWG 6 A"));
  EXPECT_THAT(said.out, HasSubstr("(NEC 552.10(E)(1), 2008; from memory)"));
  EXPECT_THAT(said.out, HasSubstr("(common practice, no source)"));
  EXPECT_THAT(loomleaf({"explain", "marine"}).out, HasSubstr("any length, to a starter"));
  EXPECT_THAT(loomleaf({"explain", "metric"}).out,
              HasSubstr("1.8 m, from a charger, solar controller or alternator\n      (ISO 13297:2020 12.3; seen)"));
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
  write_book("<voltage_drop percent=\"3\" source=\"NEC informational note, advice\"",
             "<voltage_drop percent=\"1\" source=\"the farm's own rule\"");
  const Said said = loomleaf({"check", plan_.string()});
  EXPECT_THAT(said.out, HasSubstr("it may lose 1 %"));
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
