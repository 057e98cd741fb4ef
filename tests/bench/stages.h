// A sound plan of some size with what each stage makes of it, so that each stage can be run by itself.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "loomleaf/command/examine.h"

namespace loomleaf::test {

class Stages {
 public:
  // Made once for each size. Throws where the plan is not understood.
  static const Stages& of(int conductors);

  const std::string& text() const { return text_; }
  const Examination& examination() const { return examination_; }
  const KnownNames& known() const { return known_; }
  int conductors() const { return static_cast<int>(examination_.plan.conductors.size()); }

 private:
  explicit Stages(int conductors);
  std::string text_;
  Examination examination_;
  KnownNames known_;
};

TemplateFolders bench_templates();

// The plan of this size as a file, nothing examined.
std::filesystem::path plan_file(int conductors);

// A program run to its end. The system counts what its parent held at the start as its own: run it while that is
// little.
struct Run {
  double cpu_s = 0.0;       // user and system
  double most_bytes = 0.0;  // resident at once
};
Run run_program(const std::vector<std::string>& command);

}  // namespace loomleaf::test
