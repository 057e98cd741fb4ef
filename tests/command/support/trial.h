// A command tried as a user would: in a folder of its own, with what it said and left behind.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "loomleaf/command/run.h"

namespace loomleaf::testing {

// A new empty folder, removed with all in it at the end.
class PassingFolder {
 public:
  PassingFolder();
  ~PassingFolder();
  PassingFolder(const PassingFolder&) = delete;
  const std::filesystem::path& path() const { return path_; }
  std::filesystem::path write(const std::string& name, const std::string& text) const;

 private:
  std::filesystem::path path_;
};

struct Said {
  ExitStatus status;
  std::string out, err;
};
Said loomleaf(const std::vector<std::string>& arguments, const std::string& standard_input = "");

// What a program of the system prints on standard output, and its exit status.
struct ToolResult {
  int status = -1;
  std::string out;
};
ToolResult run_tool(const std::string& shell_command);

std::string read_all(const std::filesystem::path& file);
std::string example(const std::string& name);  // the path of examples/NAME

}  // namespace loomleaf::testing
