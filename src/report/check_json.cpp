#include <algorithm>

#include "figures_json.h"
#include "json_text.h"
#include "loomleaf/report/report.h"

namespace loomleaf {

namespace {

void add_place(Json& entry, Span span, const SourceText& source) {
  const Place2D start = source.start(span);
  // Of a span over several lines the part on its first line is told.
  const std::string_view text = source.text(span);
  const auto on_first_line = static_cast<std::uint32_t>(std::min(text.find_first_of("\r\n"), text.size()));
  entry["file"] = source.name();
  entry["line"] = start.line;
  entry["column"] = start.column;
  entry["end_column"] = source.end({span.begin, span.begin + on_first_line}).column;
}

Json complaints_json(const std::vector<Complaint>& complaints, const std::vector<TemplateError>& template_errors,
                     const SourceText& source) {
  Json all = Json::array();
  for (const Complaint& complaint : complaints) {
    Json entry;
    entry["message"] = complaint.message;
    entry["write"] = text_or_null(complaint.write);
    add_place(entry, complaint.span, source);
    all.push_back(std::move(entry));
  }
  for (const TemplateError& error : template_errors) {
    Json entry;
    entry["message"] = error.message;
    entry["write"] = nullptr;
    entry["file"] = error.file;
    entry["line"] = error.line > 0 ? Json(error.line) : Json(nullptr);
    entry["column"] = nullptr;
    entry["end_column"] = nullptr;
    all.push_back(std::move(entry));
  }
  return all;
}

Json values_json(const std::optional<FindingValues>& values) {
  Json entry;
  entry["is"] = values ? number(values->is) : Json(nullptr);
  entry["may_be"] = values ? number(values->may_be) : Json(nullptr);
  entry["unit"] = values ? Json(values->unit) : Json(nullptr);
  return entry;
}

Json findings_json(const std::vector<Finding>& findings, const SourceText& source) {
  Json all = Json::array();
  for (const Finding& finding : findings) {
    Json entry;
    entry["rule"] = finding.rule;
    entry["severity"] = name_of(finding.severity);
    entry["subjects"] = finding.subjects;
    entry["message"] = finding.message;
    entry["mend"] = text_or_null(finding.mend);
    entry["source"] = text_or_null(finding.source);
    entry["accepted"] = finding.accepted ? Json(*finding.accepted) : Json(nullptr);
    add_place(entry, finding.span, source);
    entry["values"] = values_json(finding.values);
    all.push_back(std::move(entry));
  }
  return all;
}

}  // namespace

void write_check_json(std::ostream& out, const Checked* checked, const std::vector<Finding>& findings,
                      const std::vector<Complaint>& complaints, const std::vector<TemplateError>& template_errors,
                      const SourceText& source) {
  JsonText check(out);
  check.add("format", "loomleaf-check/1");
  check.add("plan", Json({{"title", checked ? text_or_null(checked->plan.heading.title) : Json(nullptr)},
                          {"revision", checked ? text_or_null(checked->plan.heading.revision) : Json(nullptr)},
                          {"file", source.name()}}));
  const Tally counts = tally(findings);
  check.add("summary", Json({{"danger", counts.danger},
                             {"warning", counts.warning},
                             {"caution", counts.caution},
                             {"notice", counts.notice},
                             {"accepted", counts.accepted}}));
  check.add("complaints", complaints_json(complaints, template_errors, source));
  check.add("findings", findings_json(findings, source));
  const std::pair<const char*, void (*)(const Checked&, const TakeEntry&)> lists[] = {
      {"conductors", list_conductors}, {"loads", list_loads},   {"devices", list_devices},
      {"contacts", list_contacts},     {"joints", list_joints}, {"nodes", list_nodes}};
  for (const auto& [name, list] : lists) {
    check.begin_list(name);
    if (checked) list(*checked, [&check](const Json& entry) { check.add_entry(entry); });
    check.end_list();
  }
  check.finish();
}

}  // namespace loomleaf
