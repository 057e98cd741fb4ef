// What `check` and `print` do alike: read the plan, find the templates, examine it, say what cannot be understood.
#pragma once

#include <memory>
#include <optional>
#include <string>

#include "loomleaf/command/data_folder.h"
#include "loomleaf/command/examine.h"
#include "loomleaf/command/options.h"

namespace loomleaf {

struct LoadedPlan {
  std::optional<ExitStatus> stop;              // set: leave with this; what is wrong has been said on standard error
  std::unique_ptr<SourceText> source;          // absent where the plan could not be read
  TemplateFolders folders;
  std::string fonts;                           // the folder of fonts
  Examination examination;
};

// The folders of templates that count for a plan ("-": those beside where we stand). Nothing, and said so, where the
// program's own are not found.
std::optional<TemplateFolders> template_folders(const std::string& plan, const Options& all, World& world);

LoadedPlan load_plan(const std::string& plan, const std::optional<std::string>& rules, const Options& all, World& world);

// "loomleaf: ..." on standard error, safe for a terminal.
void say_trouble(World& world, const std::string& text);
void say_template_errors(World& world, const std::vector<TemplateError>& errors);

// The status that findings leave: 1 where one at or above `stop_at` is not accepted.
ExitStatus status_of(const std::vector<Finding>& findings, Severity stop_at);

}  // namespace loomleaf
