// `check --json` against its written description: names, order, units, null where not known.
#include <gmock/gmock.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <sstream>

#include "loomleaf/command/examine.h"
#include "loomleaf/report/report.h"

namespace loomleaf {
namespace {

using Json = nlohmann::ordered_json;
using testing::ElementsAre;
using testing::ElementsAreArray;
using testing::HasSubstr;

const std::string cellar = R"(plan "Cellar" revision B
system 12 V rules rv
source BAT 12.8 V low 12.0 V 50 Ah max 30 A short-circuit 500 A
fuse F1 10 A blade
switch S1 10 A 32 V
splice SP1 2 ways 20 A takes 0.2..6 mm2
load X 6 W
wire W1 BAT+ to F1 12 AWG red 600 mm
wire W2 F1 to S1 12 AWG red 1 m
wire W3 S1 to SP1 12 AWG red 1 m
wire W4 SP1 to X+ 12 AWG red 1 m
wire W5 BAT- to X- 12 AWG black 2 m
)";

std::string check_json(const Checked* checked, const std::vector<Finding>& findings,
                       const std::vector<Complaint>& complaints, const SourceText& source,
                       const std::vector<TemplateError>& template_errors = {}) {
  std::ostringstream out;
  write_check_json(out, checked, findings, complaints, template_errors, source);
  return out.str();
}

std::string text_of(const std::string& text) {
  const SourceText source("cellar.loom", text);
  const Examination examination = examine(source, TemplateFolders{{LOOMLEAF_ROOT "/templates"}});
  const Checked checked = examination.checked();
  return check_json(examination.understood() ? &checked : nullptr, examination.findings, examination.complaints,
                    source);
}

Json json_of(const std::string& text) { return Json::parse(text_of(text)); }

std::vector<std::string> keys(const Json& object) {
  std::vector<std::string> names;
  for (const auto& [name, value] : object.items()) names.push_back(name);
  return names;
}

const Json& entry(const Json& list, const std::string& id) {
  for (const Json& one : list) {
    if (one["id"] == id) return one;
  }
  ADD_FAILURE() << "no entry " << id;
  return list;
}

// The keys as the description of `check --json` names them, in its order.
TEST(CheckJson, HasTheKeysOfItsDescription) {
  const Json json = json_of(cellar);
  EXPECT_THAT(keys(json), ElementsAre("format", "plan", "summary", "complaints", "findings", "conductors", "loads",
                                      "devices", "contacts", "joints", "nodes"));
  EXPECT_EQ(json["format"], "loomleaf-check/1");
  EXPECT_THAT(keys(json["plan"]), ElementsAre("title", "revision", "file"));
  EXPECT_THAT(keys(json["summary"]), ElementsAre("danger", "warning", "caution", "notice", "accepted"));
  EXPECT_THAT(keys(json["findings"][0]), ElementsAre("rule", "severity", "subjects", "message", "mend", "source",
                                                     "accepted", "file", "line", "column", "end_column", "values"));
  EXPECT_THAT(keys(json["findings"][0]["values"]), ElementsAre("is", "may_be", "unit"));
  EXPECT_THAT(keys(json["conductors"][0]),
              ElementsAreArray({"id", "from", "to", "side", "size", "area_mm2", "length_m", "resistance_ohm",
                                "current_A", "case", "ampacity_A", "may_carry_A", "let_through_A", "unbounded",
                                "exposed", "exposed_length_m", "protected_by", "short_circuit_A", "clearing_s"}));
  EXPECT_THAT(keys(json["loads"][0]), ElementsAre("id", "voltage_V", "current_A", "drop_percent", "case"));
  EXPECT_THAT(keys(json["devices"][0]), ElementsAre("id", "rating_A", "current_A", "resistance_ohm", "prospective_A"));
  EXPECT_THAT(keys(json["contacts"][0]), ElementsAre("id", "rating_A", "current_A", "resistance_ohm"));
  EXPECT_THAT(keys(json["joints"][0]), ElementsAre("id", "rating_A", "current_A", "ends"));
  EXPECT_THAT(keys(json["nodes"][0]), ElementsAre("id", "terminals", "voltage_V"));
}

TEST(CheckJson, GivesThePlanAndTheFindingWithItsPlaceAndFigures) {
  const Json json = json_of(cellar);
  EXPECT_EQ(json["plan"], Json({{"title", "Cellar"}, {"revision", "B"}, {"file", "cellar.loom"}}));
  EXPECT_EQ(json["summary"]["danger"], 1);
  const Json& finding = json["findings"][0];
  EXPECT_EQ(finding["rule"], "unfused-run");
  EXPECT_EQ(finding["severity"], "DANGER");
  EXPECT_EQ(finding["subjects"], Json({"W1"}));
  EXPECT_EQ(finding["line"], 8);
  EXPECT_EQ(finding["column"], 6);
  EXPECT_EQ(finding["end_column"], 8);
  EXPECT_TRUE(finding["accepted"].is_null());
  EXPECT_EQ(finding["values"], Json({{"is", 0.6}, {"may_be", 0.4572}, {"unit", "m"}}));
}

TEST(CheckJson, CountsCurrentFromTheFirstEndToTheSecond) {
  const Json json = json_of(cellar);
  const double out = entry(json["conductors"], "W4")["current_A"];
  EXPECT_NEAR(out, 0.5, 0.01);  // 6 W at a little under 12 V
  // W5 is declared from BAT-: what comes back flows against it.
  EXPECT_NEAR(entry(json["conductors"], "W5")["current_A"].get<double>(), -out, 1e-9);
  EXPECT_NEAR(entry(json["devices"], "F1")["current_A"].get<double>(), out, 1e-9);
  EXPECT_NEAR(entry(json["contacts"], "S1")["current_A"].get<double>(), out, 1e-9);
  EXPECT_NEAR(entry(json["joints"], "SP1")["current_A"].get<double>(), out, 1e-9);
  EXPECT_EQ(entry(json["joints"], "SP1")["ends"], 2);
}

TEST(CheckJson, TellsWhatIsNotKnownAsNull) {
  const Json json = json_of(cellar);
  const Json& first = entry(json["conductors"], "W1");
  EXPECT_EQ(first["unbounded"], true);
  EXPECT_TRUE(first["let_through_A"].is_null());
  EXPECT_EQ(first["exposed"], true);
  EXPECT_EQ(first["exposed_length_m"], 0.6);
  EXPECT_EQ(first["side"], "feed");
  const Json& second = entry(json["conductors"], "W2");
  EXPECT_EQ(second["let_through_A"], 10);
  EXPECT_TRUE(second["exposed_length_m"].is_null());
  EXPECT_EQ(second["protected_by"], Json({"F1"}));
  EXPECT_EQ(second["size"], "12 AWG");
  EXPECT_EQ(entry(json["conductors"], "W5")["side"], "return");
}

TEST(CheckJson, GivesNodesAgainstTheLowestTerminal) {
  const Json json = json_of(cellar);
  int at_battery = 0;
  for (const Json& node : json["nodes"]) {
    for (const Json& terminal : node["terminals"]) {
      if (terminal != "BAT+" && terminal != "BAT-") continue;
      EXPECT_NEAR(node["voltage_V"].get<double>(), terminal == "BAT+" ? 12.0 : 0.0, 1e-9);
      ++at_battery;
    }
  }
  EXPECT_EQ(at_battery, 2);
}

TEST(CheckJson, OfAPlanNotUnderstoodHoldsItsComplaints) {
  const Json json = json_of("wier W1 BAT+ to F1\n");
  ASSERT_FALSE(json["complaints"].empty());
  const Json& complaint = json["complaints"][0];
  EXPECT_THAT(keys(complaint), ElementsAre("message", "write", "file", "line", "column", "end_column"));
  EXPECT_EQ(complaint["line"], 1);
  EXPECT_EQ(complaint["column"], 1);
  EXPECT_TRUE(json["plan"]["title"].is_null());
  EXPECT_EQ(json["plan"]["file"], "cellar.loom");
  EXPECT_EQ(json["findings"], Json::array());
  EXPECT_EQ(json["conductors"], Json::array());
}

TEST(CheckJson, HoldsWhatIsWrongWithATemplateAsAComplaint) {
  const SourceText source("cellar.loom", cellar);
  const Json json = Json::parse(check_json(
      nullptr, {}, {}, source, {{"rulebooks/farm.xml", 12, "no such size"}, {"stock/wires.xml", 0, "gone"}}));
  ASSERT_EQ(json["complaints"].size(), 2u);
  const Json& first = json["complaints"][0];
  EXPECT_THAT(keys(first), ElementsAre("message", "write", "file", "line", "column", "end_column"));
  EXPECT_EQ(first["message"], "no such size");
  EXPECT_EQ(first["file"], "rulebooks/farm.xml");
  EXPECT_EQ(first["line"], 12);
  EXPECT_TRUE(first["column"].is_null());
  EXPECT_TRUE(json["complaints"][1]["line"].is_null());
}

TEST(CheckJson, WritesNumbersSoThatTheyReadBackTheSame) {
  const SourceText source("x", "x");
  Finding finding{"voltage-drop", Severity::caution, {"X"}, "m", "n", "s", {}, FindingValues{0.1 + 0.2, 8.0, "%"}, {}};
  const std::string json = check_json(nullptr, {finding}, {}, source);
  EXPECT_THAT(json, HasSubstr("\"is\": 0.30000000000000004"));
  EXPECT_THAT(json, HasSubstr("\"may_be\": 8,"));
}

TEST(CheckJson, IsIndentedAsIfWrittenInOneGo) {
  for (const std::string& text : {text_of(cellar), check_json(nullptr, {}, {}, SourceText("x", "x"))})
    EXPECT_EQ(text, Json::parse(text).dump(2) + "\n");
}

TEST(CheckJson, TellsWhatIsNotFiniteAsNull) {
  Finding finding{"voltage-drop", Severity::caution, {"X"}, "m", "n", "s", {}, FindingValues{NAN, INFINITY, "%"}, {}};
  const Json json = Json::parse(check_json(nullptr, {finding}, {}, SourceText("x", "x")));
  EXPECT_TRUE(json["findings"][0]["values"]["is"].is_null());
  EXPECT_TRUE(json["findings"][0]["values"]["may_be"].is_null());
}

TEST(CheckJson, ReplacesBytesThatAreNoUtf8) {
  const Complaint complaint{{0, 1}, "not \xFF text", "", {}, false};
  const Json json = Json::parse(check_json(nullptr, {}, {complaint}, SourceText("x", "x")));
  EXPECT_EQ(json["complaints"][0]["message"], "not \xEF\xBF\xBD text");
  EXPECT_TRUE(json["complaints"][0]["write"].is_null());
}

TEST(CheckJson, EndsASpanOfSeveralLinesOnItsFirst) {
  const Complaint complaint{{0, 9}, "m", "w", {}, false};
  const Json json = Json::parse(check_json(nullptr, {}, {complaint}, SourceText("x", "abcd\nefgh\n")));
  EXPECT_EQ(json["complaints"][0]["line"], 1);
  EXPECT_EQ(json["complaints"][0]["end_column"], 5);
}

}  // namespace
}  // namespace loomleaf
