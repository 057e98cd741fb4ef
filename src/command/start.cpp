#include <fmt/format.h>

#include "loomleaf/command/files.h"
#include "loomleaf/command/load.h"
#include "loomleaf/command/verbs.h"
#include "loomleaf/report/report.h"

namespace loomleaf {

ExitStatus start(const StartOptions& options, World world) {
  const DataFolder data = data_folder();
  const ReadFile beginning = read_file((data.path / "templates" / "start.loom").string(), world.in);
  if (beginning.trouble) {
    say_trouble(world, *beginning.trouble);
    return ExitStatus::file_trouble;
  }
  if (const auto trouble = write_new_file(options.file, beginning.bytes)) {
    say_trouble(world, *trouble);
    return ExitStatus::file_trouble;
  }
  world.out << printable(
      fmt::format("wrote {}; change it to what you have, then: loomleaf check {}\n", options.file, options.file));
  return ExitStatus::clean;
}

}  // namespace loomleaf
