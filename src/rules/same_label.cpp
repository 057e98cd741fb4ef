#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <map>

#include "catalogue.h"
#include "found.h"

namespace loomleaf {

namespace {

// What is left of an ID at arm's length in bad light: capitals and small letters, O and 0, I, l and 1, - and _ look
// alike.
std::string as_seen(const std::string& id) {
  std::string seen;
  for (const char letter : id) {
    const char capital = static_cast<char>(std::toupper(static_cast<unsigned char>(letter)));
    if (capital == 'O')
      seen += '0';
    else if (capital == 'I' || capital == 'L')
      seen += '1';
    else if (capital == '_')
      seen += '-';
    else
      seen += capital;
  }
  return seen;
}

struct Labelled {
  std::string id;
  Span span;
};

std::vector<Finding> check(const Checked& checked) {
  std::map<std::string, std::vector<Labelled>> by_look;
  for (const Run& run : checked.plan.runs) by_look[as_seen(run.id)].push_back({run.id, run.id_span});
  for (const Item& item : checked.plan.items) by_look[as_seen(item.id)].push_back({item.id, item.id_span});
  std::vector<Finding> findings;
  for (const auto& [look, alike] : by_look) {
    if (alike.size() < 2) continue;
    Finding finding;
    finding.rule = std::string(same_label.name);
    finding.severity = same_label.severity;
    for (const Labelled& one : alike) finding.subjects.push_back(one.id);
    std::ranges::reverse(finding.subjects);  // the last one declared is the one to rename
    finding.span = alike.back().span;
    finding.message = fmt::format("{} read alike on a label", listed(finding.subjects));
    finding.mend = fmt::format("give {} another name", finding.subjects.front());
    finding.source = "common practice";
    findings.push_back(std::move(finding));
  }
  return findings;
}

}  // namespace

constexpr Rule same_label = {
    "same-label",
    Severity::notice,
    "Two items or conductors have names that read alike on a label: they differ in capitals alone, or in O and 0, "
    "I, l and 1, - and _.",
    "Whoever joins wires in bad light takes one for the other.",
    "Give one of them another name.",
    "Common practice: such letters are told apart badly in small print.",
    check};

}  // namespace loomleaf
