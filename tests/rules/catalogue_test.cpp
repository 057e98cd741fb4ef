#include <gmock/gmock.h>

#include <algorithm>
#include <map>
#include <regex>
#include <set>

#include "loomleaf/rules/rule.h"

namespace loomleaf {
namespace {

// The severities as the manual states them, the highest where a rule gives several.
const std::map<Severity, std::set<std::string_view>> by_severity = {
    {Severity::danger,
     {"unfused-run", "gauge-mismatch", "dead-short", "voltage-clash", "voltage-rating", "interrupt-rating"}},
    {Severity::warning,
     {"over-voltage", "overloaded-splice", "overloaded-bus", "overloaded-contact", "overloaded-wire",
      "overloaded-source", "crowded-splice", "fuse-too-small", "no-return", "no-supply", "reversed-polarity",
      "short-not-cleared"}},
    {Severity::caution,
     {"voltage-drop", "low-voltage", "gauge-step", "least-size", "switched-return", "full-conduit", "hidden-splice",
      "chassis-return"}},
    {Severity::notice,
     {"loose-end", "unused-item", "colour-clash", "same-label", "long-tail", "not-checked", "idle-accept"}},
};

TEST(Catalogue, HoldsEachRuleWithItsSeverity) {
  std::map<Severity, std::set<std::string_view>> found;
  for (const Rule& rule : all_rules()) found[rule.severity].insert(rule.name);
  EXPECT_EQ(found, by_severity);
}

TEST(Catalogue, NamesALowerSeverityOnlyWhereARuleGivesSeveral) {
  std::set<std::string_view> always_danger;
  for (const Rule& rule : all_rules()) {
    if (rule.lowest) {
      EXPECT_LT(*rule.lowest, rule.severity) << rule.name;
    }
    if (rule.is_always_danger()) always_danger.insert(rule.name);
  }
  EXPECT_EQ(always_danger,
            (std::set<std::string_view>{"dead-short", "gauge-mismatch", "unfused-run", "voltage-clash"}));
}

TEST(Catalogue, IsInOrderOfSeverityThenName) {
  EXPECT_TRUE(std::ranges::is_sorted(all_rules(), [](const Rule& a, const Rule& b) {
    return a.severity != b.severity ? a.severity > b.severity : a.name < b.name;
  }));
}

TEST(Catalogue, NamesAreWordsJoinedByHyphens) {
  for (const Rule& rule : all_rules()) {
    EXPECT_TRUE(std::regex_match(std::string(rule.name), std::regex("[a-z]+(-[a-z]+)+"))) << rule.name;
  }
}

TEST(Catalogue, EveryManualPageIsComplete) {
  for (const Rule& rule : all_rules()) {
    for (const std::string_view part : {rule.what, rule.why, rule.mend, rule.source}) {
      EXPECT_GT(part.size(), 12u) << rule.name;
      EXPECT_TRUE(part.ends_with('.')) << rule.name << ": " << part;
      EXPECT_EQ(part.find("  "), std::string_view::npos) << rule.name << ": " << part;
      EXPECT_TRUE(std::ranges::all_of(part, [](char letter) { return letter >= ' ' && letter <= '~'; })) << part;
    }
    EXPECT_NE(rule.check, nullptr) << rule.name;
  }
}

TEST(Catalogue, ARuleWithAFigureTellsHowItIsComeBy) {
  for (const Rule& rule : all_rules()) {
    EXPECT_EQ(rule.work_out != nullptr, !rule.formula.empty()) << rule.name;
    EXPECT_EQ(rule.work_out != nullptr, !rule.example.empty()) << rule.name;
    for (const std::string_view part : {rule.formula, rule.example}) {
      EXPECT_TRUE(part.empty() || part.ends_with('.')) << rule.name << ": " << part;
      EXPECT_EQ(part.find("  "), std::string_view::npos) << rule.name << ": " << part;
      EXPECT_TRUE(std::ranges::all_of(part, [](char letter) { return letter >= ' ' && letter <= '~'; })) << part;
    }
  }
}

TEST(Catalogue, FindsARuleByItsNameAlone) {
  ASSERT_NE(find_rule("voltage-drop"), nullptr);
  EXPECT_EQ(find_rule("voltage-drop")->name, "voltage-drop");
  EXPECT_EQ(find_rule("voltage"), nullptr);
  EXPECT_EQ(find_rule(""), nullptr);
}

}  // namespace
}  // namespace loomleaf
