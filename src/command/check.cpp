#include <cstdlib>

#include "loomleaf/command/load.h"
#include "loomleaf/command/verbs.h"
#include "loomleaf/report/report.h"

namespace loomleaf {

namespace {

bool wants_colour(const Options& all, const World& world) {
  if (all.colour != Options::Colour::automatic) return all.colour == Options::Colour::always;
  const char* refused = std::getenv("NO_COLOR");  // https://no-color.org: set and not empty
  return world.out_is_terminal && (refused == nullptr || *refused == '\0');
}

}  // namespace

ExitStatus check(const CheckOptions& options, const Options& all, World world) {
  const LoadedPlan loaded = load_plan(options.plan, options.rules, all, world);
  const Examination& seen = loaded.examination;
  if (options.json && loaded.source) {
    const Checked checked = seen.checked();
    write_check_json(world.out, seen.understood() ? &checked : nullptr, seen.findings, seen.complaints,
                     seen.template_errors, *loaded.source);
  }
  if (loaded.stop) return *loaded.stop;
  if (!options.json) world.out << findings_text(seen.findings, *loaded.source, {wants_colour(all, world)});
  return status_of(seen.findings, options.stop_at);
}

}  // namespace loomleaf
