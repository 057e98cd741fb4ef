// Findings and figures as text for people and JSON for programs.
#pragma once

#include <iosfwd>
#include <string>
#include <vector>

#include "loomleaf/language/complaint.h"
#include "loomleaf/rules/rule.h"

namespace loomleaf {

struct ReportStyle {
  bool colour = false;  // ANSI colours on the severity words alone
};

// The findings as text, in the order given, and a last line that counts them. Plain GNU form:
//   plan.loom:12:1: DANGER: gauge-mismatch: C1.red may carry 8 A, F1 lets 30 A through
//       mend: ...
//       after: NEC 552.10(E)(1)
std::string findings_text(const std::vector<Finding>& findings, const SourceText& source, ReportStyle style);
std::string finding_text(const Finding& finding, const SourceText& source, ReportStyle style);

// Writes "loomleaf-check/1", as the project's documentation of `check --json` says. `checked` is absent where the plan
// or a template could not be understood: then complaints are all there is; those of a template carry its file, and no
// columns.
void write_check_json(std::ostream& out, const Checked* checked, const std::vector<Finding>& findings,
                      const std::vector<Complaint>& complaints, const std::vector<TemplateError>& template_errors,
                      const SourceText& source);

// A rule's manual page, and the list of all.
std::string explain_text(const Rule& rule);
std::string explain_list();
// The words that cannot be an ID, how sizes are written, and the names that a plan may use of the stock.
std::string explain_words(const Stock& stock);
// What a rule comes to with a plan's own figures, as a paragraph to stand below its page.
std::string explain_steps(const std::string& subject, const Steps& steps);
// The same below the rule's name alone, for where several rules are told of one subject.
std::string explain_steps_of(const Rule& rule, const std::string& subject, const Steps& steps);
// A rulebook's name and title; every limit of it, each with its source and how that is known.
std::string rulebook_heading(const Rulebook& rulebook);
std::string explain_rulebook(const Rulebook& rulebook);

// Text from a plan made safe for a terminal: control characters become a visible replacement.
std::string printable(std::string_view text);

}  // namespace loomleaf
