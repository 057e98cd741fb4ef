#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <pugixml.hpp>
#include <set>
#include <sstream>

#include "diagram/support/drawn.h"
#include "diagram/support/generated_plan.h"
#include "loomleaf/render/render.h"
#include "support/template_folder.h"

namespace loomleaf::test {
namespace {

using ::testing::IsEmpty;

constexpr const char* kPapers[] = {"a4", "letter", "a3", "tabloid"};

class EveryExample : public ::testing::TestWithParam<std::string> {};

TEST_P(EveryExample, IsDrawnWithoutAFaultOnEveryPaper) {
  const auto seen = std::make_shared<const Examination>(examine_text(read_text(GetParam())));
  for (const char* paper : kPapers)
    for (const Orientation orientation : {Orientation::landscape, Orientation::portrait}) {
      SCOPED_TRACE(std::string(paper) + (orientation == Orientation::portrait ? " portrait" : ""));
      EXPECT_THAT(faults(draw(seen, paper, orientation)), IsEmpty());
    }
}

INSTANTIATE_TEST_SUITE_P(Diagram, EveryExample, ::testing::ValuesIn(example_files()), [](const auto& test) {
  std::string name = std::filesystem::path(test.param).stem().string();
  for (char& c : name)
    if (c == '-') c = '_';
  return name;
});

// 300 made-up plans of 3 to 400 conductors, every fifth without sense: ten a test, so that they run side by side.
class GeneratedPlans : public ::testing::TestWithParam<unsigned> {};

std::string made_up_plan(unsigned seed) {
  if (seed % 5 == 0) return joined(tangle(seed, 3 + static_cast<int>(seed * 37 % 120)));
  return joined(generated_plan(seed, seed % 30 == 1 ? 75 : static_cast<int>(seed * seed % 19)));
}

TEST_P(GeneratedPlans, AreDrawnWithoutAFaultOnEveryPaper) {
  for (unsigned seed = GetParam() * 10 + 1; seed <= GetParam() * 10 + 10; ++seed) {
    const auto seen = std::make_shared<const Examination>(examine_text(made_up_plan(seed)));
    for (const char* paper : kPapers) {
      SCOPED_TRACE(std::string(paper) + ", seed " + std::to_string(seed));
      EXPECT_THAT(faults(draw(seen, paper, seed % 3 == 0 ? Orientation::portrait : Orientation::landscape)), IsEmpty());
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Diagram, GeneratedPlans, ::testing::Range(0u, 30u));

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

// Its symbol shows the ways, and does not show that all of them can be closed.
TEST(Diagram, SaysThatASelectorCanJoinItsWays) {
  const auto says_both = [](const std::string& kind) {
    const Drawn drawn = draw("system 12 V\nswitch SEL \"Selector\" 2 ways " + kind + " 300 A\n");
    const auto& texts = drawn.sheets.placement.at(0).texts;
    return std::ranges::any_of(texts, [](const PlacedText& text) { return text.text.ends_with("300 A both"); });
  };
  EXPECT_TRUE(says_both("both"));
  EXPECT_FALSE(says_both(""));
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
  for (const auto& run : drawn.seen().plan.runs) EXPECT_EQ(found.count(run.id), 1u) << run.id;
  for (const Item& item : drawn.seen().plan.items) EXPECT_EQ(found.count(item.id), 1u) << item.id;
}

TEST(Diagram, MakesEachWireAndItemAnSvgElementWithATitle) {
  const Drawn drawn = draw(read_text(std::string(LOOMLEAF_ROOT) + "/examples/weather-hut.loom"));
  Drawing drawing;
  drawing.pages = drawn.sheets.pages;
  std::map<std::string, std::string> titles;
  for (const Page& page : drawing.pages) {
    pugi::xml_document document;
    ASSERT_TRUE(document.load_string(to_svg(page, drawing, type()).c_str()));
    for (const pugi::xpath_node& group : document.select_nodes("//*[local-name()='g'][@id]"))
      titles[group.node().attribute("id").value()] = group.node().child_value("title");
  }
  for (const Conductor& conductor : drawn.seen().plan.conductors)
    EXPECT_EQ(titles[conductor.id].rfind(conductor.id + ", ", 0), 0u) << conductor.id;
  for (const Item& item : drawn.seen().plan.items) EXPECT_EQ(titles[item.id].rfind(item.id, 0), 0u) << item.id;
}

}  // namespace
}  // namespace loomleaf::test
