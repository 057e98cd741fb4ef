// Reading and writing files: whole or not at all.
#pragma once

#include <filesystem>
#include <istream>
#include <optional>
#include <string>
#include <vector>

namespace loomleaf {

struct ReadFile {
  std::string bytes;
  std::optional<std::string> trouble;   // "cannot read van.loom: No such file or directory"
};

// "-" reads `standard_input`. More than `most_bytes` is a trouble.
ReadFile read_file(const std::string& path, std::istream& standard_input, std::size_t most_bytes = 16u << 20);

struct FileToWrite {
  std::filesystem::path path;
  std::string bytes;
};

// Writes all of them beside their targets first, then moves all into place, so that trouble on the way leaves the old
// files as they were. Makes `folder` where it is missing. Nothing: it went well; else what went wrong, in words.
std::optional<std::string> write_files(const std::filesystem::path& folder, const std::vector<FileToWrite>& files);

// Writes one file that must not exist yet.
std::optional<std::string> write_new_file(const std::filesystem::path& path, const std::string& bytes);

}  // namespace loomleaf
