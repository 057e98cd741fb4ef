#include "loomleaf/command/data_folder.h"

namespace loomleaf {

namespace fs = std::filesystem;

DataFolder data_folder() {
  DataFolder result;
  std::error_code trouble;
  const fs::path program = fs::read_symlink("/proc/self/exe", trouble);
  const fs::path beside = program.parent_path();

  std::vector<fs::path> candidates;
  // A program still in its build folder uses the sources it was built from.
  const fs::path build = LOOMLEAF_BUILD_DIR;
  const fs::path from_build = beside.lexically_relative(build);
  if (!from_build.empty() && *from_build.begin() != "..") candidates.emplace_back(LOOMLEAF_SOURCE_DIR);
  candidates.push_back(beside / ".." / LOOMLEAF_DATADIR / "loomleaf");

  for (const fs::path& candidate : candidates) {
    if (fs::is_directory(candidate / "templates", trouble) && fs::is_directory(candidate / "fonts", trouble)) {
      result.path = candidate.lexically_normal();
      return result;
    }
    result.tried.push_back(candidate.lexically_normal().string());
  }
  return result;
}

}  // namespace loomleaf
