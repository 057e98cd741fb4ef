#include <algorithm>
#include <set>

#include "loomleaf/language/words.h"
#include "loomleaf/stock/stock.h"

namespace loomleaf {

namespace {

// A name that stays inside its folder.
bool is_plain_name(std::string_view name) {
  return !name.empty() && name.size() <= 100 && name.front() != '.' &&
         name.find_first_of(std::string_view("/\\\0", 3)) == std::string_view::npos &&
         name.find("..") == std::string_view::npos;
}

std::vector<std::filesystem::path> files_in(const std::filesystem::path& folder) {
  std::vector<std::filesystem::path> files;
  std::error_code error;
  std::filesystem::directory_iterator entry(folder, error), end;
  for (; !error && entry != end; entry.increment(error)) files.push_back(entry->path());
  std::sort(files.begin(), files.end());
  return files;
}

}  // namespace

std::filesystem::path TemplateFolders::find(std::string_view folder, std::string_view file) const {
  if (!is_plain_name(folder) || !is_plain_name(file)) return {};
  for (const std::filesystem::path& root : roots) {
    const std::filesystem::path path = root / folder / file;
    std::error_code error;
    if (std::filesystem::exists(path, error)) return path;
    for (const std::filesystem::path& other : files_in(root / folder)) {
      if (lower_case(other.filename().string()) == lower_case(file)) return other;
    }
  }
  return {};
}

std::vector<std::string> TemplateFolders::list(std::string_view folder) const {
  if (!is_plain_name(folder)) return {};
  std::set<std::string> names;
  for (const std::filesystem::path& root : roots) {
    for (const std::filesystem::path& path : files_in(root / folder)) {
      const std::string name = lower_case(path.stem().string());
      if (lower_case(path.extension().string()) == ".xml" && is_plain_name(name)) names.insert(name);
    }
  }
  return {names.begin(), names.end()};
}

}  // namespace loomleaf
