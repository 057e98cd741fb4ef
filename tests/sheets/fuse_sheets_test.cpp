// The card in the fuse block's door: what it lists, and how it prints. Colours: ISO 8820-3 and DIN 72581.
#include "loomleaf/sheets/fuse_sheets.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "loomleaf/language/statement.h"
#include "loomleaf/render/render.h"
#include "support/outside_tools.h"

namespace loomleaf {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;

const TemplateFolders kFolders{{LOOMLEAF_ROOT "/templates"}};

const TextMeasure& type() {
  static const TextMeasure measure(LOOMLEAF_ROOT "/fonts");
  return measure;
}

const FuseColours& colours() {
  static const Loaded<FuseColours> loaded = load_fuse_colours(kFolders);
  EXPECT_THAT(loaded.errors, IsEmpty());
  return loaded.value;
}

// The rows of a plan; W1 is said to be protected by F1, as the study would say it.
std::vector<FuseRow> rows_of(const std::string& text) {
  const SourceText source("test.loom", text);
  const PlanReading reading = build_plan(read_document(source), source, {});
  for (const Complaint& complaint : reading.complaints) ADD_FAILURE() << to_text(complaint, source);
  const Plan& plan = reading.plan;
  const Circuit circuit = build_circuit(plan);
  Study study;
  study.protection.conductors = IndexedList<ConductorOf, ConductorProtection>(plan.conductors.size());
  study.working.branches = IndexedList<BranchOf, std::optional<Worst<Current>>>(circuit.branches.size());
  for (const BranchId branch : circuit.branches.ids())
    if (circuit.branches[branch].kind == BranchKind::device)
      study.working.branches[branch] = Worst<Current>{amperes(-1.25), 0};
  for (const ConductorId id : plan.conductors.ids())
    for (const ItemId item : plan.items.ids())
      if (plan.items[item].is<Device>()) {
        study.protection.conductors[id].side = ConductorSide::feed;
        study.protection.conductors[id].protected_by = {item};
        break;
      }
  return list_fuses(plan, circuit, study, colours());
}

constexpr const char* kPlan =
    "system 12 V\nsource BAT 12.8 V\nbus PB 100 A\nfuse F1 \"Reading lamps\" 5 A blade on PB\nfuse F2 10 A blade on "
    "PB\n"
    "load LA1 3 W\nload LA2 3 W\nwire W0 BAT+ to PB 16 AWG 1 m\nwire W1 F1 to LA1+ 18 AWG 1 m\nwire W2 LA1- to BAT- 16 "
    "AWG 1 m\n";

TEST(FuseSchedule, SaysWhatADeviceFeedsWithItsRatingAndColour) {
  const auto rows = rows_of(kPlan);
  ASSERT_EQ(rows.size(), 2u);
  EXPECT_EQ(rows[0].id, "F1");
  EXPECT_EQ(rows[0].feeds, "Reading lamps");
  EXPECT_EQ(rows[0].rating, "5 A");
  EXPECT_EQ(rows[0].family, "blade");
  EXPECT_EQ(rows[0].colour, "tan");
  EXPECT_EQ(rows[0].current, "1.25 A");
}

TEST(FuseSchedule, WireIsTheThinnestThatTheDeviceProtects) { EXPECT_EQ(rows_of(kPlan)[0].wire, "18 AWG"); }

TEST(FuseSchedule, FreeWayIsASpare) { EXPECT_EQ(rows_of(kPlan)[1].feeds, "spare"); }

TEST(FuseColours, SameRatingDiffersByFamily) {
  EXPECT_EQ(colours().find("blade", amperes(20)), "yellow");
  EXPECT_EQ(colours().find("mini", amperes(30)), "light green");
  EXPECT_EQ(colours().find("maxi", amperes(50)), "red");
  EXPECT_EQ(colours().find("class-t", amperes(60)), "");
  EXPECT_EQ(colours().find("blade", amperes(17)), "");
}

std::vector<FuseRow> many(int count) {
  std::vector<FuseRow> rows;
  for (int i = 1; i <= count; ++i)
    rows.push_back(
        {"F" + std::to_string(i), "Reading lamps along the left wall", "7.5 A", "blade", "brown", "16 AWG", "1.25 A"});
  return rows;
}

TitleFields fields() {
  TitleFields f;
  f.title = "Weather hut";
  f.sheet_name = "Fuses";
  f.cleared = false;
  return f;
}

TEST(FuseSheets, EveryDeviceStandsOnACardOnce) {
  for (const char* paper : {"a4", "letter"}) {
    const SheetFormat format = load_sheet_format(kFolders, paper, Orientation::portrait).value;
    Drawing drawing;
    drawing.pages = draw_fuse_sheets(many(60), format, fields(), type());
    EXPECT_GT(drawing.pages.size(), 1u);
    std::vector<std::string> ids;
    for (const PrintedWord& word : words_of(to_pdf(drawing, type()))) {
      if (word.text.size() > 1 && word.text[0] == 'F' && word.text != "Fuses" && word.text != "FOR")
        ids.push_back(word.text);
      EXPECT_LE(word.box.right(), format.width_mm - 10.0) << word.text;
    }
    std::vector<std::string> meant;
    for (const FuseRow& row : many(60)) meant.push_back(row.id);
    EXPECT_EQ(ids, meant);
  }
}

TEST(FuseSheets, RowsKeepClearOfTheTitleBlock) {
  const SheetFormat format = load_sheet_format(kFolders, "a4", Orientation::portrait).value;
  for (const Page& page : draw_fuse_sheets(many(60), format, fields(), type()))
    for (const DrawingItem& item : page.items)
      if (const auto* run = std::get_if<TextRun>(&item); run && run->text == "brown") {
        EXPECT_LT(run->at.y, format.title_block().y);
      }
}

TEST(FuseSheets, RatingsAreLargeEnoughForBadLight) {
  // 3.5 mm reads at 0.7 m (FAA: a 200th of the distance).
  const SheetFormat format = load_sheet_format(kFolders, "a4", Orientation::portrait).value;
  const std::vector<Page> pages = draw_fuse_sheets(many(1), format, fields(), type());
  for (const DrawingItem& item : pages.front().items)
    if (const auto* run = std::get_if<TextRun>(&item); run && run->text == "7.5 A") {
      EXPECT_GE(run->style.cap_mm, 3.5);
    }
}

TEST(FuseSheets, PlanWithoutDevicesSaysSo) {
  const SheetFormat format = load_sheet_format(kFolders, "a4", Orientation::portrait).value;
  Drawing drawing;
  drawing.pages = draw_fuse_sheets({}, format, fields(), type());
  EXPECT_THAT(run_on_file(to_pdf(drawing, type()), "pdf", "pdftotext {} -").output, HasSubstr("no fuse"));
}

TEST(FuseSheets, HostileTextStaysOnTheCard) {
  const SheetFormat format = load_sheet_format(kFolders, "a4", Orientation::portrait).value;
  const std::string nasty(10000, 'W');
  Drawing drawing;
  drawing.pages =
      draw_fuse_sheets({{nasty, nasty, nasty, nasty, nasty, nasty, nasty}, {"\x01", "\xFF", "", "", "", "", ""}},
                       format, fields(), type());
  const std::string pdf = to_pdf(drawing, type());
  EXPECT_EQ(run_on_file(pdf, "pdf", "qpdf --check {}").status, 0);
  for (const PrintedWord& word : words_of(pdf)) EXPECT_LE(word.box.right(), format.width_mm - 10.0);
}

}  // namespace
}  // namespace loomleaf
