#include <fmt/format.h>
#include <fmt/ranges.h>

#include "loomleaf/command/load.h"
#include "loomleaf/command/verbs.h"
#include "loomleaf/language/statement.h"
#include "loomleaf/report/report.h"
#include "loomleaf/rules/rule.h"

namespace loomleaf {

ExitStatus explain(const ExplainOptions& options, World world) {
  if (options.name.empty()) {
    world.out << explain_list();
    return ExitStatus::clean;
  }
  if (options.name == "words") {
    world.out << "These words have a meaning in a plan and cannot be an ID:\n";
    for (const std::string& word : reserved_words()) world.out << "  " << word << '\n';
    return ExitStatus::clean;
  }
  if (const Rule* rule = find_rule(options.name)) {
    world.out << explain_text(*rule);
    return ExitStatus::clean;
  }
  std::vector<std::string> names{"words"};
  for (const Rule& rule : all_rules()) names.emplace_back(rule.name);
  const auto meant = nearest(options.name, names);
  say_trouble(world, fmt::format("there is no finding `{}`{}; `loomleaf explain` lists them", options.name,
                                 meant ? fmt::format(", but `{}`", *meant) : ""));
  return ExitStatus::not_understood;
}

}  // namespace loomleaf
