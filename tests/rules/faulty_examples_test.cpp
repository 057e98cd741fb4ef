// Each rule has an example plan that shows its fault and nothing else, and says how it is mended.
#include <gmock/gmock.h>

#include <filesystem>
#include <map>

#include "rules/support/examined.h"

namespace loomleaf::test {
namespace {

struct Expected {
  std::vector<std::string> subjects;
  std::string mend;  // a part of the mend line
  bool has_values = true;
};

// By rule: the first finding of its example. The figures behind the mends are worked out in the tests of each rule.
const std::map<std::string, Expected, std::less<>> expected = {
    {"dead-short", {{"W7", "BAT", "F1"}, "take off W7", false}},
    {"gauge-mismatch", {{"W2", "F1"}, "change F1 to 5 A"}},
    {"interrupt-rating", {{"F1"}, "such as `class-t`, which breaks 20 kA"}},
    {"unfused-run", {{"W1"}, "shorten the way from BAT+ to the first fuse to 457.2 mm"}},
    {"voltage-clash", {{"OLD", "BAT"}, "take OLD off this side"}},
    {"voltage-rating", {{"F1"}, "made for 57.6 V or more"}},
    {"crowded-splice", {{"SP1"}, "4 ways or more"}},
    {"fuse-too-small", {{"F1"}, "change F1 to 7.5 A"}},
    {"no-return", {{"LMP"}, "join the place where it ends to the - of the supply", false}},
    {"no-supply", {{"LA2"}, "join the place where it ends to a fused + of the supply", false}},
    {"over-voltage", {{"SCA"}, "feed SCA through a converter"}},
    {"overloaded-bus", {{"PB"}, "fit a bus of 22 A or more as PB"}},
    {"overloaded-contact", {{"S1"}, "fit a switch of 6.1 A or more as S1"}},
    {"overloaded-source", {{"BAT"}, "fit a source of 6.1 A or more as BAT"}},
    {"overloaded-splice", {{"SP1"}, "fit a splice of 11 A or more as SP1"}},
    {"overloaded-wire", {{"W2"}, "make W2 12 AWG or thicker, which may carry 25 A"}},
    {"reversed-polarity", {{"TIM"}, "change over the two conductors at TIM", false}},
    {"short-not-cleared", {{"W2", "F1"}, "change F1 to 10 A", false}},
    {"chassis-return", {{"HULL", "W3", "W4"}, "run a return wire instead"}},
    {"full-conduit", {{"L1", "W3", "W4", "W5", "W6"}, "take conduit of 13 mm bore"}},
    {"gauge-step", {{"W3", "W2"}, "make both the same size: W3 14 AWG or W2 12 AWG"}},
    {"hidden-splice", {{"SP1", "WALL"}, "make the cover `removable`", false}},
    {"least-size", {{"W2"}, "make W2 16 AWG"}},
    {"low-voltage", {{"RAD"}, "make W2 14 AWG at least"}},
    {"switched-return", {{"S1"}, "move S1 into the feed", false}},
    {"voltage-drop", {{"LMP"}, "make W2 10 AWG at least"}},
    {"colour-clash", {{"W3"}, "take black for W3", false}},
    {"idle-accept", {{"ALM"}, "take the line out", false}},
    {"long-tail", {{"SEA"}, "shorten them to 177.8 mm"}},
    {"loose-end", {{"S1"}, "run a conductor to S1.out", false}},
    {"not-checked", {{"SP1"}, "such as `32 A`", false}},
    {"same-label", {{"W1O", "W10"}, "give W1O another name", false}},
    {"unused-item", {{"SP1"}, "join SP1, or take its line out", false}},
};

class FaultyExample : public testing::TestWithParam<std::string> {};

TEST_P(FaultyExample, GivesTheFindingMeantAndNoOther) {
  const std::string text = faulty_example(GetParam());
  const std::vector<Finding> findings = examined(text).findings;
  ASSERT_THAT(all_found(text), testing::ElementsAre(testing::StartsWith(GetParam() + " ")));
  const Finding& finding = findings.front();
  const Expected& meant = expected.at(GetParam());
  EXPECT_EQ(finding.subjects, meant.subjects);
  EXPECT_THAT(finding.mend, testing::HasSubstr(meant.mend));
  EXPECT_FALSE(finding.message.empty());
  EXPECT_FALSE(finding.source.empty());
  EXPECT_EQ(finding.severity, find_rule(finding.rule)->severity);
  ASSERT_EQ(finding.values.has_value(), meant.has_values);
  if (finding.values) {
    EXPECT_NE(finding.values->is, finding.values->may_be);
    EXPECT_FALSE(finding.values->unit.empty());
  }
  const SourceText source("plan.loom", text);
  EXPECT_THAT(std::string(source.text(finding.span)), testing::HasSubstr(meant.subjects[0]));
}

TEST_P(FaultyExample, IsSoundOnceMended) {
  EXPECT_THAT(all_found(mended(faulty_example(GetParam()))), testing::IsEmpty());
}

std::vector<std::string> rule_names() {
  std::vector<std::string> names;
  for (const Rule& rule : all_rules()) names.emplace_back(rule.name);
  return names;
}

INSTANTIATE_TEST_SUITE_P(Rules, FaultyExample, testing::ValuesIn(rule_names()), [](const auto& tested) {
  std::string name;
  for (const char letter : tested.param) {
    if (letter != '-') name += letter;
  }
  return name;
});

TEST(FaultyExamples, AreThereForTheRulesAlone) {
  for (const auto& file : std::filesystem::directory_iterator(LOOMLEAF_ROOT "/examples/faulty")) {
    EXPECT_NE(find_rule(file.path().stem().string()), nullptr) << file.path();
  }
}

}  // namespace
}  // namespace loomleaf::test
