#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "command/support/trial.h"

namespace loomleaf::testing {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

constexpr const char* unfused_lamp = R"(plan "Unfused" language 1
system 12 V rules rv
source BAT 12.8 V 100 Ah
load LA1 10 W
wire W1 BAT+ to LA1+ 18 AWG red 3 m
wire W2 LA1- to BAT- 18 AWG black 3 m
)";

TEST(Check, LeavesWithZeroOnASoundPlan) {
  const Said said = loomleaf({"check", example("first-lamp.loom")});
  EXPECT_EQ(said.status, ExitStatus::clean) << said.out << said.err;
  EXPECT_EQ(said.err, "");
}

TEST(Check, FindsNoDangerOrWarningInTheTravellingLibrary) {
  const Said said = loomleaf({"check", "--json", example("travelling-library.loom")});
  EXPECT_EQ(said.status, ExitStatus::clean) << said.err;
  const auto json = nlohmann::json::parse(said.out);
  EXPECT_EQ(json["summary"]["danger"], 0);
  EXPECT_EQ(json["summary"]["warning"], 0);
  EXPECT_GE(json["conductors"].size(), 60u);
}

TEST(Check, LeavesWithOneWhereSomethingIsFound) {
  const Said said = loomleaf({"check", "-"}, unfused_lamp);
  EXPECT_EQ(said.status, ExitStatus::findings);
  EXPECT_THAT(said.out, HasSubstr("DANGER: unfused-run"));
}

TEST(Check, StopAtDangerLetsAWarningPass) {
  const std::string small_switch = R"(plan "Small switch"
system 12 V rules rv
source BAT 12.8 V 100 Ah
fuse F1 10 A blade on BAT+
switch S1 1 A
load HT 48 W resistive
wire W1 F1 to S1 12 AWG red 0.5 m
wire W2 S1 to HT+ 12 AWG red 0.5 m
wire W3 HT- to BAT- 12 AWG black 0.5 m
)";
  EXPECT_EQ(loomleaf({"check", "-"}, small_switch).status, ExitStatus::findings);
  EXPECT_EQ(loomleaf({"check", "--stop-at", "danger", "-"}, small_switch).status, ExitStatus::clean);
}

TEST(Check, LeavesWithTwoAndNamesTheLineWhereThePlanIsNotUnderstood) {
  const Said said = loomleaf({"check", "-"}, "system 12 V\nfuze F1 5 A\n");
  EXPECT_EQ(said.status, ExitStatus::not_understood);
  EXPECT_THAT(said.err, HasSubstr("-:2:1: "));
  EXPECT_THAT(said.err, HasSubstr("fuse"));
  EXPECT_EQ(said.out, "");
}

TEST(Check, GivesComplaintsAsJsonToo) {
  const Said said = loomleaf({"check", "--json", "-"}, "system 12 V\nfuze F1 5 A\n");
  EXPECT_EQ(said.status, ExitStatus::not_understood);
  const auto json = nlohmann::json::parse(said.out);
  ASSERT_FALSE(json["complaints"].empty());
  EXPECT_EQ(json["complaints"][0]["line"], 2);
}

TEST(Check, LeavesWithThreeWhereThereIsNoSuchFile) {
  const Said said = loomleaf({"check", "/nowhere/at-all.loom"});
  EXPECT_EQ(said.status, ExitStatus::file_trouble);
  EXPECT_THAT(said.err, HasSubstr("cannot read /nowhere/at-all.loom"));
}

TEST(Check, LeavesWithTwoWhereTheRulebookIsUnknown) {
  const Said said = loomleaf({"check", "--rules", "lunar", example("first-lamp.loom")});
  EXPECT_EQ(said.status, ExitStatus::not_understood);
  EXPECT_THAT(said.err, HasSubstr("rv"));
}

TEST(Check, LeavesWithTwoWhereTheCommandIsMisused) {
  EXPECT_EQ(loomleaf({}).status, ExitStatus::not_understood);
  EXPECT_EQ(loomleaf({"chekc", "x"}).status, ExitStatus::not_understood);
  EXPECT_EQ(loomleaf({"check"}).status, ExitStatus::not_understood);
  EXPECT_EQ(loomleaf({"check", "--stop-at", "lunch", "x"}).status, ExitStatus::not_understood);
}

TEST(Check, SaysTheSameTwice) {
  const auto once = loomleaf({"check", "--json", example("travelling-library.loom")});
  const auto twice = loomleaf({"check", "--json", example("travelling-library.loom")});
  EXPECT_EQ(once.out, twice.out);
}

TEST(Check, NeverSendsControlCharactersToTheTerminal) {
  const Said said = loomleaf({"check", "-"}, "plan \"\x1b[31mred\x07\"\nfuse F1\x1b[2J 5 A\n");
  EXPECT_THAT(said.out + said.err, Not(HasSubstr("\x1b")));
  EXPECT_THAT(said.out + said.err, Not(HasSubstr("\x07")));
}

TEST(Check, ColoursOnlyWhenAsked) {
  EXPECT_THAT(loomleaf({"check", "-"}, unfused_lamp).out, Not(HasSubstr("\x1b[")));
  EXPECT_THAT(loomleaf({"check", "--colour", "always", "-"}, unfused_lamp).out, HasSubstr("\x1b["));
}

TEST(Explain, ListsEveryFindingAndExplainsEach) {
  const Said list = loomleaf({"explain"});
  EXPECT_EQ(list.status, ExitStatus::clean);
  EXPECT_THAT(list.out, HasSubstr("gauge-mismatch"));
  const Said one = loomleaf({"explain", "gauge-mismatch"});
  EXPECT_EQ(one.status, ExitStatus::clean);
  EXPECT_FALSE(one.out.empty());
}

TEST(Explain, OffersTheNearestName) {
  const Said said = loomleaf({"explain", "guage-mismatch"});
  EXPECT_EQ(said.status, ExitStatus::not_understood);
  EXPECT_THAT(said.err, HasSubstr("gauge-mismatch"));
}

TEST(Explain, ListsTheWordsThatCannotBeAnId) { EXPECT_THAT(loomleaf({"explain", "words"}).out, HasSubstr("splice")); }

TEST(Start, WritesAPlanThatChecksClean) {
  const PassingFolder folder;
  const std::string plan = (folder.path() / "mine.loom").string();
  EXPECT_EQ(loomleaf({"start", plan}).status, ExitStatus::clean);
  const Said said = loomleaf({"check", "--stop-at", "notice", plan});
  EXPECT_EQ(said.status, ExitStatus::clean) << said.out << said.err;
}

TEST(Start, NeverOverwrites) {
  const PassingFolder folder;
  const auto plan = folder.write("mine.loom", "mine\n");
  EXPECT_EQ(loomleaf({"start", plan.string()}).status, ExitStatus::file_trouble);
  EXPECT_EQ(read_all(plan), "mine\n");
}

}  // namespace
}  // namespace loomleaf::testing
