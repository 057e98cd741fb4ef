// Names of rulebooks and findings are the same in small letters and in capitals, wherever they are written.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>

#include "command/support/trial.h"

namespace loomleaf::testing {
namespace {

using ::testing::HasSubstr;

constexpr const char* plan_with = R"(plan "Lamp"
system 12 V rules )";
constexpr const char* lamp = R"(
source BAT 12 V 20 Ah max 10 A short-circuit 300 A
fuse F1 10 A blade on BAT+
load LMP 24 W constant-current
wire W2 F1 to LMP+ 14 AWG red 10 m
wire W3 LMP- to BAT- 14 AWG black 10 m
)";

TEST(NamesInAnyCase, ARulebookOnTheCommandLine) {
  const std::string plan = std::string(plan_with) + "marine" + lamp;
  const Said said = loomleaf({"check", "--rules", "RV", "-"}, plan);
  EXPECT_EQ(said.err, "");
  EXPECT_EQ(said.out, loomleaf({"check", "--rules", "rv", "-"}, plan).out);
}

TEST(NamesInAnyCase, ARulebookExplained) {
  EXPECT_EQ(loomleaf({"explain", "Marine"}).out, loomleaf({"explain", "marine"}).out);
  EXPECT_EQ(loomleaf({"explain", "Marine"}).status, ExitStatus::clean);
}

TEST(NamesInAnyCase, AFindingExplained) {
  EXPECT_EQ(loomleaf({"explain", "VOLTAGE-DROP"}).out, loomleaf({"explain", "voltage-drop"}).out);
  EXPECT_EQ(loomleaf({"explain", "Voltage-Drop"}).status, ExitStatus::clean);
  EXPECT_EQ(loomleaf({"explain", "Words"}).out, loomleaf({"explain", "words"}).out);
}

// A file that somebody named My-Book.xml, and a plan that writes it so.
TEST(NamesInAnyCase, ARulebookFileOfOnesOwn) {
  const PassingFolder folder;
  std::filesystem::create_directories(folder.path() / "templates" / "rulebooks");
  std::string book = read_all(LOOMLEAF_ROOT "/templates/rulebooks/rv.xml");
  const std::string drop = "<voltage_drop percent=\"3\"";
  book.replace(book.find(drop), drop.size(), "<voltage_drop percent=\"1.7\"");
  folder.write("templates/rulebooks/My-Book.xml", book);
  for (const char* name : {"My-Book", "my-book", "MY-BOOK"}) {
    const std::string plan = folder.write("van.loom", std::string(plan_with) + name + lamp).string();
    const Said said = loomleaf({"check", plan});
    EXPECT_EQ(said.err, "") << name;
    EXPECT_THAT(said.out, HasSubstr("may lose at most 1.7 %")) << name;
    EXPECT_THAT(loomleaf({"explain", name, plan}).out, HasSubstr("1.7 % at most")) << name;
    EXPECT_THAT(loomleaf({"check", "--rules", name, plan}).out, HasSubstr("may lose at most 1.7 %")) << name;
  }
}

}  // namespace
}  // namespace loomleaf::testing
