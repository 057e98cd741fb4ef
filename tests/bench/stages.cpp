#include "bench/stages.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <fstream>
#include <map>
#include <memory>
#include <stdexcept>

#include "faults/support/sound_plan.h"

namespace loomleaf::test {

namespace {

constexpr unsigned seed = 5;

double seconds(const timeval& time) {
  return static_cast<double>(time.tv_sec) + 1e-6 * static_cast<double>(time.tv_usec);
}

}  // namespace

TemplateFolders bench_templates() { return {{LOOMLEAF_ROOT "/templates"}}; }

Stages::Stages(int conductors) : text_(sound_plan(seed, conductors).text()) {
  const SourceText source("plan.loom", text_);
  examination_ = examine(source, bench_templates());
  if (!examination_.understood()) throw std::runtime_error("a generated plan is not understood");
  known_ = known_names(examination_.stock, bench_templates());
}

std::filesystem::path plan_file(int conductors) {
  const auto file = std::filesystem::temp_directory_path() / fmt::format("loomleaf-bench-{}.loom", conductors);
  std::ofstream(file) << sound_plan(seed, conductors).text();
  return file;
}

const Stages& Stages::of(int conductors) {
  static std::map<int, std::unique_ptr<Stages>> made;
  std::unique_ptr<Stages>& at = made[conductors];
  if (!at) at.reset(new Stages(conductors));
  return *at;
}

Run run_program(const std::vector<std::string>& command) {
  const pid_t child = fork();
  if (child == 0) {
    const int nowhere = open("/dev/null", O_WRONLY);
    dup2(nowhere, 1);
    dup2(nowhere, 2);
    std::vector<char*> words;
    for (const std::string& word : command) words.push_back(const_cast<char*>(word.c_str()));
    words.push_back(nullptr);
    execvp(words[0], words.data());
    _exit(127);
  }
  int status = 0;
  rusage used{};
  if (child < 0 || wait4(child, &status, 0, &used) != child || !WIFEXITED(status) || WEXITSTATUS(status) == 127)
    throw std::runtime_error(command[0] + " did not run");
  return {seconds(used.ru_utime) + seconds(used.ru_stime), 1024.0 * static_cast<double>(used.ru_maxrss)};
}

}  // namespace loomleaf::test
