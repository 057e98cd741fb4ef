#include "command/support/trial.h"

#include <sys/wait.h>

#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <sstream>
#include <stdexcept>

namespace loomleaf::testing {

namespace fs = std::filesystem;

PassingFolder::PassingFolder() {
  std::string name = (fs::temp_directory_path() / "loomleaf-test-XXXXXX").string();
  if (::mkdtemp(name.data()) == nullptr) throw std::runtime_error("no folder for the test");
  path_ = name;
}

PassingFolder::~PassingFolder() {
  std::error_code ignored;
  fs::remove_all(path_, ignored);
}

fs::path PassingFolder::write(const std::string& name, const std::string& text) const {
  std::ofstream(path_ / name, std::ios::binary) << text;
  return path_ / name;
}

Said loomleaf(const std::vector<std::string>& arguments, const std::string& standard_input) {
  std::istringstream in(standard_input);
  std::ostringstream out, err;
  const ExitStatus status = run_command(arguments, {in, out, err, false});
  return {status, out.str(), err.str()};
}

ToolResult run_tool(const std::string& shell_command) {
  ToolResult result;
  FILE* pipe = ::popen(shell_command.c_str(), "r");
  if (pipe == nullptr) return result;
  char block[4096];
  for (std::size_t got; (got = std::fread(block, 1, sizeof block, pipe)) > 0;) result.out.append(block, got);
  const int status = ::pclose(pipe);
  result.status = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  return result;
}

std::string read_all(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

std::string example(const std::string& name) { return std::string(LOOMLEAF_ROOT) + "/examples/" + name; }

}  // namespace loomleaf::testing
