// Paper, frame, zones and title block. Paper sizes: ISO 216 (A4, A3), ANSI/ASME Y14.1 (Letter, Tabloid), from memory.
// Zones: ISO 5457 (letters without I and O, figures from the left), from memory.
#include "loomleaf/sheets/sheet_frame.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

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

SheetFormat format(std::string_view paper, Orientation orientation = Orientation::landscape) {
  const Loaded<SheetFormat> loaded = load_sheet_format(kFolders, paper, orientation);
  EXPECT_THAT(loaded.errors, IsEmpty()) << loaded.errors.front().message;
  return loaded.value;
}

TitleFields fields() {
  TitleFields f;
  f.title = "Weather hut";
  f.revision = "C";
  f.date = "2026-03-14";
  f.by = "the hut wardens";
  f.rules = "marine";
  f.sheet_name = "Distribution";
  f.sheet_note = "fed from BAT";
  f.check_status = "Checked: 1 WARNING";
  f.checks_not_done = 2;
  f.cautions = {"Disconnect the battery before work. Fuse before battery.",
                "Local codes and a qualified person have the last word."};
  return f;
}

std::string framed_pdf(const SheetFormat& sheet, const TitleFields& title) {
  Drawing drawing;
  drawing.pages.push_back(blank_page(sheet, "diagram-1"));
  draw_frame(drawing.pages[0], sheet, title, 2, 3, type());
  return to_pdf(drawing, type());
}

std::string plain_text(const std::string& pdf) { return run_on_file(pdf, "pdf", "pdftotext -layout {} -").output; }

// A folder with one template of our own making.
struct OwnTemplate {
  TemplateFolder folder;
  explicit OwnTemplate(const std::string& xml) { folder.write("sheets", "own.xml", xml); }
  std::vector<TemplateError> errors() const {
    return load_sheet_format({{folder.path()}}, "own", Orientation::landscape).errors;
  }
};

TEST(SheetFormat, PapersHaveTheirStandardSizes) {
  EXPECT_EQ(std::pair(format("a4").width_mm, format("a4").height_mm), std::pair(297.0, 210.0));
  EXPECT_EQ(std::pair(format("a3").width_mm, format("a3").height_mm), std::pair(420.0, 297.0));
  EXPECT_NEAR(format("letter").width_mm, 11 * 25.4, 1e-9);
  EXPECT_NEAR(format("letter").height_mm, 8.5 * 25.4, 1e-9);
  EXPECT_NEAR(format("tabloid").width_mm, 17 * 25.4, 1e-9);
  EXPECT_NEAR(format("tabloid").height_mm, 11 * 25.4, 1e-9);
}

TEST(SheetFormat, PortraitTurnsPaperAndZones) {
  const SheetFormat turned = format("a4", Orientation::portrait);
  EXPECT_EQ(turned.width_mm, 210.0);
  EXPECT_EQ(turned.zone_columns, format("a4").zone_rows);
}

TEST(SheetFormat, DrawingAreaLiesInsideTheFrameAndBelowTheHead) {
  for (const char* paper : {"a4", "letter", "a3", "tabloid"}) {
    const SheetFormat sheet = format(paper);
    EXPECT_GE(sheet.inner().x, 10.0);
    EXPECT_EQ(sheet.inner().y, sheet.head().bottom());
    EXPECT_LE(sheet.inner().bottom(), sheet.height_mm - 10.0);
    EXPECT_EQ(sheet.title_block().right(), sheet.inner().right());
    EXPECT_EQ(sheet.title_block().bottom(), sheet.inner().bottom());
  }
}

TEST(SheetFormat, ZonesAreCountedFromTheUpperLeft) {
  const SheetFormat sheet = format("a4");
  const Box frame = sheet.inner_frame();
  EXPECT_EQ(sheet.zone({frame.x + 1, frame.y + 1}), "A1");
  EXPECT_EQ(sheet.zone({frame.right() - 1, frame.bottom() - 1}), "D6");
  EXPECT_EQ(sheet.zone({frame.x + frame.w / 2 + 1, frame.y + frame.h / 2 + 1}), "C4");
  EXPECT_EQ(sheet.zone({-50, 5000}), "D1");  // outside: the nearest
}

TEST(SheetFormat, UnknownPaperNamesTheKnownOnes) {
  const auto errors = load_sheet_format(kFolders, "a9", Orientation::landscape).errors;
  ASSERT_EQ(errors.size(), 1u);
  EXPECT_THAT(errors[0].message, HasSubstr("a3, a4, letter, tabloid"));
}

TEST(SheetFormat, NameThatLeadsOutOfTheFolderIsUnknown) {
  EXPECT_THAT(load_sheet_format(kFolders, "../labels/plain", Orientation::landscape).errors, Not(IsEmpty()));
}

TEST(SheetFormat, FaultIsNamedWithItsLine) {
  const OwnTemplate own(
      "<sheet format=\"1\">\n<paper short=\"210\" long=\"wide\"/>\n<frame margin=\"10\" band=\"4\" head=\"9\"/>\n"
      "<zones long=\"6\" short=\"4\"/>\n<title width=\"110\" height=\"34\" hight=\"3\"/>\n</sheet>\n");
  const auto errors = own.errors();
  ASSERT_EQ(errors.size(), 2u);
  EXPECT_EQ(errors[0].line, 2);
  EXPECT_EQ(errors[1].line, 5);
  EXPECT_THAT(errors[1].message, HasSubstr("hight"));
}

TEST(SheetFormat, AnotherFormatNumberIsRefused) {
  EXPECT_THAT(OwnTemplate("<sheet format=\"2\"/>").errors(), Not(IsEmpty()));
  EXPECT_THAT(OwnTemplate("<sheet/>").errors(), Not(IsEmpty()));
  EXPECT_THAT(OwnTemplate("<paper format=\"1\"/>").errors(), Not(IsEmpty()));
  EXPECT_THAT(OwnTemplate("<sheet format=\"1\"").errors(), Not(IsEmpty()));
  EXPECT_THAT(OwnTemplate("").errors(), Not(IsEmpty()));
}

TEST(SheetFormat, TitleBlockLargerThanThePaperIsRefused) {
  const OwnTemplate own(
      "<sheet format=\"1\"><paper short=\"110\" long=\"120\"/><frame margin=\"10\" band=\"4\" head=\"9\"/>"
      "<zones long=\"2\" short=\"2\"/><title width=\"110\" height=\"34\"/></sheet>");
  EXPECT_THAT(own.errors(), Not(IsEmpty()));
}

TEST(Frame, TitleBlockSaysAllItsFields) {
  const std::string said = plain_text(framed_pdf(format("a4"), fields()));
  for (const char* part :
       {"Weather hut", "2026-03-14", "the hut wardens", "rules: marine", "Checked: 1 WARNING", "2 checks not done",
        "Disconnect the battery", "last word", "2 of 3", "Distribution", "fed from BAT"})
    EXPECT_THAT(said, HasSubstr(part));
}

TEST(Frame, ClearedPlanBearsNoNotice) {
  EXPECT_THAT(plain_text(framed_pdf(format("a4"), fields())), Not(HasSubstr(kNotCleared)));
}

TEST(Frame, PlanThatIsNotClearedSaysSoOnEveryPaper) {
  TitleFields danger = fields();
  danger.cleared = false;
  for (const char* paper : {"a4", "letter", "a3", "tabloid"})
    for (const Orientation orientation : {Orientation::landscape, Orientation::portrait})
      EXPECT_THAT(plain_text(framed_pdf(format(paper, orientation), danger)), HasSubstr("NOT CLEARED FOR POWER-UP"));
}

TEST(Frame, NoticeIsBlackAroundItsWhiteLetters) {
  Page page;
  const Box bar = draw_not_cleared(page, 200.0, 10.0, 7.0, type());
  const auto* shape = std::get_if<PathShape>(&page.items[0]);
  const auto* words = std::get_if<TextRun>(&page.items[1]);
  ASSERT_TRUE(shape && words);
  EXPECT_EQ(shape->fill, Paint{});
  EXPECT_EQ(words->paint, (Paint{1, 1, 1}));
  EXPECT_LT(type().width(words->text, words->style), bar.w);
  EXPECT_NEAR(bar.right(), 200.0, 1e-9);
}

// Every word inside the paper's frame, and none over another: the sheet holds together.
void expect_orderly(const std::string& pdf, const SheetFormat& sheet) {
  const std::vector<PrintedWord> words = words_of(pdf);
  const Box frame = sheet.outer_frame();
  for (const PrintedWord& word : words) {
    EXPECT_GE(word.box.x, frame.x - 0.1) << word.text;
    EXPECT_LE(word.box.right(), frame.right() + 0.1) << word.text;
    EXPECT_GE(word.box.y, frame.y - 0.5) << word.text;
    EXPECT_LE(word.box.bottom(), frame.bottom() + 0.5) << word.text;
  }
  for (std::size_t i = 0; i < words.size(); ++i)
    for (std::size_t j = i + 1; j < words.size(); ++j) {
      Box a = words[i].box, b = words[j].box;
      for (Box* box : {&a, &b}) *box = {box->x + 0.1, box->y + 0.35 * box->h, box->w - 0.2, 0.3 * box->h};
      EXPECT_FALSE(a.overlaps(b)) << words[i].text << " over " << words[j].text;
    }
}

TEST(Frame, WordsStayInsideAndApart) {
  TitleFields danger = fields();
  danger.cleared = false;
  for (const char* paper : {"a4", "letter", "a3", "tabloid"})
    for (const Orientation orientation : {Orientation::landscape, Orientation::portrait})
      expect_orderly(framed_pdf(format(paper, orientation), danger), format(paper, orientation));
}

TEST(Frame, HostileTextStaysInsideItsCells) {
  const std::string rtl =
      "\xD7\xA9\xD7\x9C\xD7\x95\xD7\x9D \xE2\x80\xAE"
      "abc";
  std::string tower = "e";
  for (int i = 0; i < 300; ++i) tower += "\xCC\x81";
  for (const std::string& nasty :
       {std::string(10000, 'W'), std::string("a\nb\x01\x7F\xFF"), rtl, tower, std::string()}) {
    TitleFields hostile = fields();
    hostile.title = hostile.revision = hostile.date = hostile.by = hostile.rules = nasty;
    hostile.sheet_name = hostile.sheet_note = hostile.check_status = nasty;
    hostile.cautions = {nasty, nasty, nasty};
    hostile.cleared = false;
    const std::string pdf = framed_pdf(format("a4"), hostile);
    EXPECT_EQ(run_on_file(pdf, "pdf", "qpdf --check {}").status, 0);
    expect_orderly(pdf, format("a4"));
  }
}

TEST(DisplayList, RectangleIsClosed) {
  const PathShape shape = rectangle({10, 20, 30, 40}, Stroke{});
  EXPECT_EQ(shape.segments.size(), 5u);
  EXPECT_EQ(shape.segments[2].to, (Point{40, 60}));
  EXPECT_EQ(shape.segments.back().kind, PathShape::Segment::Kind::close);
}

TEST(DisplayList, PolylineStartsWithAMove) {
  const PathShape shape = polyline({{0, 0}, {5, 0}, {5, 5}}, Stroke{0.5, {}, {}, false});
  EXPECT_EQ(shape.segments[0].kind, PathShape::Segment::Kind::move);
  EXPECT_EQ(shape.segments[2].kind, PathShape::Segment::Kind::line);
  EXPECT_EQ(shape.stroke->width_mm, 0.5);
  EXPECT_FALSE(shape.fill);
}

}  // namespace
}  // namespace loomleaf
