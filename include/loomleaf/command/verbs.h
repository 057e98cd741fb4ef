// The verbs, one source file each.
#pragma once

#include "loomleaf/command/options.h"
#include "loomleaf/command/run.h"

namespace loomleaf {

ExitStatus check(const CheckOptions& options, const Options& all, World world);
ExitStatus print(const PrintOptions& options, const Options& all, World world);
ExitStatus start(const StartOptions& options, World world);
ExitStatus explain(const ExplainOptions& options, const Options& all, World world);

}  // namespace loomleaf
