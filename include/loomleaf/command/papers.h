// The papers that `print` can make: one row each, and how each is made in each form.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "loomleaf/command/files.h"
#include "loomleaf/command/load.h"
#include "loomleaf/sheets/sheet_frame.h"
#include "loomleaf/type/text_measure.h"

namespace loomleaf {

// What making a paper needs, and what it gives back besides files.
struct PaperJob {
  const Examination& examination;
  const TemplateFolders& folders;
  const TextMeasure& type;
  const PrintOptions& options;
  TitleFields title;                             // sheet_name and cautions are the paper's own
};

struct Paper {
  std::vector<FileToWrite> files;                // paths are names inside the folder of papers
  std::vector<std::string> remarks;              // for the user, one line each
  std::vector<TemplateError> template_errors;    // not empty: no files
  std::string trouble;                           // an option that cannot be met, in words; then no files
  ExitStatus trouble_status = ExitStatus::not_understood;
};

struct PaperKind {
  std::string_view name;                         // as in --only
  std::vector<std::string_view> forms;           // as in --as
  Paper (*make)(const PaperJob&);
  bool on_request;                               // made only where --only names it
};
std::span<const PaperKind> paper_kinds();

}  // namespace loomleaf
