#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "loomleaf/language/statement.h"
#include "loomleaf/report/report.h"
#include "wrapped.h"

namespace loomleaf {

namespace {

std::string steps_below(const std::string& heading, const Steps& steps) {
  std::string text = fmt::format("\n{}:\n", heading);
  for (const std::string& step : steps) text += wrapped(printable(step), "  ", "    ");
  return text;
}

std::string names_below(const std::string& heading, const std::vector<std::string>& names) {
  return fmt::format("\n{}:\n{}", heading, wrapped(printable(fmt::format("{}", fmt::join(names, ", "))), "  "));
}

}  // namespace

std::string explain_words(const Stock& stock) {
  std::string text = "These words have a meaning in a plan and cannot be an ID:\n";
  for (const std::string& word : reserved_words()) text += fmt::format("  {}\n", word);
  text += "\nA size is written in one of three ways:\n";
  text += wrapped("`2.5 mm2`: the area of its copper", "  ");
  text += wrapped("`14 AWG`, `2/0 AWG`: its gauge", "  ");
  text += wrapped("`14 SAE`: the number of a vehicle wire, which has less copper than AWG of the same number", "  ");
  std::vector<std::string> kinds, fuses, breakers;
  for (const InsulationKind& kind : stock.insulations) kinds.push_back(kind.name);
  for (const FuseFamily& family : stock.families) (family.breaker ? breakers : fuses).push_back(family.name);
  text += names_below("Kinds of insulation, as in `insulation 105 C thin-wall`", kinds);
  text += names_below("Families of fuses, as in `fuse F1 5 A blade`", fuses);
  if (!breakers.empty()) text += names_below("Families of breakers", breakers);
  return text;
}

std::string explain_text(const Rule& rule) {
  std::string text = fmt::format("{} ({})\n", rule.name, name_of(rule.severity));
  const std::pair<std::string_view, std::string_view> parts[] = {
      {"What it finds", rule.what},           {"Why it matters", rule.why},
      {"How to mend it", rule.mend},          {"Where the limit is from", rule.source},
      {"How it is worked out", rule.formula}, {"For example", rule.example}};
  for (const auto& [heading, body] : parts)
    if (!body.empty()) text += fmt::format("\n{}:\n{}", heading, wrapped(body, "  "));
  return text;
}

std::string explain_steps(const std::string& subject, const Steps& steps) {
  return steps_below(fmt::format("With the figures of the plan, for {}", printable(subject)), steps);
}

std::string explain_steps_of(const Rule& rule, const std::string& subject, const Steps& steps) {
  return steps_below(fmt::format("{} ({}), for {}", rule.name, name_of(rule.severity), printable(subject)), steps);
}

std::string explain_list() {
  std::size_t longest = 0;
  for (const Rule& rule : all_rules()) longest = std::max(longest, rule.name.size());
  std::string text;
  std::optional<Severity> last;
  for (const Rule& rule : all_rules()) {
    if (last != rule.severity) text += fmt::format("{}{}\n", last ? "\n" : "", name_of(rule.severity));
    last = rule.severity;
    const std::string_view first = rule.what.substr(0, rule.what.find(". "));
    const std::string_view sentence = first.ends_with('.') ? first.substr(0, first.size() - 1) : first;
    const std::string described = wrapped(sentence, std::string(longest + 4, ' '));
    text += fmt::format("  {:<{}}  {}", rule.name, longest, described.substr(longest + 4));
  }
  return text;
}

}  // namespace loomleaf
