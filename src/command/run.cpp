#include "loomleaf/command/run.h"

#include <exception>

#include "loomleaf/command/verbs.h"
#include "loomleaf/report/report.h"

namespace loomleaf {

namespace {

ExitStatus run_verb(const Options& options, World world) {
  if (const auto* check_options = std::get_if<CheckOptions>(&options.what))
    return check(*check_options, options, world);
  if (const auto* print_options = std::get_if<PrintOptions>(&options.what))
    return print(*print_options, options, world);
  if (const auto* start_options = std::get_if<StartOptions>(&options.what)) return start(*start_options, world);
  return explain(std::get<ExplainOptions>(options.what), options, world);
}

}  // namespace

ExitStatus run_command(const std::vector<std::string>& arguments, World world) {
  try {
    const ParsedOptions parsed = parse_options(arguments);
    if (!parsed.options) {
      (parsed.status == ExitStatus::clean ? world.out : world.err) << parsed.text;
      return parsed.status;
    }
    const ExitStatus status = run_verb(*parsed.options, world);
    world.out.flush();
    if (!world.out) {
      world.err << "loomleaf: cannot write to standard output\n";
      return ExitStatus::file_trouble;
    }
    return status;
  } catch (const std::exception& trouble) {
    world.err << "loomleaf: " << printable(trouble.what()) << '\n';
    return ExitStatus::file_trouble;
  }
}

}  // namespace loomleaf
