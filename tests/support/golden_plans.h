// Golden files: folder/NAME.loom is a plan, folder/NAME.expected the whole text of what is said of it.
//
// After a deliberate change of a message: LOOMLEAF_REFRESH=1 loomleaf_test_STAGE writes the .expected files anew; read
// the difference before it is committed.
#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

namespace loomleaf {

inline std::vector<std::string> golden_names(const std::filesystem::path& folder) {
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(folder))
    if (entry.path().extension() == ".loom") names.push_back(entry.path().stem().string());
  std::ranges::sort(names);
  return names;
}

inline std::string read_golden(const std::filesystem::path& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

inline void expect_golden(const std::filesystem::path& folder, const std::string& name, const std::string& said) {
  EXPECT_NE(said, "");
  const auto expected = folder / (name + ".expected");
  if (std::getenv("LOOMLEAF_REFRESH") != nullptr) std::ofstream(expected, std::ios::binary) << said;
  EXPECT_EQ(said, read_golden(expected));
}

// The name of a golden plan as a test's name.
inline std::string golden_test_name(const testing::TestParamInfo<std::string>& info) {
  std::string name = info.param;
  std::ranges::replace(name, '-', '_');
  return name;
}

}  // namespace loomleaf
