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
  std::filesystem::path file() const { return file_; }  // the text as a file

 private:
  explicit Stages(int conductors);
  std::string text_;
  Examination examination_;
  KnownNames known_;
  std::filesystem::path file_;
};

TemplateFolders bench_templates();

// A program run to its end.
struct Run {
  double cpu_s = 0.0;       // user and system
  double most_bytes = 0.0;  // resident at once
};
Run run_program(const std::vector<std::string>& command);

}  // namespace loomleaf::test
