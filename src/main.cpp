#include <unistd.h>

#include <iostream>

#include "loomleaf/command/run.h"

int main(int count, char** arguments) {
  std::ios::sync_with_stdio(false);
  const loomleaf::World world{std::cin, std::cout, std::cerr, ::isatty(STDOUT_FILENO) == 1};
  return static_cast<int>(loomleaf::run_command({arguments + 1, arguments + count}, world));
}
