#include <gmock/gmock.h>

#include <sstream>

#include "loomleaf/report/report.h"

namespace loomleaf {
namespace {

using testing::HasSubstr;

std::string joined(std::string text) {
  for (char& letter : text) {
    if (letter == '\n') letter = ' ';
  }
  std::string once;
  for (const char letter : text) {
    if (letter != ' ' || once.empty() || once.back() != ' ') once += letter;
  }
  return once;
}

TEST(ExplainText, CarriesTheWholeManualPage) {
  for (const Rule& rule : all_rules()) {
    const std::string text = explain_text(rule);
    EXPECT_TRUE(text.starts_with(std::string(rule.name) + " (" + std::string(name_of(rule.severity)) + ")\n"));
    for (const std::string_view part : {rule.what, rule.why, rule.mend, rule.source, rule.formula, rule.example}) {
      EXPECT_THAT(joined(text), HasSubstr(std::string(part)));
    }
  }
}

TEST(ExplainText, FitsAnOrdinaryTerminal) {
  std::string all = explain_list();
  for (const Rule& rule : all_rules()) all += explain_text(rule);
  std::istringstream lines(all);
  for (std::string line; std::getline(lines, line);) {
    EXPECT_LE(line.size(), 79u) << line;
    EXPECT_FALSE(line.ends_with(' ')) << line;
  }
}

TEST(ExplainList, NamesEveryRuleUnderItsSeverity) {
  const std::string list = explain_list();
  for (const Rule& rule : all_rules()) EXPECT_THAT(list, HasSubstr("\n  " + std::string(rule.name) + " "));
  EXPECT_LT(list.find("DANGER\n"), list.find("unfused-run"));
  EXPECT_LT(list.find("unfused-run"), list.find("\nWARNING\n"));
  EXPECT_LT(list.find("\nCAUTION\n"), list.find("voltage-drop"));
  EXPECT_LT(list.find("\nNOTICE\n"), list.find("loose-end"));
}

}  // namespace
}  // namespace loomleaf
