#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <chrono>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

#include "diagram/support/drawn.h"
#include "diagram/support/generated_plan.h"
#include "loomleaf/render/render.h"
#include "support/template_folder.h"

namespace loomleaf::test {
namespace {

using ::testing::IsEmpty;

std::string pdf_of(const Drawn& drawn) {
  Drawing drawing;
  drawing.pages = drawn.sheets.pages;
  drawing.outline = drawn.sheets.outline;
  return to_pdf(drawing, type());
}

class EveryExample : public ::testing::TestWithParam<std::string> {};

TEST_P(EveryExample, IsDrawnWithoutAFault) { EXPECT_THAT(faults(draw(read_text(GetParam()))), IsEmpty()); }

INSTANTIATE_TEST_SUITE_P(Diagram, EveryExample, ::testing::ValuesIn(example_files()), [](const auto& test) {
  std::string name = std::filesystem::path(test.param).stem().string();
  for (char& c : name)
    if (c == '-') c = '_';
  return name;
});

TEST(Diagram, HoldsOnEveryPaper) {
  const std::string text = read_text(std::string(LOOMLEAF_ROOT) + "/examples/travelling-library.loom");
  for (const char* paper : {"a4", "letter", "a3", "tabloid"})
    for (const Orientation orientation : {Orientation::landscape, Orientation::portrait}) {
      SCOPED_TRACE(std::string(paper) + (orientation == Orientation::portrait ? " portrait" : ""));
      EXPECT_THAT(faults(draw(text, paper, orientation)), IsEmpty());
    }
}

TEST(Diagram, HoldsGeneratedPlansOfAllShapes) {
  for (unsigned seed = 1; seed <= 12; ++seed) {
    SCOPED_TRACE(seed);
    EXPECT_THAT(faults(draw(joined(generated_plan(seed, 10)))), IsEmpty());
  }
}

TEST(Diagram, HoldsWhateverIsWiredToWhatever) {
  for (unsigned seed = 1; seed <= 20; ++seed) {
    SCOPED_TRACE(seed);
    EXPECT_THAT(faults(draw(joined(tangle(seed, 10 + static_cast<int>(seed) * 4)))), IsEmpty());
  }
}

TEST(Diagram, DrawsTheSameBytesWhateverTheOrderOfStatements) {
  const auto statements = generated_plan(3, 12);
  const std::string first = pdf_of(draw(joined(statements)));
  for (unsigned seed = 1; seed <= 4; ++seed) EXPECT_TRUE(pdf_of(draw(shuffled(statements, seed))) == first) << seed;
}

TEST(Diagram, PutsASmallPlanOnOneSheet) {
  const Drawn drawn = draw(read_text(std::string(LOOMLEAF_ROOT) + "/examples/first-lamp.loom"));
  EXPECT_EQ(drawn.sheets.pages.size(), 1u);
}

TEST(Diagram, DrawsAPlanOfNothing) {
  EXPECT_THAT(faults(draw("plan \"Nothing yet\"\nsystem 12 V\nsplice SP1\n")), IsEmpty());
}

TEST(Diagram, DrawsALoadThatNothingJoins) {
  EXPECT_THAT(faults(draw("system 12 V\nload LA1 \"Lamp\" 5 W\n")), IsEmpty());
}

TEST(Diagram, BreaksAChainTooLongForTheSheet) {
  std::vector<std::string> lines{"system 12 V", "source BAT 12 V 100 Ah short-circuit 1 kA", "fuse F1 10 A blade",
                                 "wire W1 BAT+ to F1 14 AWG red 1 m", "load LA101..LA140 \"Lamp\" 1 W"};
  std::string chain = "cable C101..C140 F1, BAT- ";
  for (int i = 101; i <= 140; ++i) chain += "to LA" + std::to_string(i) + " ";
  lines.push_back(chain + "2x14 AWG 1 m cores red, black");
  EXPECT_THAT(faults(draw(joined(lines))), IsEmpty());
}

TEST(Diagram, SplitsABusWithAHundredBranches) {
  std::vector<std::string> lines{"system 12 V",
                                 "source BAT 12 V 100 Ah short-circuit 1 kA",
                                 "bus PB, NB 200 A",
                                 "fuse F0 100 A class-t",
                                 "wire M1 BAT+ to F0 2 AWG red 1 m",
                                 "wire M2 F0 to PB 2 AWG red 1 m",
                                 "wire M3 NB to BAT- 2 AWG black 1 m"};
  for (int i = 1; i <= 100; ++i) {
    lines.push_back("load L" + std::to_string(i) + " \"Lamp\" 1 W");
    lines.push_back("cable C" + std::to_string(i) + " PB, NB to L" + std::to_string(i) +
                    " 2x14 AWG 1 m cores red, black");
  }
  EXPECT_THAT(faults(draw(joined(lines))), IsEmpty());
}

TEST(Diagram, DrawsFourHundredConductorsSoon) {
  const auto statements = generated_plan(7, 75);
  const auto start = std::chrono::steady_clock::now();
  const Drawn drawn = draw(joined(statements));
  const double seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
  EXPECT_GE(drawn.seen.plan.conductors.size(), 400u);
  EXPECT_LT(seconds, 120.0);  // with sanitizers on a slow machine; a release build takes a second or two
  EXPECT_THAT(faults(drawn), IsEmpty());
}

// What stands on the sheet is what the reader of the PDF finds.
TEST(Diagram, PrintsEveryIdAsText) {
  const Drawn drawn = draw(read_text(std::string(LOOMLEAF_ROOT) + "/examples/travelling-library.loom"));
  const TemplateFolder folder;
  const std::string pdf = (folder.path() / "diagram.pdf").string(),
                    text_file = (folder.path() / "diagram.txt").string();
  std::ofstream(pdf, std::ios::binary) << pdf_of(drawn);
  if (std::system(("pdftotext '" + pdf + "' '" + text_file + "' 2>/dev/null").c_str()) != 0)
    GTEST_SKIP() << "no pdftotext here";
  std::istringstream words(read_text(text_file));
  std::set<std::string> found;
  for (std::string word; words >> word;) found.insert(word);
  for (const auto& run : drawn.seen.plan.runs) EXPECT_EQ(found.count(run.id), 1u) << run.id;
  for (const Item& item : drawn.seen.plan.items) EXPECT_EQ(found.count(item.id), 1u) << item.id;
}

}  // namespace
}  // namespace loomleaf::test
