// What a printer does to a sheet is measured, put down, and undone.
#include "loomleaf/sheets/printer.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "labels/support/label_maker.h"
#include "support/outside_tools.h"

namespace loomleaf::test {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;

TEST(Printer, MeasuresAreReadWithTheirComments) {
  const auto read = read_printer_measures(
      "printer.txt",
      "# the one in the shed\r\nacross 149.6 mm # first tray\n\ndown\t199.3  mm\nleft 30.8 mm\ntop 29.5 mm");
  EXPECT_THAT(read.errors, IsEmpty());
  EXPECT_EQ(read.value.across_mm, 149.6);
  EXPECT_EQ(read.value.down_mm, 199.3);
  EXPECT_EQ(read.value.left_mm, 30.8);
  EXPECT_EQ(read.value.top_mm, 29.5);
}

TEST(Printer, WhatIsLeftOutIsAsItIsMeantToBe) {
  const auto read = read_printer_measures("printer.txt", "left 31 mm\n");
  EXPECT_THAT(read.errors, IsEmpty());
  EXPECT_EQ(read.value.across_mm, 150.0);
  EXPECT_EQ(read.value.top_mm, 30.0);
}

struct BadLine {
  const char* text;
  int line;
  const char* says;
};

TEST(Printer, FaultsAreNamedWithTheirLines) {
  const BadLine bad[] = {{"across 149.6 mm\nacross 149.6 mm\n", 2, "earlier line"},
                         {"\n\nwide 3 mm\n", 3, "across, down, left or top"},
                         {"across 149.6\n", 1, "write `across 150 mm`"},
                         {"across 149,6 mm\n", 1, "point for decimals"},
                         {"across 149.6 cm\n", 1, "write `across 150 mm`"},
                         {"across nan mm\n", 1, "across"},
                         {"across 142.4 mm\n", 1, "between 142.5 and 157.5 mm"},
                         {"down 210.1 mm\n", 1, "between 190 and 210 mm"},
                         {"top 40.1 mm\n", 1, "between 20 and 40 mm"},
                         {"left 19.9 mm\n", 1, "between 20 and 40 mm"},
                         {"across\n", 1, "write `across 150 mm`"},
                         {"left 30 mm or so\n", 1, "write `left 30 mm`"}};
  for (const BadLine& one : bad) {
    const auto errors = read_printer_measures("printer.txt", one.text).errors;
    ASSERT_EQ(errors.size(), 1u) << one.text;
    EXPECT_EQ(errors[0].line, one.line) << one.text;
    EXPECT_EQ(errors[0].file, "printer.txt");
    EXPECT_THAT(errors[0].message, HasSubstr(one.says)) << one.text;
  }
}

TEST(Printer, LimitsThemselvesAreTaken) {
  EXPECT_THAT(read_printer_measures("p", "across 142.5 mm\ndown 210 mm\nleft 20 mm\ntop 40 mm\n").errors, IsEmpty());
}

TEST(Printer, EndlessRubbishIsComplainedOfAFewTimes) {
  std::string rubbish;
  for (int i = 0; i < 5000; ++i) rubbish += "\x01\xFF rubbish\n";
  EXPECT_LE(read_printer_measures("p", rubbish).errors.size(), 20u);
}

// The printer: what is meant for x comes out at 0.4 + 0.995 x, what is meant for y at -0.7 + 1.01 y.
Point printed(Point meant) { return {0.4 + 0.995 * meant.x, -0.7 + 1.01 * meant.y}; }

PrinterMeasures measured() { return {150.0 * 0.995, 200.0 * 1.01, printed({30.0, 30.0}).x, printed({30.0, 30.0}).y}; }

TEST(Printer, CorrectedSheetComesOutWhereItIsMeant) {
  const LabelStock wrap = label_stock("wrap");
  const std::vector<Page> meant = sheets_of(pairs(30), wrap).pages;
  std::vector<Page> corrected = meant;
  for (Page& page : corrected) correct_for_printer(page, measured());
  const std::vector<PrintedWord> want = words_of(pdf_of(meant)), words = words_of(pdf_of(corrected));
  ASSERT_EQ(words.size(), want.size());
  for (std::size_t i = 0; i < words.size(); ++i) {
    const Point upper_left = printed({words[i].box.x, words[i].box.y});
    const Point lower_right = printed({words[i].box.right(), words[i].box.bottom()});
    EXPECT_NEAR(upper_left.x, want[i].box.x, 0.05);
    EXPECT_NEAR(lower_right.x, want[i].box.right(), 0.05);
    // Letters are scaled by the width: the height may be off by the difference of the two scales, 1.5 per cent.
    EXPECT_NEAR((upper_left.y + lower_right.y) / 2.0, want[i].box.y + want[i].box.h / 2.0,
                0.05 + 0.015 * want[i].box.h);
  }
}

TEST(Printer, PerfectPrinterChangesNothing) {
  const std::vector<Page> meant = sheets_of(pairs(3), label_stock("plain")).pages;
  std::vector<Page> corrected = meant;
  for (Page& page : corrected) correct_for_printer(page, PrinterMeasures{});
  EXPECT_EQ(pdf_of(meant), pdf_of(corrected));
}

// Whether a page has a straight line between two points, each way round.
bool has_line(const Page& page, Point a, Point b) {
  for (const DrawingItem& item : page.items)
    if (const auto* shape = std::get_if<PathShape>(&item); shape && shape->segments.size() == 2) {
      const Point from = shape->segments[0].to, to = shape->segments[1].to;
      if ((from == a && to == b) || (from == b && to == a)) return true;
    }
  return false;
}

TEST(Printer, CalibrationSheetHasTheLinesItAsksOneToMeasure) {
  for (const char* paper : {"a4", "letter"}) {
    const auto format = load_sheet_format(installed_templates(), paper, Orientation::portrait);
    const Page page = draw_calibration_sheet(format.value);
    EXPECT_TRUE(has_line(page, {30.0, 30.0}, {180.0, 30.0}));
    EXPECT_TRUE(has_line(page, {30.0, 30.0}, {30.0, 230.0}));
    EXPECT_TRUE(has_line(page, {180.0, 26.0}, {180.0, 34.0}));  // the outer ticks
    EXPECT_TRUE(has_line(page, {26.0, 230.0}, {34.0, 230.0}));
    const std::string said = run_on_file(pdf_of({page}), "pdf", "pdftotext {} -").output;
    for (const char* word : {"across", "down", "left", "top", "printer.txt"}) EXPECT_THAT(said, HasSubstr(word));
  }
}

}  // namespace
}  // namespace loomleaf::test
