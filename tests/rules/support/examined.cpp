#include "examined.h"

#include <gtest/gtest.h>

#include <fstream>
#include <sstream>

namespace loomleaf::test {

std::vector<Finding> findings_of(std::string_view rule, const std::string& text) {
  std::vector<Finding> findings;
  for (Finding& finding : examined(text).findings) {
    if (finding.rule == rule) findings.push_back(std::move(finding));
  }
  return findings;
}

bool fires(std::string_view rule, const std::string& text) { return !findings_of(rule, text).empty(); }

std::vector<std::string> all_found(const std::string& text) {
  std::vector<std::string> found;
  for (const Finding& finding : examined(text).findings) found.push_back(finding.rule + " " + finding.subjects.at(0));
  return found;
}

std::string faulty_example(std::string_view rule) {
  std::ifstream file(LOOMLEAF_ROOT "/examples/faulty/" + std::string(rule) + ".loom");
  EXPECT_TRUE(file) << "no example for " << rule;
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

std::string mended(const std::string& text) {
  constexpr std::string_view marker = "# instead:";
  std::istringstream lines(text);
  std::vector<std::string> kept;
  for (std::string line; std::getline(lines, line);) {
    if (!line.starts_with(marker)) {
      kept.push_back(line);
      continue;
    }
    kept.pop_back();
    std::string instead = line.substr(marker.size());
    instead.erase(0, instead.find_first_not_of(' '));
    kept.push_back(instead);
  }
  std::string joined;
  for (const std::string& line : kept) joined += line + "\n";
  return joined;
}

}  // namespace loomleaf::test
