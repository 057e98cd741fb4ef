#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "loomleaf/command/load.h"
#include "loomleaf/command/verbs.h"
#include "loomleaf/language/statement.h"
#include "loomleaf/language/words.h"
#include "loomleaf/report/report.h"
#include "loomleaf/rules/rule.h"

namespace loomleaf {

namespace {

// What an ID names: a cable's stands for all its cores.
std::vector<Subject> subjects_of(const Plan& plan, const std::string& id) {
  std::vector<Subject> subjects;
  for (const ItemId item : plan.items.ids())
    if (plan.items[item].id == id) subjects.emplace_back(item);
  for (const ConductorId conductor : plan.conductors.ids())
    if (plan.conductors[conductor].id == id || plan.runs[plan.conductors[conductor].run].id == id)
      subjects.emplace_back(conductor);
  for (const LegId leg : plan.legs.ids())
    if (!plan.legs[leg].id.empty() && plan.legs[leg].id == id) subjects.emplace_back(leg);
  return subjects;
}

std::vector<std::string> names_in(const Plan& plan) {
  std::vector<std::string> names;
  for (const Item& item : plan.items) names.push_back(item.id);
  for (const Run& run : plan.runs) names.push_back(run.id);
  for (const Leg& leg : plan.legs) names.push_back(leg.id);
  return names;
}

std::string name_of(const Plan& plan, const Subject& subject) {
  if (const ItemId* item = std::get_if<ItemId>(&subject)) return plan.items[*item].id;
  if (const ConductorId* conductor = std::get_if<ConductorId>(&subject)) return plan.conductors[*conductor].id;
  return plan.legs[std::get<LegId>(subject)].id;
}

// The steps of each subject; false where the rule has nothing to work out for any of them.
bool say_steps(const Rule& rule, const Examination& seen, const std::vector<Subject>& subjects, World& world) {
  if (!rule.work_out) return false;
  bool any = false;
  for (const Subject& subject : subjects) {
    const Steps steps = rule.work_out(seen.checked(), subject);
    if (!steps.empty()) world.out << explain_steps(name_of(seen.plan, subject), steps);
    any = any || !steps.empty();
  }
  return any;
}

void say_finding(const Finding& finding, const LoadedPlan& loaded, World& world) {
  world.out << '\n' << finding_text(finding, *loaded.source, {});
}

bool names(const Finding& finding, const std::string& id) {
  return std::ranges::any_of(finding.subjects, [&](const std::string& subject) {
    // What is said of a cable is said of its cores, and the other way round.
    return subject == id || subject.starts_with(id + ".") || id.starts_with(subject + ".");
  });
}

// What this rule finds that names the ID, as `check` says it; false where there is nothing.
bool say_findings_on(const Rule& rule, const LoadedPlan& loaded, const std::string& id, World& world) {
  bool any = false;
  for (const Finding& finding : loaded.examination.findings) {
    if (finding.rule != rule.name || !names(finding, id)) continue;
    say_finding(finding, loaded, world);
    any = true;
  }
  return any;
}

// What the ID names; nothing, and said so, where it names nothing.
std::vector<Subject> known_subjects(const Plan& plan, const std::string& id, World& world) {
  std::vector<Subject> subjects = subjects_of(plan, id);
  if (subjects.empty()) {
    const auto meant = nearest(id, names_in(plan));
    say_trouble(world,
                fmt::format("there is no `{}` in the plan{}", id, meant ? fmt::format(", but `{}`", *meant) : ""));
  }
  return subjects;
}

ExitStatus explain_id(const Rule& rule, const LoadedPlan& loaded, const std::string& id, World& world) {
  const std::vector<Subject> subjects = known_subjects(loaded.examination.plan, id, world);
  if (subjects.empty()) return ExitStatus::not_understood;
  if (say_steps(rule, loaded.examination, subjects, world) || say_findings_on(rule, loaded, id, world))
    return ExitStatus::clean;
  if (rule.work_out) {
    say_trouble(world, fmt::format("{} has nothing to work out for `{}`", rule.name, id));
    return ExitStatus::not_understood;
  }
  world.out << fmt::format("\nThe plan has no finding of this kind on {}.\n", printable(id));
  return ExitStatus::clean;
}

ExitStatus explain_found(const Rule& rule, const LoadedPlan& loaded, World& world) {
  const Examination& seen = loaded.examination;
  bool any = false;
  for (const Finding& finding : seen.findings) {
    if (finding.rule != rule.name) continue;
    any = true;
    if (!say_steps(rule, seen, subjects_of(seen.plan, finding.subjects.front()), world))
      say_finding(finding, loaded, world);
  }
  if (!any && rule.work_out)
    world.out << fmt::format(
        "\nThe plan has no finding of this kind; name an ID to see its figures: "
        "loomleaf explain {} PLAN ID\n",
        rule.name);
  else if (!any)
    world.out << "\nThe plan has no finding of this kind.\n";
  return ExitStatus::clean;
}

ExitStatus explain_rule(const Rule& rule, const ExplainOptions& options, const Options& all, World& world) {
  if (!options.plan) {
    world.out << explain_text(rule);
    return ExitStatus::clean;
  }
  const LoadedPlan loaded = load_plan(*options.plan, std::nullopt, all, world);
  if (loaded.stop) return *loaded.stop;
  world.out << explain_text(rule);
  return options.id ? explain_id(rule, loaded, *options.id, world) : explain_found(rule, loaded, world);
}

// What each rule with a figure works out for the ID under this rulebook, be it the plan's own or another.
ExitStatus explain_under_book(const Examination& seen, const std::string& id, World& world) {
  const std::vector<Subject> subjects = known_subjects(seen.plan, id, world);
  if (subjects.empty()) return ExitStatus::not_understood;
  world.out << rulebook_heading(seen.rulebook);
  bool any = false;
  for (const Subject& subject : subjects) {
    for (const Rule& rule : all_rules()) {
      const Steps steps = rule.work_out ? rule.work_out(seen.checked(), subject) : Steps{};
      if (!steps.empty()) world.out << explain_steps_of(rule, name_of(seen.plan, subject), steps);
      any = any || !steps.empty();
    }
  }
  if (!any) world.out << fmt::format("\nNo rule has a figure to work out for {}.\n", printable(id));
  return ExitStatus::clean;
}

ExitStatus explain_book(const ExplainOptions& options, const Options& all, const TemplateFolders& folders,
                        World& world) {
  if (options.plan) {
    const LoadedPlan loaded = load_plan(*options.plan, options.name, all, world);
    if (loaded.stop) return *loaded.stop;
    if (options.id) return explain_under_book(loaded.examination, *options.id, world);
    world.out << explain_rulebook(loaded.examination.rulebook);
    return ExitStatus::clean;
  }
  const Loaded<Rulebook> book = load_rulebook(folders, options.name);
  if (!book.errors.empty()) {
    say_template_errors(world, book.errors);
    return ExitStatus::not_understood;
  }
  world.out << explain_rulebook(book.value);
  return ExitStatus::clean;
}

ExitStatus explain_words(const ExplainOptions& options, const Options& all, World& world) {
  if (options.plan) {
    say_trouble(world, fmt::format("`explain words` takes nothing more: leave out `{}`", *options.plan));
    return ExitStatus::not_understood;
  }
  const std::optional<TemplateFolders> folders = template_folders("-", all, world);
  if (!folders) return ExitStatus::file_trouble;
  const Loaded<Stock> stock = load_stock(*folders);
  if (!stock.errors.empty()) {
    say_template_errors(world, stock.errors);
    return ExitStatus::not_understood;
  }
  world.out << explain_words(stock.value);
  return ExitStatus::clean;
}

}  // namespace

ExitStatus explain(const ExplainOptions& options, const Options& all, World world) {
  if (options.name.empty()) {
    world.out << explain_list();
    return ExitStatus::clean;
  }
  if (lower_case(options.name) == "words") return explain_words(options, all, world);
  if (const Rule* rule = find_rule(options.name)) return explain_rule(*rule, options, all, world);
  const std::optional<TemplateFolders> folders = template_folders(options.plan.value_or("-"), all, world);
  if (!folders) return ExitStatus::file_trouble;
  const std::vector<std::string> books = folders->list("rulebooks");
  if (std::ranges::find(books, lower_case(options.name)) != books.end())
    return explain_book(options, all, *folders, world);
  std::vector<std::string> names{"words"};
  for (const Rule& rule : all_rules()) names.emplace_back(rule.name);
  names.insert(names.end(), books.begin(), books.end());
  const auto meant = nearest(options.name, names);
  say_trouble(world, fmt::format("there is no finding and no rulebook `{}`{}; `loomleaf explain` lists the findings, "
                                 "the rulebooks are {}",
                                 options.name, meant ? fmt::format(", but `{}`", *meant) : "", fmt::join(books, ", ")));
  return ExitStatus::not_understood;
}

}  // namespace loomleaf
