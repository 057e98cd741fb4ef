#include "loomleaf/command/load.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "loomleaf/command/files.h"
#include "loomleaf/language/statement.h"
#include "loomleaf/language/words.h"
#include "loomleaf/report/report.h"

namespace loomleaf {

namespace fs = std::filesystem;

namespace {

constexpr std::size_t most_complaints_said = 200;

void say_complaints(World& world, const std::vector<Complaint>& complaints, const SourceText& source) {
  for (std::size_t k = 0; k < complaints.size() && k < most_complaints_said; ++k) {
    world.err << to_text(complaints[k], source);
  }
  if (complaints.size() > most_complaints_said) {
    world.err << fmt::format("and {} more like these\n", complaints.size() - most_complaints_said);
  }
}

// Whether the rulebook asked for on the command line exists; says so where it does not.
bool rulebook_is_known(const std::string& name, const TemplateFolders& folders, World& world) {
  const std::vector<std::string> known = folders.list("rulebooks");
  if (std::find(known.begin(), known.end(), lower_case(name)) != known.end()) return true;
  say_trouble(world, fmt::format("there is no rulebook {}; there are: {}", name, fmt::join(known, ", ")));
  return false;
}

}  // namespace

void say_trouble(World& world, const std::string& text) { world.err << "loomleaf: " << printable(text) << '\n'; }

void say_template_errors(World& world, const std::vector<TemplateError>& errors) {
  for (const TemplateError& error : errors) {
    const std::string place = error.line > 0 ? fmt::format("{}:{}", error.file, error.line) : error.file;
    world.err << printable(fmt::format("{}: {}", place, error.message)) << '\n';
  }
}

ExitStatus status_of(const std::vector<Finding>& findings, Severity stop_at) {
  const bool any = std::any_of(findings.begin(), findings.end(), [&](const Finding& finding) {
    return !finding.accepted && finding.severity >= stop_at;
  });
  return any ? ExitStatus::findings : ExitStatus::clean;
}

std::optional<TemplateFolders> template_folders(const std::string& plan, const Options& all, World& world) {
  const DataFolder data = data_folder();
  if (data.path.empty()) {
    say_trouble(world, fmt::format("templates and fonts were not found; looked in {}", fmt::join(data.tried, " and ")));
    return std::nullopt;
  }
  TemplateFolders folders;
  if (all.templates) folders.roots.emplace_back(*all.templates);
  const fs::path beside = (plan == "-" ? fs::path(".") : fs::path(plan).parent_path()) / "templates";
  std::error_code trouble;
  if (fs::is_directory(beside, trouble)) folders.roots.push_back(beside);
  folders.roots.push_back(data.path / "templates");
  return folders;
}

LoadedPlan load_plan(const std::string& plan, const std::optional<std::string>& rules, const Options& all,
                     World& world) {
  LoadedPlan loaded;
  const std::optional<TemplateFolders> folders = template_folders(plan, all, world);
  if (!folders) {
    loaded.stop = ExitStatus::file_trouble;
    return loaded;
  }
  loaded.fonts = (data_folder().path / "fonts").string();
  loaded.folders = *folders;
  if (rules && !rulebook_is_known(*rules, loaded.folders, world)) {
    loaded.stop = ExitStatus::not_understood;
    return loaded;
  }

  ReadFile file = read_file(plan, world.in);
  if (file.trouble) {
    say_trouble(world, *file.trouble);
    loaded.stop = ExitStatus::file_trouble;
    return loaded;
  }
  loaded.source = std::make_unique<SourceText>(plan, std::move(file.bytes));
  loaded.examination = examine(*loaded.source, loaded.folders, rules);

  const Examination& seen = loaded.examination;
  if (!seen.template_errors.empty()) {
    say_template_errors(world, seen.template_errors);
    loaded.stop = seen.template_errors.front().line > 0 ? ExitStatus::not_understood : ExitStatus::file_trouble;
  } else if (!seen.complaints.empty()) {
    say_complaints(world, seen.complaints, *loaded.source);
    loaded.stop = ExitStatus::not_understood;
  }
  return loaded;
}

}  // namespace loomleaf
