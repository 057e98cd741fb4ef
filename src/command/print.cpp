#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "loomleaf/command/files.h"
#include "loomleaf/command/load.h"
#include "loomleaf/command/papers.h"
#include "loomleaf/command/verbs.h"
#include "loomleaf/report/report.h"

namespace loomleaf {

namespace fs = std::filesystem;

namespace {

bool makes(const PaperKind& kind, std::string_view form) {
  return std::find(kind.forms.begin(), kind.forms.end(), form) != kind.forms.end();
}

// The papers asked for; or what is wrong with the asking.
struct Wanted {
  std::vector<const PaperKind*> kinds;
  std::string trouble;
};

Wanted wanted_papers(const PrintOptions& options) {
  Wanted wanted;
  const auto kinds = paper_kinds();
  for (const std::string& name : options.only) {
    const auto kind = std::find_if(kinds.begin(), kinds.end(), [&](const PaperKind& k) { return k.name == name; });
    if (kind == kinds.end()) {
      std::vector<std::string_view> names;
      for (const PaperKind& known : kinds) names.push_back(known.name);
      wanted.trouble = fmt::format("there is no sheet `{}`; there are: {}", name, fmt::join(names, ", "));
      return wanted;
    }
    if (!makes(*kind, options.as)) {
      wanted.trouble =
          fmt::format("`{}` is not made as {}; it comes as {}", name, options.as, fmt::join(kind->forms, ", "));
      return wanted;
    }
    wanted.kinds.push_back(&*kind);
  }
  if (options.only.empty()) {
    for (const PaperKind& kind : kinds) {
      if (makes(kind, options.as) && !kind.on_request) wanted.kinds.push_back(&kind);
    }
  }
  return wanted;
}

fs::path papers_folder(const PrintOptions& options) {
  if (options.out) return *options.out;
  if (options.plan == "-") return "plan-papers";
  const fs::path plan(options.plan);
  return plan.parent_path() / (plan.stem().string() + "-papers");
}

// The counts, and which rules they are of, the worst first.
std::string check_status(const Tally& tally, const std::vector<Finding>& findings) {
  std::vector<std::string> parts;
  const auto add = [&](int count, std::string_view word) {
    if (count > 0) parts.push_back(fmt::format("{} {}", count, word));
  };
  add(tally.danger, "DANGER");
  add(tally.warning, "WARNING");
  add(tally.caution, "CAUTION");
  add(tally.notice, "NOTICE");
  add(tally.accepted, "accepted");
  if (parts.empty()) return "Checked: nothing found";
  std::vector<const Finding*> by_severity;
  for (const Finding& finding : findings) by_severity.push_back(&finding);
  std::stable_sort(by_severity.begin(), by_severity.end(),
                   [](const Finding* a, const Finding* b) { return a->severity > b->severity; });
  std::vector<std::string> rules;
  for (const Finding* finding : by_severity)
    if (std::find(rules.begin(), rules.end(), finding->rule) == rules.end()) rules.emplace_back(finding->rule);
  return fmt::format("Checked: {} ({})", fmt::join(parts, ", "), fmt::join(rules, ", "));
}

TitleFields title_fields(const Examination& seen) {
  const Tally counts = tally(seen.findings);
  TitleFields title;
  title.title = seen.plan.heading.title.empty() ? seen.plan.heading.file : seen.plan.heading.title;
  title.revision = seen.plan.heading.revision;
  title.date = seen.plan.heading.date;
  title.by = seen.plan.heading.by;
  title.rules = seen.rulebook.name;
  title.check_status = check_status(counts, seen.findings);
  title.checks_not_done = counts.not_done;
  title.cleared = counts.danger == 0;
  return title;
}

}  // namespace

ExitStatus print(const PrintOptions& options, const Options& all, World world) {
  const Wanted wanted = wanted_papers(options);
  if (!wanted.trouble.empty()) {
    say_trouble(world, wanted.trouble);
    return ExitStatus::not_understood;
  }
  const LoadedPlan loaded = load_plan(options.plan, options.rules, all, world);
  if (loaded.stop) return *loaded.stop;
  const Examination& seen = loaded.examination;

  const TextMeasure type(loaded.fonts);
  const PaperJob job{seen, loaded.folders, type, options, title_fields(seen)};
  const fs::path folder = papers_folder(options);
  std::vector<FileToWrite> files;
  for (const PaperKind* kind : wanted.kinds) {
    Paper paper = kind->make(job);
    if (!paper.template_errors.empty()) {
      say_template_errors(world, paper.template_errors);
      return ExitStatus::not_understood;
    }
    if (!paper.trouble.empty()) {
      say_trouble(world, paper.trouble);
      return paper.trouble_status;
    }
    for (const std::string& remark : paper.remarks) say_trouble(world, remark);
    for (FileToWrite& file : paper.files) files.push_back({folder / file.path, std::move(file.bytes)});
  }
  if (const auto trouble = write_files(folder, files)) {
    say_trouble(world, *trouble);
    return ExitStatus::file_trouble;
  }
  for (const FileToWrite& file : files) world.out << printable(file.path.string()) << '\n';
  if (!job.title.cleared) say_trouble(world, "NOT CLEARED FOR POWER-UP: the check found DANGER; see `loomleaf check`");
  return options.stop_at ? status_of(seen.findings, *options.stop_at) : ExitStatus::clean;
}

}  // namespace loomleaf
