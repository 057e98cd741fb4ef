#include <fmt/format.h>

#include <algorithm>

#include "loomleaf/report/report.h"

namespace loomleaf {

namespace {

constexpr std::size_t width = 78;

// Breaks a paragraph at spaces; the texts are plain ASCII of our own.
std::string wrapped(std::string_view text, std::string_view indent) {
  std::string out(indent), line;
  const auto put = [&](std::string_view word) {
    if (!line.empty() && indent.size() + line.size() + 1 + word.size() > width) {
      out += line + "\n" + std::string(indent);
      line.clear();
    }
    if (!line.empty()) line += ' ';
    line += word;
  };
  while (!text.empty()) {
    const std::size_t space = std::min(text.find(' '), text.size());
    put(text.substr(0, space));
    text.remove_prefix(std::min(space + 1, text.size()));
  }
  return out + line + "\n";
}

}  // namespace

std::string explain_text(const Rule& rule) {
  std::string text = fmt::format("{} ({})\n", rule.name, name_of(rule.severity));
  const std::pair<std::string_view, std::string_view> parts[] = {{"What it finds", rule.what},
                                                                 {"Why it matters", rule.why},
                                                                 {"How to mend it", rule.mend},
                                                                 {"Where the limit is from", rule.source}};
  for (const auto& [heading, body] : parts) text += fmt::format("\n{}:\n{}", heading, wrapped(body, "  "));
  return text;
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
