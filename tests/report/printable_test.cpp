#include <gtest/gtest.h>

#include "loomleaf/report/report.h"

namespace loomleaf {
namespace {

const std::string mark = "\xEF\xBF\xBD";

TEST(Printable, LeavesTextAsItIs) { EXPECT_EQ(printable("Küche 2.5 mm² – „hell“ 灯"), "Küche 2.5 mm² – „hell“ 灯"); }

TEST(Printable, ReplacesEscapeSequences) {
  EXPECT_EQ(printable("\x1b[31mred\x1b[0m"), mark + "[31mred" + mark + "[0m");
}

TEST(Printable, ReplacesEveryControlCharacter) {
  for (int code = 0; code < 0x20; ++code) {
    const std::string text(1, static_cast<char>(code));
    EXPECT_EQ(printable(text), code == '\t' ? " " : mark) << code;
  }
  EXPECT_EQ(printable("\x7F"), mark);
  EXPECT_EQ(printable("\xC2\x9B"), mark);  // the one-byte escape of C1, as UTF-8
}

TEST(Printable, ReplacesWhatTurnsTheDirectionOfWriting) {
  EXPECT_EQ(printable("\xE2\x80\xAE"), mark);  // U+202E
  EXPECT_EQ(printable("\xE2\x81\xA6"), mark);  // U+2066
}

// Unicode 15, table 3-7: what is no well-formed UTF-8, byte by byte.
TEST(Printable, ReplacesEachByteThatIsNoUtf8) {
  EXPECT_EQ(printable("a\xFFz"), "a" + mark + "z");
  EXPECT_EQ(printable("\xC3"), mark);                                   // cut short
  EXPECT_EQ(printable("\xC0\x80"), mark + mark);                        // too long a form
  EXPECT_EQ(printable("\xE0\x80\x80"), mark + mark + mark);             // too long a form
  EXPECT_EQ(printable("\xED\xA0\x80"), mark + mark + mark);             // a surrogate
  EXPECT_EQ(printable("\xF4\x90\x80\x80"), mark + mark + mark + mark);  // beyond U+10FFFF
}

}  // namespace
}  // namespace loomleaf
