#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/resource.h>
#include <unistd.h>

#include <csignal>
#include <nlohmann/json.hpp>
#include <regex>
#include <sstream>

#include "command/support/trial.h"
#include "loomleaf/command/files.h"

namespace loomleaf::testing {
namespace {

namespace fs = std::filesystem;
using ::testing::AnyOf;
using ::testing::HasSubstr;
using ::testing::Not;

std::size_t times_in(const std::string& text, const std::string& word) {
  std::size_t count = 0;
  std::istringstream words(text);
  for (std::string next; words >> next;) count += next == word;
  return count;
}

std::vector<std::string> conductor_ids(const std::string& plan) {
  const auto report = nlohmann::json::parse(loomleaf({"check", "--json", plan}).out);
  std::vector<std::string> ids;
  for (const auto& conductor : report["conductors"]) ids.push_back(conductor["id"]);
  return ids;
}

std::string run_id(const std::string& conductor) { return conductor.substr(0, conductor.find('.')); }

class PrintedExample : public ::testing::TestWithParam<std::tuple<const char*, const char*>> {
 protected:
  void SetUp() override {
    const auto& [plan, paper] = GetParam();
    const Said said = loomleaf({"print", example(plan), "--paper", paper, "--out", folder_.path().string()});
    ASSERT_EQ(said.status, ExitStatus::clean) << said.err;
  }
  std::string pdf(const std::string& name) const { return (folder_.path() / name).string(); }
  PassingFolder folder_;
};

TEST_P(PrintedExample, PassesQpdfsCheck) {
  for (const char* name : {"diagram.pdf", "labels.pdf"}) {
    const ToolResult result = run_tool("qpdf --check " + pdf(name) + " 2>&1");
    EXPECT_EQ(result.status, 0) << result.out;
    EXPECT_THAT(result.out, Not(HasSubstr("WARNING")));
  }
}

TEST_P(PrintedExample, EmbedsEveryFont) {
  for (const char* name : {"diagram.pdf", "labels.pdf"}) {
    std::istringstream lines(run_tool("pdffonts " + pdf(name)).out);
    std::string line;
    std::getline(lines, line);
    std::getline(lines, line);
    int fonts = 0;
    while (std::getline(lines, line)) {
      ++fonts;
      EXPECT_TRUE(std::regex_search(line, std::regex(R"(\syes\s+yes\s+(yes|no)\s+\d+\s+\d+\s*$)"))) << line;
    }
    EXPECT_GT(fonts, 0);
  }
}

TEST_P(PrintedExample, ShowsEveryWireOnTheDiagram) {
  const std::string text = run_tool("pdftotext -raw " + pdf("diagram.pdf") + " -").out;
  for (const std::string& id : conductor_ids(example(std::get<0>(GetParam())))) {
    EXPECT_GE(times_in(text, run_id(id)), 1u) << id;
  }
}

TEST_P(PrintedExample, LabelsEveryWireAtBothEnds) {
  const std::string text = run_tool("pdftotext -raw " + pdf("labels.pdf") + " -").out;
  for (const std::string& id : conductor_ids(example(std::get<0>(GetParam())))) {
    EXPECT_GE(times_in(text, run_id(id)), 2u) << id;
  }
}

TEST_P(PrintedExample, HasThePapersSize) {
  const std::string info = run_tool("pdfinfo " + pdf("diagram.pdf")).out;
  const bool letter = std::string(std::get<1>(GetParam())) == "letter";
  // landscape or portrait, whichever takes fewer sheets
  EXPECT_THAT(info, AnyOf(HasSubstr(letter ? "792 x 612 pts" : "841.89 x 595.276 pts"),
                          HasSubstr(letter ? "612 x 792 pts" : "595.276 x 841.89 pts")));
}

TEST_P(PrintedExample, IsTheSameBytesTwice) {
  const PassingFolder again;
  const auto& [plan, paper] = GetParam();
  ASSERT_EQ(loomleaf({"print", example(plan), "--paper", paper, "--out", again.path().string()}).status,
            ExitStatus::clean);
  for (const char* name : {"diagram.pdf", "labels.pdf"}) {
    EXPECT_EQ(read_all(folder_.path() / name), read_all(again.path() / name)) << name;
  }
}

INSTANTIATE_TEST_SUITE_P(All, PrintedExample,
                         ::testing::Combine(::testing::Values("first-lamp.loom", "travelling-library.loom",
                                                              "net-menders-boat.loom", "weather-hut.loom"),
                                            ::testing::Values("a4", "letter")));

TEST(Print, PutsThePapersBesideThePlan) {
  const PassingFolder folder;
  const auto plan = folder.write("van.loom", read_all(example("first-lamp.loom")));
  ASSERT_EQ(loomleaf({"print", plan.string()}).status, ExitStatus::clean);
  EXPECT_TRUE(fs::exists(folder.path() / "van-papers" / "diagram.pdf"));
}

TEST(Print, MakesOnlyWhatIsAskedFor) {
  const PassingFolder folder;
  ASSERT_EQ(loomleaf({"print", example("first-lamp.loom"), "--only", "labels", "--out", folder.path().string()}).status,
            ExitStatus::clean);
  EXPECT_TRUE(fs::exists(folder.path() / "labels.pdf"));
  EXPECT_FALSE(fs::exists(folder.path() / "diagram.pdf"));
}

TEST(Print, NamesTheSheetsThereAre) {
  const Said said = loomleaf({"print", example("first-lamp.loom"), "--only", "poster"});
  EXPECT_EQ(said.status, ExitStatus::not_understood);
  EXPECT_THAT(said.err, HasSubstr("diagram, labels"));
}

TEST(Print, SaysWhichFormsASheetComesIn) {
  const Said said = loomleaf({"print", example("first-lamp.loom"), "--only", "diagram", "--as", "csv"});
  EXPECT_EQ(said.status, ExitStatus::not_understood);
  EXPECT_THAT(said.err, HasSubstr("pdf"));
}

// The width stands in the IHDR chunk, from byte 16 (ISO/IEC 15948).
TEST(Print, MakesAPngOfTheResolutionAskedFor) {
  const PassingFolder folder;
  ASSERT_EQ(loomleaf({"print", example("first-lamp.loom"), "--only", "diagram", "--as", "png", "--dpi", "100", "--out",
                      folder.path().string()})
                .status,
            ExitStatus::clean);
  const std::string png = read_all(folder.path() / "diagram-1.png");
  ASSERT_GT(png.size(), 24u);
  const int width = static_cast<unsigned char>(png[18]) * 256 + static_cast<unsigned char>(png[19]);
  EXPECT_EQ(width, 1170);  // 297 mm at 100 dots an inch, rounded up
}

TEST(Print, RefusesAResolutionThatNoPrinterHas) {
  EXPECT_EQ(loomleaf({"print", example("first-lamp.loom"), "--as", "png", "--dpi", "5"}).status,
            ExitStatus::not_understood);
}

TEST(Print, MakesSvgPngJsonAndCsv) {
  const PassingFolder folder;
  for (const char* form : {"svg", "png", "json", "csv"}) {
    EXPECT_EQ(loomleaf({"print", example("first-lamp.loom"), "--as", form, "--out", folder.path().string()}).status,
              ExitStatus::clean)
        << form;
  }
  for (const char* name : {"diagram-1.svg", "diagram-1.png", "diagram.json", "labels.csv"}) {
    EXPECT_TRUE(fs::exists(folder.path() / name)) << name;
  }
  const auto placement = nlohmann::json::parse(read_all(folder.path() / "diagram.json"));
  EXPECT_EQ(placement["format"], "loomleaf-placement/1");
}

TEST(Print, LeavesWithOneAtStopAtButStillPrints) {
  const PassingFolder folder;
  const auto plan = folder.write("bad.loom",
                                 "system 12 V\nsource BAT 12.8 V 100 Ah\nload LA1 10 W\n"
                                 "wire W1 BAT+ to LA1+ 18 AWG red 3 m\nwire W2 LA1- to BAT- 18 AWG black 3 m\n");
  EXPECT_EQ(loomleaf({"print", plan.string()}).status, ExitStatus::clean);
  EXPECT_EQ(loomleaf({"print", "--stop-at", "danger", plan.string()}).status, ExitStatus::findings);
  const std::string diagram = (folder.path() / "bad-papers" / "diagram.pdf").string();
  EXPECT_THAT(run_tool("pdftotext " + diagram + " -").out, HasSubstr("NOT CLEARED FOR POWER-UP"));
}

TEST(Print, LeavesTheOldPapersWholeWhereItCannotWrite) {
  // A file where the folder should be: nothing can be written there, whoever runs the test.
  const PassingFolder folder;
  const auto in_the_way = folder.write("papers", "not a folder\n");
  const Said said = loomleaf({"print", example("first-lamp.loom"), "--out", in_the_way.string()});
  EXPECT_EQ(said.status, ExitStatus::file_trouble);
  EXPECT_EQ(read_all(in_the_way), "not a folder\n");
}

TEST(WriteFiles, LeavesOldFilesWholeWhenThePlaceIsFullHalfWay) {
  const PassingFolder folder;
  const auto small = folder.write("a.pdf", "old a");
  const auto large = folder.write("b.pdf", "old b");
  // A limit on the size of a file stands for a full disk: the write fails in the middle.
  rlimit before{};
  ASSERT_EQ(::getrlimit(RLIMIT_FSIZE, &before), 0);
  auto* old_handler = std::signal(SIGXFSZ, SIG_IGN);
  rlimit tight = before;
  tight.rlim_cur = 1000;
  ASSERT_EQ(::setrlimit(RLIMIT_FSIZE, &tight), 0);
  const auto trouble = write_files(folder.path(), {{small, "new a"}, {large, std::string(5000, 'x')}});
  ::setrlimit(RLIMIT_FSIZE, &before);
  std::signal(SIGXFSZ, old_handler);

  ASSERT_TRUE(trouble);
  EXPECT_THAT(*trouble, HasSubstr("b.pdf"));
  EXPECT_EQ(read_all(small), "old a");
  EXPECT_EQ(read_all(large), "old b");
  EXPECT_EQ(std::distance(fs::directory_iterator(folder.path()), fs::directory_iterator{}), 2) << "left-overs";
}

}  // namespace
}  // namespace loomleaf::testing
