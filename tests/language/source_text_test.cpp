#include "loomleaf/language/source_text.h"

#include <gtest/gtest.h>

namespace loomleaf {
namespace {

TEST(SourceText, CountsLinesAndColumnsFromOne) {
  const SourceText source("a.loom", "fuse\nbus\n");
  EXPECT_EQ(source.start({0, 4}).line, 1);
  EXPECT_EQ(source.start({0, 4}).column, 1);
  EXPECT_EQ(source.start({6, 7}).line, 2);
  EXPECT_EQ(source.start({6, 7}).column, 2);
}

TEST(SourceText, CountsColumnsInCharacters) {
  const SourceText source("a.loom", "note \"\xC3\xA9t\xC3\xA9\" x");  // été: five bytes, three characters
  EXPECT_EQ(source.start({13, 14}).column, 12);
}

TEST(SourceText, CountsATabAsOneColumn) {
  const SourceText source("a.loom", "a\tb");
  EXPECT_EQ(source.start({2, 3}).column, 3);
}

TEST(SourceText, LeavesTheByteOrderMarkOut) {
  const SourceText source("a.loom", "\xEF\xBB\xBFplan");
  EXPECT_EQ(source.text(), "plan");
  EXPECT_EQ(source.start({0, 4}).column, 1);
}

TEST(SourceText, GivesLinesWithoutTheirEnd) {
  const SourceText source("a.loom", "one\r\ntwo\n\nfour");
  EXPECT_EQ(source.line_text(1), "one");
  EXPECT_EQ(source.line_text(2), "two");
  EXPECT_EQ(source.line_text(3), "");
  EXPECT_EQ(source.line_text(4), "four");
  EXPECT_EQ(source.line_text(5), "");
  EXPECT_EQ(source.line_text(0), "");
}

TEST(SourceText, AnswersPlacesBeyondItsEnd) {
  const SourceText source("a.loom", "one\ntwo");
  EXPECT_EQ(source.start({999, 1000}).line, 2);
  EXPECT_EQ(source.text({999, 1000}), "");
}

TEST(Span, JoinedHoldsBoth) { EXPECT_EQ(join({4, 6}, {1, 2}), (Span{1, 6})); }

}  // namespace
}  // namespace loomleaf
