// From the text of a plan to the plan, for tests.
#pragma once

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "loomleaf/circuit/limits.h"
#include "loomleaf/plan/plan.h"
#include "loomleaf/route/route.h"

namespace loomleaf {

inline std::string said(const std::vector<Complaint>& complaints, const SourceText& source) {
  std::string text;
  for (const Complaint& complaint : complaints) text += to_text(complaint, source);
  return text;
}

inline KnownNames known_names_for_tests() {
  KnownNames known;
  known.families = {"blade", "class-t", "thermal"};
  known.rulebooks = {"marine", "metric", "rv"};
  known.rules = {"unfused-run", "gauge-mismatch", "loose-end", "unused-item", "voltage-drop"};
  known.danger_rules = {"unfused-run", "gauge-mismatch"};
  for (const int gauge : {-1, 0, 2, 4, 6, 8, 10, 12, 14, 16, 18, 20, 22}) known.sizes.push_back(WireSize::awg(gauge));
  for (const double area : {0.5, 0.75, 1.0, 1.5, 2.5, 4.0, 6.0, 10.0, 16.0})
    known.sizes.push_back(WireSize::metric(square_millimetres(area)));
  for (const int gauge : {0, 2, 4, 6, 8, 10, 12, 14, 16, 18}) known.sizes.push_back(WireSize::sae(gauge));
  known.insulations = {"boat-cable", "gxl", "thick-wall", "thin-wall"};
  return known;
}

// The plan of a text of which the language has no complaint, with the complaints of this stage alone.
struct ReadPlan {
  Plan plan;
  std::vector<Complaint> complaints;
  std::string said;  // the complaints as the user sees them
};

inline ReadPlan read_plan(const std::string& text) {
  const SourceText source("test.loom", text);
  const Document document = read_document(source);
  EXPECT_EQ(said(document.complaints, source), "");
  PlanReading reading = build_plan(document, source, known_names_for_tests());
  ReadPlan read{std::move(reading.plan), std::move(reading.complaints), ""};
  read.said = said(read.complaints, source);
  return read;
}

// The first complaint of a text, which the language must have none of; empty where there is none.
struct Answer {
  std::string message;
  std::string write;
};

inline Answer answer_to(const std::string& text) {
  const ReadPlan read = read_plan(text);
  return read.complaints.empty() ? Answer{} : Answer{read.complaints.front().message, read.complaints.front().write};
}

// All that language, plan, route and circuit say of a text, in order of place, as the user sees it.
inline std::string complaints_of(const std::string& name, const std::string& text) {
  const SourceText source(name, text);
  const Document document = read_document(source);
  std::vector<Complaint> all = document.complaints;
  const auto add = [&all](const std::vector<Complaint>& more) { all.insert(all.end(), more.begin(), more.end()); };
  const PlanReading reading = build_plan(document, source, known_names_for_tests());
  add(reading.complaints);
  add(find_routes(reading.plan).complaints);
  if (all.empty()) add(check_voltage_limits(reading.plan, build_circuit(reading.plan)));
  sort_by_place(all);
  return said(all, source);
}

}  // namespace loomleaf
