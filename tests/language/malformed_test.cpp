// Each tests/malformed/language/NAME.loom has its complaints, as the user sees them, in NAME.expected beside it.
//
// After a deliberate change of a message: LOOMLEAF_REFRESH=1 loomleaf_test_language writes the .expected files anew;
// read the difference before it is committed.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include "loomleaf/language/statement.h"

namespace loomleaf {
namespace {

const std::filesystem::path folder = std::filesystem::path(LOOMLEAF_ROOT) / "tests/malformed/language";

std::vector<std::string> plan_names() {
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(folder))
    if (entry.path().extension() == ".loom") names.push_back(entry.path().stem().string());
  std::ranges::sort(names);
  return names;
}

std::string read_file(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

std::string complaints_of(const std::string& name) {
  const SourceText source(name + ".loom", read_file(folder / (name + ".loom")));
  std::string text;
  for (const Complaint& complaint : read_document(source).complaints) text += to_text(complaint, source);
  return text;
}

class MalformedPlan : public testing::TestWithParam<std::string> {};

TEST_P(MalformedPlan, IsAnsweredAsExpected) {
  const std::string complaints = complaints_of(GetParam());
  EXPECT_NE(complaints, "");
  const auto expected = folder / (GetParam() + ".expected");
  if (std::getenv("LOOMLEAF_REFRESH") != nullptr) std::ofstream(expected, std::ios::binary) << complaints;
  EXPECT_EQ(complaints, read_file(expected));
}

std::string test_name(const testing::TestParamInfo<std::string>& info) {
  std::string name = info.param;
  std::ranges::replace(name, '-', '_');
  return name;
}

INSTANTIATE_TEST_SUITE_P(Language, MalformedPlan, testing::ValuesIn(plan_names()), test_name);

}  // namespace
}  // namespace loomleaf
