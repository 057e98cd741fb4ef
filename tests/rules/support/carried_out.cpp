#include "carried_out.h"

#include <gmock/gmock.h>

#include <algorithm>
#include <regex>

#include "examined.h"

namespace loomleaf::test {

namespace {

// The value of this form in the line of this ID becomes another.
void change(std::string& text, const std::string& id, const std::string& form, const std::string& to) {
  const std::regex line("\\n(wire|cable|fuse|breaker) +" + id + " [^\\n]*");
  std::smatch found;
  if (!std::regex_search(text, found, line)) {
    ADD_FAILURE() << "no line for " << id;
    return;
  }
  const std::string changed =
      std::regex_replace(found.str(), std::regex(form), to, std::regex_constants::format_first_only);
  EXPECT_NE(changed, found.str()) << id << " is so already";
  text.replace(static_cast<std::size_t>(found.position()), static_cast<std::size_t>(found.length()), changed);
}

}  // namespace

std::string carried_out(const std::string& mend, const std::string& text) {
  const std::string size = "[0-9./]+ (?:AWG|mm2|SAE)", rating = "[0-9.]+ A";
  const std::string first = mend.substr(0, std::min(mend.find(", or "), mend.find(", which ")));
  std::string carried = text;
  int changes = 0;
  const std::regex asked("(\\w+)(?: to)? (" + size + "|" + rating + "\\b)");
  for (std::sregex_iterator at(first.begin(), first.end(), asked), end; at != end; ++at, ++changes) {
    const std::string to = (*at)[2];
    change(carried, (*at)[1], to.ends_with(" A") ? "\\b" + rating + "\\b" : "\\b" + size, to);
  }
  EXPECT_GT(changes, 0) << mend;
  return carried;
}

std::vector<std::string> grave_in(const std::string& text) {
  std::vector<std::string> grave;
  for (const Finding& finding : examined(text).findings)
    if (finding.severity >= Severity::warning) grave.push_back(finding.rule + " " + finding.subjects.front());
  std::ranges::sort(grave);
  return grave;
}

namespace {

bool is_on(const Finding& finding, std::string_view rule, const std::string& subject) {
  return finding.rule == rule && finding.subjects.front() == subject;
}

}  // namespace

std::string mend_of(std::string_view rule, const std::string& subject, const std::string& plan) {
  for (const Finding& finding : findings_of(rule, plan))
    if (finding.subjects.front() == subject) return finding.mend;
  ADD_FAILURE() << "no " << rule << " on " << subject;
  return "";
}

void expect_cured(std::string_view rule, const std::string& subject, const std::string& plan) {
  const std::string mend = mend_of(rule, subject, plan);
  const std::string then = carried_out(mend, plan);
  const Examination examination = examined(then);
  EXPECT_TRUE(examination.understood()) << mend;
  EXPECT_TRUE(std::ranges::none_of(examination.findings, [&](const Finding& f) { return is_on(f, rule, subject); }))
      << mend;
  const std::vector<std::string> before = grave_in(plan);
  for (const std::string& grave : grave_in(then)) EXPECT_THAT(before, testing::Contains(grave)) << mend;
}

}  // namespace loomleaf::test
