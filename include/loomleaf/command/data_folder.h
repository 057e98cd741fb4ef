// Where the program's own templates/ and fonts/ are, wherever the program was put.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace loomleaf {

struct DataFolder {
  std::filesystem::path path;            // holds templates/ and fonts/; empty: not found
  std::vector<std::string> tried;
};
DataFolder data_folder();

}  // namespace loomleaf
