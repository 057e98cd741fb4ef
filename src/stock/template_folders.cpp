#include <algorithm>
#include <set>

#include "loomleaf/stock/stock.h"

namespace loomleaf {

namespace {

// A name that stays inside its folder.
bool is_plain_name(std::string_view name) {
  return !name.empty() && name.size() <= 100 && name.front() != '.' &&
         name.find_first_of(std::string_view("/\\\0", 3)) == std::string_view::npos &&
         name.find("..") == std::string_view::npos;
}

}  // namespace

std::filesystem::path TemplateFolders::find(std::string_view folder, std::string_view file) const {
  if (!is_plain_name(folder) || !is_plain_name(file)) return {};
  for (const std::filesystem::path& root : roots) {
    const std::filesystem::path path = root / folder / file;
    std::error_code error;
    if (std::filesystem::exists(path, error)) return path;
  }
  return {};
}

std::vector<std::string> TemplateFolders::list(std::string_view folder) const {
  if (!is_plain_name(folder)) return {};
  std::set<std::string> names;
  for (const std::filesystem::path& root : roots) {
    std::error_code error;
    std::filesystem::directory_iterator entry(root / folder, error), end;
    for (; !error && entry != end; entry.increment(error)) {
      const std::filesystem::path& path = entry->path();
      if (path.extension() == ".xml" && is_plain_name(path.stem().string())) names.insert(path.stem().string());
    }
  }
  return {names.begin(), names.end()};
}

}  // namespace loomleaf
