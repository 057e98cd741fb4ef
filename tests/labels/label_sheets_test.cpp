// Labels as they lie on the printed sheet, read back from the PDF with pdftotext -bbox.
#include "loomleaf/sheets/label_sheets.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "loomleaf/render/render.h"
#include "support/outside_tools.h"
#include "support/template_folder.h"

namespace loomleaf {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

const TextMeasure& type() {
  static const TextMeasure measure(LOOMLEAF_ROOT "/fonts");
  return measure;
}

const TemplateFolders kFolders{{LOOMLEAF_ROOT "/templates"}};

LabelStock stock(std::string_view name, std::string_view paper = "a4") {
  const Loaded<LabelStock> loaded = load_label_stock(kFolders, name, paper);
  EXPECT_THAT(loaded.errors, IsEmpty()) << loaded.errors.front().message;
  return loaded.value;
}

Label label(std::string id, bool from_end = true) {
  Label made;
  made.id = std::move(id);
  made.at_from_end = from_end;
  made.lands_at = from_end ? "F1.out" : "LA2+";
  made.far_end = from_end ? "LA2+" : "F1.out";
  made.fuse = "F1 5 A";
  made.size = "18 AWG RD";
  return made;
}

std::vector<Label> pairs(int wires) {
  std::vector<Label> labels;
  for (int i = 1; i <= wires; ++i)
    for (const bool from_end : {true, false}) labels.push_back(label("W" + std::to_string(i), from_end));
  return labels;
}

TitleFields fields(bool cleared = true) {
  TitleFields f;
  f.title = "Weather hut";
  f.revision = "C";
  f.date = "2026-03-14";
  f.sheet_name = "Wire labels";
  f.cleared = cleared;
  return f;
}

std::string label_pdf(const std::vector<Label>& labels, const LabelStock& on, bool cleared = true) {
  Drawing drawing;
  drawing.pages = draw_label_sheets(labels, on, fields(cleared), type()).pages;
  return to_pdf(drawing, type());
}

// The printed face of the nth label of a sheet, worked out from the stock's measures alone.
Box face_of(const LabelStock& on, int n) {
  return {on.first_x_mm + on.pitch_x_mm * (n % on.columns) + on.printed_x_mm,
          on.first_y_mm + on.pitch_y_mm * (n / on.columns) + on.printed_y_mm, on.printed_width_mm,
          on.printed_height_mm};
}

bool inside(const Box& box, const Box& face, double tolerance) {
  return box.x >= face.x - tolerance && box.right() <= face.right() + tolerance && box.y >= face.y - tolerance &&
         box.bottom() <= face.bottom() + tolerance;
}

// Whether all black on the first label of a rasterised sheet lies on its printed face (the cut lines are grey).
bool ink_stays_on(const std::string& pdf, const LabelStock& on, double tolerance) {
  const std::string image = run_on_file(pdf, "pdf", "pdftoppm -gray -r 254 -singlefile {}").output;  // 10 dots a mm
  int width = 0, height = 0, header = 0;
  if (std::sscanf(image.c_str(), "P5 %d %d 255%*1[\n]%n", &width, &height, &header) != 2) return false;
  const Box face = face_of(on, 0);
  const int x0 = static_cast<int>(on.first_x_mm * 10), y0 = static_cast<int>(on.first_y_mm * 10);
  for (int y = y0; y < y0 + static_cast<int>(on.label_height_mm * 10); ++y)
    for (int x = x0; x < x0 + static_cast<int>(on.label_width_mm * 10); ++x) {
      const Box dot{x / 10.0, y / 10.0, 0.1, 0.1};
      const auto at = static_cast<std::size_t>(header + y * width + x);
      if (at >= image.size()) return false;
      if (static_cast<unsigned char>(image[at]) < 64 && !inside(dot, face, tolerance)) return false;
    }
  return true;
}

struct OnStock : testing::TestWithParam<std::tuple<const char*, const char*>> {
  LabelStock on = stock(std::get<0>(GetParam()), std::get<1>(GetParam()));
};

TEST_P(OnStock, WordsStayOnTheirPrintedFaces) {
  const int count = on.columns * on.rows;
  const std::string pdf = label_pdf(pairs((count + 1) / 2), on);
  int on_faces = 0;
  for (const PrintedWord& word : words_of(pdf)) {
    if (word.page != 1 || word.box.y < on.first_y_mm - 1.0 || word.box.y > face_of(on, count - 1).bottom()) continue;
    bool found = false;
    for (int n = 0; n < count && !found; ++n) found = inside(word.box, face_of(on, n), 0.05);
    EXPECT_TRUE(found) << word.text << " at " << word.box.x << ", " << word.box.y;
    ++on_faces;
  }
  EXPECT_GE(on_faces, 7 * count);  // ID, "at" and where, "to" and where, fuse, size
}

TEST_P(OnStock, LabelsLieAtTheStocksPitch) {
  // All labels alike, so that the same word must stand at the same place of each.
  const int count = on.columns * on.rows;
  const std::vector<Label> alike(static_cast<std::size_t>(count), label("W1"));
  std::vector<Box> ids;
  for (const PrintedWord& word : words_of(label_pdf(alike, on)))
    if (word.text == "W1") ids.push_back(word.box);
  ASSERT_EQ(ids.size(), static_cast<std::size_t>(count));
  std::sort(ids.begin(), ids.end(), [](const Box& a, const Box& b) {
    return std::pair(std::lround(a.y * 10), a.x) < std::pair(std::lround(b.y * 10), b.x);
  });
  for (int n = 0; n < count; ++n) {
    const Box& id = ids[static_cast<std::size_t>(n)];
    EXPECT_NEAR(id.x - ids[0].x, on.pitch_x_mm * (n % on.columns), 0.05);
    EXPECT_NEAR(id.y - ids[0].y, on.pitch_y_mm * (n / on.columns), 0.05);
  }
  EXPECT_NEAR(ids[0].x, face_of(on, 0).x, 0.05);
}

TEST_P(OnStock, CapitalsAreNeverUnderTwoMillimetresAndTheIdIsTheLargest) {
  const LabelSheets sheets = draw_label_sheets(pairs(5), on, fields(), type());
  for (const Page& page : sheets.pages) {
    double id_cap = 0.0;
    for (const DrawingItem& item : page.items)
      if (const auto* run = std::get_if<TextRun>(&item)) {
        EXPECT_GE(run->style.cap_mm, 2.0) << run->text;
        if (run->underlined) id_cap = run->style.cap_mm;
        const bool on_a_label = run->at.y > on.first_y_mm && run->at.y < on.first_y_mm + 5.0 * on.pitch_y_mm;
        if (id_cap > 0.0 && on_a_label) {
          EXPECT_LE(run->style.cap_mm, id_cap) << run->text;
        }
      }
  }
  EXPECT_THAT(sheets.could_not_fit, IsEmpty());
}

TEST_P(OnStock, SheetSaysWhatItIsOutsideTheLabels) {
  const std::string pdf = label_pdf(pairs(3), on, false);
  const std::string said = run_on_file(pdf, "pdf", "pdftotext -layout {} -").output;
  for (const char* part :
       {"Weather hut", "revision C", "2026-03-14", "sheet 1 of 1", "NOT CLEARED FOR POWER-UP", "50 mm"})
    EXPECT_THAT(said, HasSubstr(part));
  EXPECT_THAT(said, HasSubstr(on.title));
  for (const PrintedWord& word : words_of(pdf))
    if (word.text == "NOT" || word.text == "Weather" || word.text == "sheet") {
      EXPECT_TRUE(word.box.bottom() < on.first_y_mm && word.box.y > 5.0) << word.text;
    }
}

INSTANTIATE_TEST_SUITE_P(Labels, OnStock,
                         testing::Combine(testing::Values("plain", "sleeve-5", "sleeve-10", "sleeve-19"),
                                          testing::Values("a4", "letter")),
                         [](const auto& tested) {
                           std::string name = std::string(std::get<0>(tested.param)) + "_" + std::get<1>(tested.param);
                           std::replace(name.begin(), name.end(), '-', '_');
                           return name;
                         });

TEST(LabelSheets, EveryLabelIsPrintedOnce) {
  const std::vector<Label> labels = pairs(70);  // more than one sheet
  const LabelSheets sheets = draw_label_sheets(labels, stock("plain"), fields(), type());
  EXPECT_EQ(sheets.pages.size(), 3u);
  std::vector<std::string> printed;
  for (const Page& page : sheets.pages)
    for (const DrawingItem& item : page.items)
      if (const auto* run = std::get_if<TextRun>(&item); run && run->underlined) printed.push_back(run->text);
  std::vector<std::string> meant;
  for (const Label& one : labels) meant.push_back(one.id);
  EXPECT_EQ(printed, meant);
}

TEST(LabelSheets, RulerIsFiftyMillimetresLong) {
  const LabelSheets sheets = draw_label_sheets(pairs(1), stock("plain"), fields(), type());
  const bool found =
      std::any_of(sheets.pages[0].items.begin(), sheets.pages[0].items.end(), [](const DrawingItem& item) {
        const auto* shape = std::get_if<PathShape>(&item);
        return shape && shape->segments.size() == 2 && shape->segments[0].to.y == shape->segments[1].to.y &&
               std::abs(shape->segments[1].to.x - shape->segments[0].to.x - 50.0) < 1e-9;
      });
  EXPECT_TRUE(found);
}

TEST(LabelSheets, ClearedPlanBearsNoNotice) {
  EXPECT_THAT(run_on_file(label_pdf(pairs(1), stock("plain")), "pdf", "pdftotext {} -").output,
              Not(HasSubstr("CLEARED")));
}

TEST(LabelSheets, PlanWithoutWiresStillMakesASheet) {
  EXPECT_THAT(run_on_file(label_pdf({}, stock("plain")), "pdf", "pdftotext {} -").output, HasSubstr("no wire"));
}

TEST(LabelSheets, WhatCannotFitIsSaidInWords) {
  Label crowded = label("W1");
  crowded.fuse = "F1 5 A, F2 10 A, F3 15 A, F4 20 A, F5 30 A, F6 60 A, F7 80 A";
  const LabelSheets sheets = draw_label_sheets({crowded}, stock("sleeve-5"), fields(), type());
  ASSERT_THAT(sheets.could_not_fit, Not(IsEmpty()));
  EXPECT_THAT(sheets.could_not_fit[0], HasSubstr("W1"));
}

TEST(LabelSheets, LongIdIsShortenedAndSaid) {
  const LabelSheets sheets = draw_label_sheets({label("W" + std::string(200, '8'))}, stock("plain"), fields(), type());
  ASSERT_THAT(sheets.could_not_fit, Not(IsEmpty()));
  EXPECT_THAT(sheets.could_not_fit[0], HasSubstr("the ID is shortened"));
}

TEST(LabelSheets, HostileTextNeverLeavesItsFace) {
  std::string tower = "e";
  for (int i = 0; i < 300; ++i) tower += "\xCC\x81";
  const LabelStock on = stock("plain");
  for (const std::string& nasty : {std::string(10000, 'W'), std::string("a\nb\x01\x7F\xFF"), tower,
                                   std::string("\xD7\xA9\xD7\x9C\xD7\x95\xD7\x9D\xE2\x80\xAE"
                                               "abc"),
                                   std::string(), std::string(500, ' '), std::string("\xE4\xB8\xAD\xE6\x96\x87")}) {
    Label hostile = label(nasty);
    hostile.lands_at = hostile.far_end = hostile.fuse = hostile.size = nasty;
    const std::string pdf = label_pdf({hostile}, on);
    EXPECT_EQ(run_on_file(pdf, "pdf", "qpdf --check {}").status, 0);
    // Two marks on a letter reach above its line, but not off the label.
    EXPECT_TRUE(ink_stays_on(pdf, on, nasty == tower ? on.printed_y_mm : 0.15)) << nasty.substr(0, 20);
  }
}

TEST(LabelSheets, GlyphsThatCannotBePrintedAreSaid) {
  Label foreign = label("W1");
  foreign.lands_at = "\xE4\xB8\xAD\xE6\x96\x87";
  EXPECT_THAT(draw_label_sheets({foreign}, stock("plain"), fields(), type()).could_not_fit, Not(IsEmpty()));
}

// A folder with one label stock of our own making.
std::vector<TemplateError> own_stock_errors(const std::string& xml, std::string_view paper = "a4") {
  const TemplateFolder folder;
  folder.write("labels", "own.xml", xml);
  return load_label_stock({{folder.path()}}, "own", paper).errors;
}

std::string own_stock(const std::string& face, const std::string& layout) {
  return "<label-stock format=\"1\" kind=\"plain\" title=\"own\">\n<label width=\"60\" height=\"12\"/>\n<face " + face +
         " least-capital=\"2\"/>\n<layout papers=\"a4\" width=\"210\" height=\"297\" " + layout +
         "/>\n</label-stock>\n";
}

constexpr const char* kFace = "x=\"2\" y=\"1\" width=\"56\" height=\"10\"";
constexpr const char* kLayout = "first-x=\"15\" first-y=\"20\" pitch-x=\"60\" pitch-y=\"12\" columns=\"3\" rows=\"20\"";

TEST(LabelStock, GoodOneIsTaken) { EXPECT_THAT(own_stock_errors(own_stock(kFace, kLayout)), IsEmpty()); }

TEST(LabelStock, FaultsAreNamedWithTheirLines) {
  struct Case {
    const char *face, *layout;
    int line;
    const char* says;
  };
  const Case cases[] = {
      {"x=\"9\" y=\"1\" width=\"56\" height=\"10\"", kLayout, 3, "edge of the label"},
      {"x=\"2\" y=\"1\" width=\"wide\" height=\"10\"", kLayout, 3, "width"},
      {kFace, "first-x=\"15\" first-y=\"20\" pitch-x=\"50\" pitch-y=\"12\" columns=\"3\" rows=\"20\"", 4,
       "over each other"},
      {kFace, "first-x=\"40\" first-y=\"20\" pitch-x=\"60\" pitch-y=\"12\" columns=\"3\" rows=\"20\"", 4,
       "last column"},
      {kFace, "first-x=\"15\" first-y=\"20\" pitch-x=\"60\" pitch-y=\"12\" columns=\"3\" rows=\"23\"", 4, "last row"},
      {kFace, "first-x=\"15\" first-y=\"5\" pitch-x=\"60\" pitch-y=\"12\" columns=\"3\" rows=\"20\"", 4, "first-y"},
      {kFace, "first-x=\"15\" first-y=\"20\" pitch-x=\"60\" pitch-y=\"12\" columns=\"2.5\" rows=\"20\"", 4, "columns"},
      {kFace, "first-x=\"nan\" first-y=\"20\" pitch-x=\"60\" pitch-y=\"12\" columns=\"3\" rows=\"20\"", 4, "first-x"},
  };
  for (const Case& one : cases) {
    const auto errors = own_stock_errors(own_stock(one.face, one.layout));
    ASSERT_THAT(errors, Not(IsEmpty())) << one.says;
    EXPECT_EQ(errors[0].line, one.line) << errors[0].message;
    EXPECT_THAT(errors[0].message, HasSubstr(one.says));
  }
}

TEST(LabelStock, UnknownStockNamesTheKnownOnes) {
  const auto errors = load_label_stock(kFolders, "marble", "a4").errors;
  ASSERT_EQ(errors.size(), 1u);
  EXPECT_THAT(errors[0].message, HasSubstr("plain, sleeve-10, sleeve-19, sleeve-5"));
}

TEST(LabelStock, PaperWithoutALayoutIsSaid) {
  const auto errors = own_stock_errors(own_stock(kFace, kLayout), "letter");
  ASSERT_EQ(errors.size(), 1u);
  EXPECT_THAT(errors[0].message, HasSubstr("letter"));
}

TEST(LabelStock, LargeDiagramPapersTakeTheHomePrintersSheet) {
  EXPECT_EQ(stock("plain", "a3").page_width_mm, 210.0);
  EXPECT_EQ(stock("plain", "tabloid").page_width_mm, 215.9);
}

TEST(LabelStock, SleeveLaidFlatIsHalfItsCircumferenceWide) {
  for (const char* name : {"sleeve-5", "sleeve-10", "sleeve-19"}) {
    const LabelStock sleeve = stock(name);
    EXPECT_EQ(sleeve.kind, LabelStock::Kind::sleeve);
    EXPECT_NEAR(sleeve.label_height_mm, 3.14159265 * sleeve.supplied_bore_mm / 2.0, 0.06) << name;
    EXPECT_LT(sleeve.recovered_bore_mm, sleeve.supplied_bore_mm);
  }
}

TEST(LabelStock, SleeveWithoutItsBoresIsRefused) {
  const auto errors = own_stock_errors(
      "<label-stock format=\"1\" kind=\"sleeve\" title=\"own\"><label width=\"60\" height=\"12\"/><face x=\"2\" "
      "y=\"1\" "
      "width=\"56\" height=\"10\" least-capital=\"2\"/><layout papers=\"a4\" width=\"210\" height=\"297\" "
      "first-x=\"15\" "
      "first-y=\"20\" pitch-x=\"60\" pitch-y=\"12\" columns=\"3\" rows=\"20\"/></label-stock>");
  EXPECT_THAT(errors, Not(IsEmpty()));
}

}  // namespace
}  // namespace loomleaf
