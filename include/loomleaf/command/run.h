// The command line: `check`, `print`, `start`, `explain`.
#pragma once

#include <istream>
#include <ostream>
#include <string>
#include <vector>

namespace loomleaf {

enum class ExitStatus {
  clean = 0,            // nothing at or above --stop-at; papers written
  findings = 1,         // something was found
  not_understood = 2,   // the plan cannot be understood, or the command is misused
  file_trouble = 3,     // a file cannot be read or written
};

// The world outside, so that tests can stand in for it.
struct World {
  std::istream& in;
  std::ostream& out;
  std::ostream& err;
  bool out_is_terminal = false;
};

// Runs one command. `arguments` are those behind the program's name. Never throws.
ExitStatus run_command(const std::vector<std::string>& arguments, World world);

}  // namespace loomleaf
