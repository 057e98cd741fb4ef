#include "plan/support/read_plan.h"

namespace loomleaf {

KnownNames known_names_for_tests() {
  KnownNames known;
  known.families = {"blade", "class-t", "thermal"};
  known.rulebooks = {"marine", "metric", "rv"};
  known.rules = {"unfused-run", "gauge-mismatch", "loose-end", "unused-item", "voltage-drop"};
  known.danger_rules = {"unfused-run", "gauge-mismatch"};
  for (const int gauge : {-1, 0, 2, 4, 6, 8, 10, 12, 14, 16, 18, 20, 22}) known.sizes.push_back(WireSize::awg(gauge));
  for (const double area : {0.5, 0.75, 1.0, 1.5, 2.5, 4.0, 6.0, 10.0, 16.0})
    known.sizes.push_back(WireSize::metric(square_millimetres(area)));
  return known;
}

ReadPlan read_plan(const std::string& text, const std::string& name) {
  const SourceText source(name, text);
  const Document document = read_document(source);
  PlanReading reading = build_plan(document, source, known_names_for_tests());
  ReadPlan read{std::move(reading.plan), document.complaints, ""};
  read.complaints.insert(read.complaints.end(), reading.complaints.begin(), reading.complaints.end());
  sort_by_place(read.complaints);
  for (const Complaint& complaint : read.complaints) read.complaints_text += to_text(complaint, source);
  return read;
}

}  // namespace loomleaf
