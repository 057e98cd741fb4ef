// The options of `print` that concern labels, as a user gives them.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <sstream>

#include "command/support/trial.h"

namespace loomleaf::testing {
namespace {

namespace fs = std::filesystem;
using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;

// `print` of an example's labels into a folder of its own.
struct PrintedLabels {
  PassingFolder folder;
  Said said;

  explicit PrintedLabels(std::vector<std::string> options, const std::string& plan = example("travelling-library.loom"))
      : said{ExitStatus::clean, "", ""} {
    options.insert(options.begin(), {"print", plan, "--only", "labels", "--out", folder.path().string()});
    said = loomleaf(options);
  }
  std::string text(const std::string& how = "") const {
    return run_tool("pdftotext " + how + " " + (folder.path() / "labels.pdf").string() + " -").out;
  }
  int pages() const {
    const std::string info = run_tool("pdfinfo " + (folder.path() / "labels.pdf").string()).out;
    return std::stoi(info.substr(info.find("Pages:") + 6));
  }
};

std::size_t count_of(const std::string& text, const std::string& word) {
  std::size_t count = 0;
  std::istringstream words(text);
  for (std::string next; words >> next;) count += next == word;
  return count;
}

TEST(PrintLabels, CountsOfEachSizeAreSaid) {
  const PrintedLabels printed({"--label-stock", "sleeve-2to1"});
  EXPECT_EQ(printed.said.status, ExitStatus::clean);
  EXPECT_THAT(printed.said.err, HasSubstr("labels, heat-shrink sleeve 2:1: "));
  EXPECT_THAT(printed.said.err, HasSubstr(" of size 9.5, on "));
}

TEST(PrintLabels, CopiesPrintEachLabelSoOften) {
  const PrintedLabels once({"--label-stock", "flag"}), thrice({"--label-stock", "flag", "--copies", "3"});
  EXPECT_EQ(3 * count_of(once.text(), "C13.red"), count_of(thrice.text(), "C13.red"));
  EXPECT_GT(count_of(once.text(), "C13.red"), 0u);
}

TEST(PrintLabels, PartUsedSheetsTakeTheirSize) {
  const PrintedLabels unclear({"--label-stock", "wrap", "--used", "6"});
  EXPECT_EQ(unclear.said.status, ExitStatus::not_understood);
  EXPECT_THAT(unclear.said.err, HasSubstr("--used 3.7=6"));
  EXPECT_FALSE(fs::exists(unclear.folder.path() / "labels.pdf"));
  EXPECT_EQ(PrintedLabels({"--label-stock", "wrap", "--used", "3.7=6,7.5=2"}).said.status, ExitStatus::clean);
  EXPECT_EQ(PrintedLabels({"--label-size", "13", "--used", "6"}).said.status, ExitStatus::clean);
}

TEST(PrintLabels, PlanMayStandBehindTheOptionsThatTakeLists) {
  const PassingFolder folder;
  EXPECT_EQ(loomleaf({"print", "--out", folder.path().string(), "--used", "6", "--label-size", "13", "--only", "labels",
                      example("first-lamp.loom")})
                .status,
            ExitStatus::clean);
  EXPECT_EQ(loomleaf({"print", "--out", folder.path().string(), "--label-size", "13", "--only", "labels", "--used", "6",
                      example("first-lamp.loom")})
                .status,
            ExitStatus::clean);
}

TEST(PrintLabels, UsedThatIsNoCountIsRefused) {
  for (const char* bad : {"six", "4.8=", "-1", "4.8=six", "1e3", "99999999999"}) {
    const PrintedLabels printed({"--used", bad});
    EXPECT_EQ(printed.said.status, ExitStatus::not_understood) << bad;
    EXPECT_THAT(printed.said.err, HasSubstr("--used 4.8=6")) << bad;
  }
}

TEST(PrintLabels, CopiesAndTerminalsBeyondSenseAreRefused) {
  EXPECT_EQ(PrintedLabels({"--copies", "0"}).said.status, ExitStatus::not_understood);
  EXPECT_EQ(PrintedLabels({"--copies", "21"}).said.status, ExitStatus::not_understood);
  EXPECT_EQ(PrintedLabels({"--over-terminal", "-1"}).said.status, ExitStatus::not_understood);
}

TEST(PrintLabels, SleeveOverATerminalIsWiderOrSaid) {
  const PrintedLabels before({"--label-stock", "sleeve-3to1"}),
      over({"--label-stock", "sleeve-3to1", "--over-terminal", "7"});
  EXPECT_THAT(before.said.err, HasSubstr("of size 6,"));
  EXPECT_THAT(over.said.err, Not(HasSubstr("of size 6,")));
  EXPECT_THAT(over.said.err, HasSubstr("a sleeve of 8.4 mm or more that shrinks to 2.5 mm or less would"));
}

TEST(PrintLabels, UnknownSizeNamesTheKnownOnes) {
  const PrintedLabels printed({"--label-stock", "flag", "--label-size", "4"});
  EXPECT_EQ(printed.said.status, ExitStatus::not_understood);
  EXPECT_THAT(printed.said.err, HasSubstr("flag has no size 4; it has: 3, 6, 12, 21"));
}

TEST(PrintLabels, LegendsForThePanelAndTheFuseBlock) {
  EXPECT_THAT(PrintedLabels({"--label-stock", "panel"}).text(), AllOf(HasSubstr("S0"), HasSubstr("Isolator")));
  EXPECT_THAT(PrintedLabels({"--label-stock", "fuse-block"}).text(), AllOf(HasSubstr("F0"), HasSubstr("60 A")));
  const PrintedLabels table({"--label-stock", "panel", "--as", "csv"});
  EXPECT_THAT(read_all(table.folder.path() / "legends.csv"), HasSubstr("S0,Isolator,100 A,LOCKER\r\n"));
}

TEST(PrintLabels, TableHasARowForEachEnd) {
  const PrintedLabels printed({"--label-stock", "sleeve-2to1", "--as", "csv"});
  const std::string csv = read_all(printed.folder.path() / "labels.csv");
  EXPECT_TRUE(
      csv.starts_with("id,end,kind,lands_at,far_end,fuse,size,place,part_of,circuit,diameter_mm,label_size\r\n"));
  EXPECT_THAT(csv, HasSubstr("W1,from,conductor,BAT+,F0.in,"));
  EXPECT_THAT(csv, HasSubstr("\r\nC13.red,to,conductor,FAN+,F3.out,F3 5 A,14 AWG RD,ROOF,C13,F3,3.4,4.8\r\n"));
  // 18 AWG goes on a 4.8 mm sleeve, since its letters need the height; 11 mm flat cable on none of these.
  EXPECT_THAT(csv, HasSubstr("18 AWG RD,ROOF,C3,F1,2.5,4.8\r\n"));
  EXPECT_THAT(csv, HasSubstr(",2x10 AWG,LOCKER,CS,FS,11,\r\n"));
  EXPECT_THAT(csv, HasSubstr("\r\nCS,from,sheath,SOL,\"FS, NB\","));
}

TEST(PrintLabels, EndThatASpreadsheetWouldCalculateIsDefused) {
  const PassingFolder folder;
  const auto plan = folder.write("own.loom",
                                 "system 12 V\nsource BAT 12.8 V\nfuse F1 5 A blade on BAT+\nload LA1 3 W\n"
                                 "wire W1 F1 to LA1+ 18 AWG red 1 m\nwire W2 LA1- to BAT- 18 AWG black 1 m\n");
  const PrintedLabels printed({"--as", "csv"}, plan.string());
  std::istringstream lines(read_all(printed.folder.path() / "labels.csv"));
  for (std::string line; std::getline(lines, line);) {
    std::string cell;
    for (std::istringstream cells(line); std::getline(cells, cell, ',');) {
      EXPECT_EQ(cell.find_first_of("=+-@"), cell.find_first_of("=+-@", 1)) << cell;
    }
  }
}

TEST(PrintLabels, OwnStockBesideThePlanIsTakenAndABadOneNamedByItsLine) {
  const PassingFolder folder;
  const auto plan = folder.write("own.loom", read_all(example("first-lamp.loom")));
  fs::create_directories(folder.path() / "templates" / "labels");
  const std::string good =
      "<label-stock format=\"1\" kind=\"strip\" title=\"my own paper\" least-capital=\"2\">\n<size name=\"one\">\n"
      "<label width=\"60\" height=\"12\"/>\n<face x=\"2\" y=\"1\" width=\"56\" height=\"10\"/>\n"
      "<layout papers=\"a4\" width=\"210\" height=\"297\" first-x=\"15\" first-y=\"20\" pitch-x=\"60\" pitch-y=\"12\" "
      "columns=\"3\" rows=\"20\"/>\n</size>\n</label-stock>\n";
  folder.write("templates/labels/mine.xml", good);
  const PrintedLabels printed({"--label-stock", "mine"}, plan.string());
  EXPECT_EQ(printed.said.status, ExitStatus::clean) << printed.said.err;
  EXPECT_THAT(printed.text(), HasSubstr("my own paper"));
  std::string bad = good;
  bad.replace(bad.find("width=\"56\""), 10, "width=\"66\"");
  folder.write("templates/labels/mine.xml", bad);
  const PrintedLabels refused({"--label-stock", "mine"}, plan.string());
  EXPECT_EQ(refused.said.status, ExitStatus::not_understood);
  EXPECT_THAT(refused.said.err, HasSubstr("mine.xml:4: the printed face reaches over the edge of the label"));
}

TEST(PrintLabels, PrintersMeasuresBesideThePlanMoveTheLabels) {
  const PassingFolder folder;
  const auto plan = folder.write("own.loom", read_all(example("first-lamp.loom")));
  const auto first_word = [](const std::string& bbox) {
    const std::size_t at = bbox.find("xMin=\"", bbox.find("<word")) + 6;
    return std::stod(bbox.substr(at));
  };
  const double meant = first_word(PrintedLabels({}, plan.string()).text("-bbox"));
  folder.write("printer.txt", "left 31 mm\n");
  const double moved = first_word(PrintedLabels({}, plan.string()).text("-bbox"));
  EXPECT_NEAR((meant - moved) * 25.4 / 72.0, 1.0, 0.05);
  const auto other = folder.write("other.txt", "left 29 mm\n");
  const double other_way = first_word(PrintedLabels({"--printer", other.string()}, plan.string()).text("-bbox"));
  EXPECT_NEAR((other_way - meant) * 25.4 / 72.0, 1.0, 0.05);
}

TEST(PrintLabels, BadMeasuresAreNamedByTheirLineAndNothingIsWritten) {
  const PassingFolder folder;
  const auto plan = folder.write("own.loom", read_all(example("first-lamp.loom")));
  folder.write("printer.txt", "# shed\nleft 3 cm\n");
  const PrintedLabels printed({}, plan.string());
  EXPECT_EQ(printed.said.status, ExitStatus::not_understood);
  EXPECT_THAT(printed.said.err, HasSubstr("printer.txt:2: write `left 30 mm`"));
  EXPECT_FALSE(fs::exists(printed.folder.path() / "labels.pdf"));
  const PrintedLabels missing({"--printer", (folder.path() / "none.txt").string()}, plan.string());
  EXPECT_EQ(missing.said.status, ExitStatus::file_trouble);
  EXPECT_THAT(missing.said.err, HasSubstr("none.txt"));
}

TEST(PrintLabels, CalibrationSheetIsMadeOnRequestAlone) {
  const PassingFolder all, asked;
  ASSERT_EQ(loomleaf({"print", example("first-lamp.loom"), "--out", all.path().string()}).status, ExitStatus::clean);
  EXPECT_FALSE(fs::exists(all.path() / "calibration.pdf"));
  ASSERT_EQ(loomleaf({"print", example("first-lamp.loom"), "--only", "calibration", "--paper", "letter", "--out",
                      asked.path().string()})
                .status,
            ExitStatus::clean);
  EXPECT_THAT(run_tool("pdfinfo " + (asked.path() / "calibration.pdf").string()).out, HasSubstr("612 x 792 pts"));
}

}  // namespace
}  // namespace loomleaf::testing
