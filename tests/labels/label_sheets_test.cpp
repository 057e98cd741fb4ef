// Labels as they lie on the printed sheet, read back from the PDF with pdftotext -bbox.
#include "loomleaf/sheets/label_sheets.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "labels/support/label_maker.h"
#include "loomleaf/sheets/label_fit.h"
#include "support/outside_tools.h"

namespace loomleaf::test {
namespace {

using testing::Contains;
using testing::Each;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

constexpr double kMargin = 0.5;

std::string said_on(const std::vector<Page>& pages) {
  return run_on_file(pdf_of(pages), "pdf", "pdftotext -layout {} -").output;
}

// Each stock for wires on each paper: a sheet of each size, full of labels for the thickest wire that it is for.
struct OnStock : testing::TestWithParam<std::tuple<const char*, const char*>> {
  LabelStock on = label_stock(std::get<0>(GetParam()), std::get<1>(GetParam()));

  std::vector<Page> full_sheet(const LabelSize& size, bool alike) const {
    std::vector<Label> labels = pairs((size.on_a_sheet() + 1) / 2, wire_for(size));
    labels.resize(static_cast<std::size_t>(size.on_a_sheet()));
    if (alike) std::fill(labels.begin(), labels.end(), wire_label("W1", true, wire_for(size)));
    LabelWishes wishes;
    wishes.size = size.name;
    return sheets_of(labels, on, wishes).pages;
  }

  // The least sleeves have no height for letters that can be read.
  bool takes_letters(const LabelSize& size) const {
    return on.kind != LabelKind::sleeve || (size.name != "2.4" && size.name != "3");
  }

  bool stands_on_a_face(const PrintedWord& word, const LabelSize& size, bool back) const {
    for (int n = 0; n < size.on_a_sheet(); ++n) {
      Box face = face_of(size, n, back);
      if (inside(word.box, face, kMargin)) return true;
      face.x += size.second_x_mm - size.face.x;
      if (on.kind == LabelKind::flag && inside(word.box, face, kMargin)) return true;
    }
    return false;
  }
};

TEST_P(OnStock, WordsStandHalfAMillimetreInsideTheirFaces) {
  for (const LabelSize& size : on.sizes) {
    if (!takes_letters(size)) continue;
    const std::vector<Page> pages = full_sheet(size, false);
    ASSERT_EQ(pages.size(), static_cast<std::size_t>(on.sides));
    std::vector<int> on_faces(pages.size(), 0);
    for (const PrintedWord& word : words_of(pdf_of(pages))) {
      const bool back = word.page == 2;
      EXPECT_THAT(word.text, Not(HasSubstr("\xE2\x80\xA6"))) << size.name << ": a text is cut short";
      const double top = back ? size.page_height_mm - size.bottom_edge() : size.first_y_mm;
      const double bottom = back ? size.page_height_mm - size.first_y_mm : size.bottom_edge();
      if (word.box.bottom() < top || word.box.y > bottom) continue;
      EXPECT_TRUE(stands_on_a_face(word, size, back))
          << size.name << ": " << word.text << " at " << word.box.x << ", " << word.box.y;
      ++on_faces[static_cast<std::size_t>(word.page) - 1];
    }
    EXPECT_THAT(on_faces, Each(testing::Ge(2 * size.on_a_sheet()))) << size.name;
  }
}

TEST_P(OnStock, LabelsLieAtTheStocksPitch) {
  for (const LabelSize& size : on.sizes) {
    if (!takes_letters(size)) continue;
    // All labels alike, so that the same word must stand at the same place of each: the ID's first one on each side.
    const std::vector<Page> pages = full_sheet(size, true);
    for (int page = 1; page <= on.sides; ++page) {
      std::vector<Box> ids;
      for (const PrintedWord& word : words_of(pdf_of({pages[static_cast<std::size_t>(page) - 1]})))
        if (word.text == "W1" && word.box.bottom() < size.page_height_mm) ids.push_back(word.box);
      ASSERT_EQ(ids.size() % static_cast<std::size_t>(size.on_a_sheet()), 0u) << size.name;
      for (int n = 0; n < size.on_a_sheet(); ++n) {
        const Box face = face_of(size, n, page == 2);
        double highest = 1e9;
        double left = 0.0;
        for (const Box& id : ids)
          if (id.x > face.x && id.x < face.right() && id.y > face.y && id.bottom() < face.bottom() && id.y < highest) {
            highest = id.y;
            left = id.x;
          }
        const Box first_face = face_of(size, 0, page == 2);
        double first_highest = 1e9;
        for (const Box& id : ids)
          if (inside(id, first_face, 0.0)) first_highest = std::min(first_highest, id.y);
        EXPECT_NEAR(left, face.x + 0.5, 0.05) << size.name << " " << n;
        EXPECT_NEAR(highest - first_highest, face.y - first_face.y, 0.05) << size.name << " " << n;
      }
    }
  }
}

TEST_P(OnStock, CapitalsAreNeverUnderTheLeastOnTheWireAndTheIdIsTheLargest) {
  for (const LabelSize& size : on.sizes) {
    const double left = height_left(size, millimetres(wire_for(size)));
    for (const Page& page : full_sheet(size, false)) {
      double id_cap = 0.0;
      bool on_a_label = false;
      for (const DrawingItem& item : page.items) {
        if (std::holds_alternative<GroupBegin>(item)) on_a_label = true;
        if (std::holds_alternative<GroupEnd>(item)) on_a_label = false;
        const auto* run = std::get_if<TextRun>(&item);
        if (!run || !on_a_label) continue;
        EXPECT_GE(run->style.cap_mm * left, 2.0 - 1e-9) << size.name << " " << run->text;
        if (run->underlined) id_cap = run->style.cap_mm;
        EXPECT_LE(run->style.cap_mm, id_cap) << run->text;
      }
    }
  }
}

TEST_P(OnStock, SheetSaysWhatItIsOutsideTheLabels) {
  const LabelSheets sheets = sheets_of(pairs(3), on, {}, false);
  const LabelSize& size = *on.find(on.kind == LabelKind::sleeve ? (on.name == "sleeve-2to1" ? "4.8" : "6")
                                   : on.kind == LabelKind::wrap ? "3.7"
                                   : on.kind == LabelKind::flag ? "3"
                                                                : "13");
  const std::string said = said_on(sheets.pages);
  for (const char* part :
       {"Weather hut", "revision C", "2026-03-14", "sheet 1 of 1", "NOT CLEARED FOR POWER-UP", "50 mm"})
    EXPECT_THAT(said, HasSubstr(part));
  EXPECT_THAT(said, HasSubstr(on.title));
  EXPECT_THAT(said, HasSubstr("size " + size.name));
  for (const PrintedWord& word : words_of(pdf_of({sheets.pages.front()})))
    if (word.text == "NOT" || word.text == "Weather" || word.text == "sheet") {
      EXPECT_TRUE(word.box.bottom() < size.first_y_mm && word.box.y > 5.0) << word.text;
    }
}

INSTANTIATE_TEST_SUITE_P(Labels, OnStock,
                         testing::Combine(testing::Values("plain", "sleeve-2to1", "sleeve-3to1", "wrap", "flag"),
                                          testing::Values("a4", "letter")),
                         [](const auto& tested) {
                           std::string name = std::string(std::get<0>(tested.param)) + "_" + std::get<1>(tested.param);
                           std::replace(name.begin(), name.end(), '-', '_');
                           return name;
                         });

TEST(LabelSheets, IdThatIsTooLongIsNotPrintedAndSaidWithTheLengthThatWouldFit) {
  const LabelSheets sheets = sheets_of({wire_label("W" + std::string(40, '8'))}, label_stock("wrap"));
  EXPECT_THAT(underlined_in(sheets.pages), IsEmpty());
  ASSERT_EQ(sheets.could_not_fit.size(), 1u);
  int fit = 0;
  const std::size_t at = sheets.could_not_fit[0].find("the first ");
  ASSERT_NE(at, std::string::npos) << sheets.could_not_fit[0];
  ASSERT_EQ(std::sscanf(sheets.could_not_fit[0].c_str() + at, "the first %d characters would fit", &fit), 1);
  const auto goes = [](int length) {
    const auto sheet =
        sheets_of({wire_label("W" + std::string(static_cast<std::size_t>(length) - 1, '8'))}, label_stock("wrap"));
    return !underlined_in(sheet.pages).empty();
  };
  EXPECT_TRUE(goes(fit));
  EXPECT_FALSE(goes(fit + 1));
}

TEST(LabelSheets, WhatCannotFitIsLeftOutFromTheLeastWeighty) {
  Label crowded = wire_label("W1");
  crowded.fuse = "F1 5 A, F2 10 A, F3 15 A, F4 20 A, F5 30 A, F6 60 A, F7 80 A";
  const LabelSheets sheets = sheets_of({crowded}, label_stock("sleeve-2to1"));
  EXPECT_THAT(sheets.could_not_fit, ElementsAre("label W1 from: the size is left out, the fuse is left out"));
  EXPECT_THAT(said_on(sheets.pages), testing::AllOf(HasSubstr("LA2+"), HasSubstr("at F1.out")));
}

TEST(LabelSheets, IdStandsAThirdOfATurnApartOrLess) {
  LabelWishes wishes;
  wishes.size = "15";  // its face goes all round 6 mm, and half round 12 mm
  const auto times = [&](double mm) {
    return underlined_in(sheets_of({wire_label("W1", true, mm)}, label_stock("wrap"), wishes).pages).size();
  };
  EXPECT_EQ(times(6.0), 3u);
  EXPECT_EQ(times(12.0), 2u);
  const LabelSheets sleeve = sheets_of({wire_label("W1", true, 7.9)}, label_stock("sleeve-2to1"));
  ASSERT_EQ(sleeve.pages.size(), 2u);
  EXPECT_EQ(underlined_in({sleeve.pages[0]}).size(), 2u);  // of four
  EXPECT_EQ(underlined_in({sleeve.pages[1]}).size(), 2u);
}

TEST(LabelSheets, ArrowPointsToTheFarEndSoThatBothEndsReadTheSameWay) {
  const std::string said = said_on(sheets_of(pairs(1), label_stock("plain")).pages);
  EXPECT_THAT(said, HasSubstr("\xE2\x86\x92 LA2+"));    // at the from end, to the right
  EXPECT_THAT(said, HasSubstr("\xE2\x86\x90 F1.out"));  // at the to end, to the left
}

TEST(LabelSheets, LetteringIsBlackAlone) {
  for (const char* name : {"plain", "sleeve-2to1", "wrap", "flag"})
    for (const Page& page : sheets_of(pairs(3), label_stock(name)).pages)
      for (const DrawingItem& item : page.items) {
        if (const auto* run = std::get_if<TextRun>(&item)) {
          EXPECT_EQ(run->paint, Paint{}) << run->text;
        }
        if (const auto* shape = std::get_if<PathShape>(&item); shape && shape->stroke) {
          EXPECT_EQ(shape->stroke->paint, Paint{});
        }
      }
}

TEST(LabelSheets, FlagSaysTheSameOnBothSides) {
  const LabelStock flag = label_stock("flag");
  const std::vector<PrintedWord> words = words_of(pdf_of(sheets_of({wire_label("W1")}, flag).pages));
  std::vector<std::string> first, second;
  for (const PrintedWord& word : words) {
    if (inside(word.box, face_of(flag.sizes[0], 0), 0.4)) first.push_back(word.text);
    Box other = face_of(flag.sizes[0], 0);
    other.x = flag.sizes[0].first_x_mm + flag.sizes[0].second_x_mm;
    if (inside(word.box, other, 0.4)) second.push_back(word.text);
  }
  EXPECT_THAT(first, Contains("W1"));
  EXPECT_EQ(first, second);
}

TEST(LabelSheets, StripIsCutToGoOnceRoundItsWire) {
  const LabelSheets sheets = sheets_of({wire_label("W1", true, 2.5)}, label_stock("plain"));
  const auto is_strip = [](const DrawingItem& item) {
    const auto* shape = std::get_if<PathShape>(&item);
    if (!shape || shape->segments.size() < 4) return false;
    return std::fabs(shape->segments[2].to.y - shape->segments[0].to.y - 3.14159265 * 2.5) < 1e-6;
  };
  EXPECT_TRUE(std::any_of(sheets.pages[0].items.begin(), sheets.pages[0].items.end(), is_strip));
}

TEST(LabelSheets, RulerIsFiftyMillimetresLongOnEverySide) {
  const LabelSheets sheets = sheets_of(pairs(1), label_stock("sleeve-2to1"));
  for (const Page& page : sheets.pages)
    EXPECT_TRUE(std::any_of(page.items.begin(), page.items.end(), [](const DrawingItem& item) {
      const auto* shape = std::get_if<PathShape>(&item);
      return shape && shape->segments.size() == 2 && shape->segments[0].to.y == shape->segments[1].to.y &&
             std::abs(shape->segments[1].to.x - shape->segments[0].to.x - 50.0) < 1e-9;
    }));
}

TEST(LabelSheets, ClearedPlanBearsNoNotice) {
  EXPECT_THAT(said_on(sheets_of(pairs(1), label_stock("plain")).pages), Not(HasSubstr("CLEARED")));
}

TEST(LabelSheets, PlanWithoutWiresStillMakesASheet) {
  EXPECT_THAT(said_on(sheets_of({}, label_stock("plain")).pages), HasSubstr("nothing to label"));
}

TEST(LabelSheets, PanelLegendSaysWhatAThingIsInWordsOfAnArmsLength) {
  const LabelStock panel = label_stock("panel");
  const LabelSheets sheets = draw_label_sheets(texts_of({Legend{"S1", "Reading lamps and fan", "5 A", "WALL"}}), panel,
                                               {}, title_fields(), type());
  EXPECT_THAT(sheets.could_not_fit, IsEmpty());
  const std::string said = run_on_file(pdf_of(sheets.pages), "pdf", "pdftotext {} -").output;
  for (const char* word : {"S1", "Reading", "lamps", "and", "fan"}) EXPECT_THAT(said, HasSubstr(word));
  for (const DrawingItem& item : sheets.pages[0].items)
    if (const auto* run = std::get_if<TextRun>(&item); run && run->text.find("Reading") != std::string::npos) {
      EXPECT_GE(run->style.cap_mm, 3.5);
    }
}

TEST(LabelSheets, FuseBlockLegendSaysTheRatingAndWhatItFeeds) {
  FuseRow fuse;
  fuse.id = "F1";
  fuse.rating = "5 A";
  fuse.feeds = "Reading lamps";
  const LabelSheets sheets = draw_label_sheets(texts_of({fuse}), label_stock("fuse-block"), {}, title_fields(), type());
  EXPECT_THAT(sheets.could_not_fit, IsEmpty());
  std::string said;
  for (const DrawingItem& item : sheets.pages[0].items)
    if (const auto* run = std::get_if<TextRun>(&item)) said += run->text + "|";
  EXPECT_THAT(said, HasSubstr("F1|5 A|Reading lamps|"));
}

// Whether all black on the first label of a rasterised sheet lies on its printed face.
bool ink_stays_on(const std::string& pdf, const LabelSize& on, double margin) {
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
      if (static_cast<unsigned char>(image[at]) < 64 && !inside(dot, face, margin)) return false;
    }
  return true;
}

TEST(LabelSheets, HostileTextNeverLeavesItsFace) {
  std::string tower = "e";
  for (int i = 0; i < 300; ++i) tower += "\xCC\x81";
  const LabelStock on = label_stock("wrap");
  for (const std::string& nasty : {std::string(10000, 'W'), std::string("a\nb\x01\x7F\xFF"), tower,
                                   std::string("\xD7\xA9\xD7\x9C\xD7\x95\xD7\x9D\xE2\x80\xAE"
                                               "abc"),
                                   std::string(), std::string(500, ' '), std::string("\xE4\xB8\xAD\xE6\x96\x87")}) {
    Label hostile = wire_label(nasty);
    hostile.lands_at = hostile.far_end = hostile.fuse = hostile.size = nasty;
    const std::string pdf = pdf_of(sheets_of({hostile, wire_label("W1")}, on).pages);
    EXPECT_EQ(run_on_file(pdf, "pdf", "qpdf --check {}").status, 0);
    // Marks on a letter may reach above its line, but not off the label.
    EXPECT_TRUE(ink_stays_on(pdf, on.sizes[0], nasty == tower ? 0.0 : 0.4)) << nasty.substr(0, 20);
  }
}

TEST(LabelSheets, GlyphsThatCannotBePrintedAreSaid) {
  Label foreign = wire_label("W1");
  foreign.lands_at = "\xE4\xB8\xAD\xE6\x96\x87";
  EXPECT_THAT(sheets_of({foreign}, label_stock("plain")).could_not_fit, Contains(HasSubstr("cannot be printed")));
}

}  // namespace
}  // namespace loomleaf::test
