#include "loomleaf/language/complaint.h"

#include <gtest/gtest.h>

#include <string>

#include "loomleaf/language/statement.h"

namespace loomleaf {
namespace {

TEST(Complaint, ShowsPlaceLineUnderlineAndMend) {
  const SourceText source("hut.loom", "system 12 V\nfuse F1 5\n");
  const Complaint complaint{{20, 21}, "5 what?", "5 A", {}};
  EXPECT_EQ(to_text(complaint, source),
            "hut.loom:2:9: 5 what?\n"
            "fuse F1 5\n"
            "        ^\n"
            "write: 5 A\n");
}

TEST(Complaint, ShowsTheSecondPlace) {
  const SourceText source("hut.loom", "fuse F1 5 A\nfuse F1 7 A\n");
  Complaint complaint{{17, 19}, "`F1` is declared twice", "", {}};
  complaint.also = Complaint::Also{{5, 7}, "first declared here"};
  EXPECT_EQ(to_text(complaint, source),
            "hut.loom:2:6: `F1` is declared twice\n"
            "fuse F1 7 A\n"
            "     ^~\n"
            "hut.loom:1:6: first declared here\n"
            "fuse F1 5 A\n"
            "     ^~\n");
}

TEST(Complaint, UnderlinesCharactersNotBytes) {
  const SourceText source("hut.loom", "load LA1 \"\xC3\xA9t\xC3\xA9\" 3");
  const Complaint complaint{{17, 18}, "3 what?", "", {}};
  EXPECT_NE(to_text(complaint, source).find("\n               ^\n"), std::string::npos);
}

TEST(Complaint, UnderlinesTheFirstLineOfSeveral) {
  const SourceText source("hut.loom", "wire W1 A\n  to B\n");
  EXPECT_EQ(to_text({{5, 15}, "x", "", {}}, source), "hut.loom:1:6: x\nwire W1 A\n     ^~~~\n");
}

TEST(Complaint, ShowsATabAsASpace) {
  const SourceText source("hut.loom", "fuse\tF1\t5");
  EXPECT_EQ(to_text({{8, 9}, "x", "", {}}, source), "hut.loom:1:9: x\nfuse F1 5\n        ^\n");
}

TEST(Complaint, NeverPrintsControlCharactersAsThemselves) {
  const SourceText source("h\x1b[31m.loom", "fuse \x1b[2J\x07\xff");
  const std::string text = to_text({{5, 6}, "odd \x1b[1m", "\x07", {}}, source);
  EXPECT_EQ(text.find('\x1b'), std::string::npos);
  EXPECT_EQ(text.find('\x07'), std::string::npos);
  EXPECT_EQ(text.find('\xff'), std::string::npos);
}

TEST(Complaint, CutsALongLineToWhatSurroundsTheSpan) {
  const SourceText source("hut.loom", std::string(4000, 'a') + "HERE" + std::string(4000, 'b'));
  const std::string text = to_text({{4000, 4004}, "x", "", {}}, source);
  EXPECT_LT(text.size(), 400u);
  EXPECT_NE(text.find("aHEREb"), std::string::npos);
  const std::size_t line = text.find('\n') + 1, mark = text.find('\n', line) + 1;
  EXPECT_EQ(text.find("HERE") - line, text.find('^') - mark);
}

TEST(Complaint, SortsByPlaceAndKeepsTheFirstOfOnePlace) {
  std::vector<Complaint> complaints{{{9, 10}, "late", "", {}}, {{2, 5}, "first", "", {}}, {{2, 3}, "second", "", {}}};
  sort_by_place(complaints);
  ASSERT_EQ(complaints.size(), 2u);
  EXPECT_EQ(complaints[0].message, "first");
  EXPECT_EQ(complaints[1].message, "late");
}

TEST(Nearest, FindsASlipOfEachKind) {
  const std::vector<std::string> known{"switch", "splice", "source", "load"};
  EXPECT_EQ(nearest("swich", known), "switch");    // left out
  EXPECT_EQ(nearest("swwitch", known), "switch");  // doubled
  EXPECT_EQ(nearest("spline", known), "splice");   // another letter
  EXPECT_EQ(nearest("saurce", known), "source");
  EXPECT_EQ(nearest("laod", known), "load");  // swapped
  EXPECT_EQ(nearest("SWICH", known), "switch");
}

TEST(Nearest, OffersNothingFarOff) {
  EXPECT_EQ(nearest("umbrella", {"switch", "load"}), std::nullopt);
  EXPECT_EQ(nearest("x", {"y"}), std::nullopt);
  EXPECT_EQ(nearest(std::string(100'000, 'a'), {"switch"}), std::nullopt);
}

}  // namespace
}  // namespace loomleaf
