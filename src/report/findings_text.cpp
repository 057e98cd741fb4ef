#include <fmt/format.h>

#include "loomleaf/report/report.h"

namespace loomleaf {

namespace {

// SGR codes of ECMA-48; the word itself says the severity, colour only helps the eye.
std::string_view colour_of(Severity severity) {
  switch (severity) {
    case Severity::danger:
      return "\x1b[1;31m";
    case Severity::warning:
      return "\x1b[31m";
    case Severity::caution:
      return "\x1b[33m";
    case Severity::notice:
      return "\x1b[36m";
  }
  return "";
}

std::string severity_text(Severity severity, ReportStyle style) {
  if (!style.colour) return std::string(name_of(severity));
  return fmt::format("{}{}\x1b[0m", colour_of(severity), name_of(severity));
}

std::string summary_text(const Tally& tally) {
  std::string text = fmt::format("{} DANGER, {} WARNING, {} CAUTION, {} NOTICE", tally.danger, tally.warning,
                                 tally.caution, tally.notice);
  if (tally.accepted > 0) text += fmt::format("; {} accepted", tally.accepted);
  if (tally.not_done > 0)
    text += fmt::format("; {} {} not done", tally.not_done, tally.not_done == 1 ? "check" : "checks");
  return text + "\n";
}

}  // namespace

std::string finding_text(const Finding& finding, const SourceText& source, ReportStyle style) {
  const Place2D place = source.start(finding.span);
  std::string text = fmt::format("{}:{}:{}: {}: {}: {}\n", printable(source.name()), place.line, place.column,
                                 severity_text(finding.severity, style), finding.rule, printable(finding.message));
  if (finding.accepted) text += fmt::format("    accepted: {}\n", printable(*finding.accepted));
  if (!finding.mend.empty()) text += fmt::format("    mend: {}\n", printable(finding.mend));
  if (!finding.source.empty()) text += fmt::format("    after: {}\n", printable(finding.source));
  return text;
}

std::string findings_text(const std::vector<Finding>& findings, const SourceText& source, ReportStyle style) {
  std::string text;
  for (const Finding& finding : findings) text += finding_text(finding, source, style);
  return text + summary_text(tally(findings));
}

}  // namespace loomleaf
