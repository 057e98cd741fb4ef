// The project's fonts as measured, held against the tables of the font files themselves (OpenType: head, hhea, OS/2),
// which the tests read on their own.
#include "loomleaf/type/text_measure.h"

#include <gtest/gtest.h>

#include <cstdint>
#include <fstream>
#include <iterator>

#include "loomleaf/type/drawable_text.h"
#include "loomleaf/type/wrap.h"
#include "support/template_folder.h"

namespace loomleaf {
namespace {

const TextMeasure& type() {
  static const TextMeasure measure(LOOMLEAF_ROOT "/fonts");
  return measure;
}

// Big-endian numbers of a font file's tables.
class FontFile {
 public:
  explicit FontFile(const std::string& name) {
    std::ifstream in(std::string(LOOMLEAF_ROOT "/fonts/") + name, std::ios::binary);
    bytes_.assign(std::istreambuf_iterator<char>(in), {});
  }
  double per_em(const char* table, std::size_t offset) const {
    return static_cast<double>(static_cast<std::int16_t>(u16(start(table) + offset))) / u16(start("head") + 18);
  }
  double cap_height_em() const { return per_em("OS/2", 88); }
  double ascent_em() const { return per_em("hhea", 4); }
  double descent_em() const { return -per_em("hhea", 6); }

 private:
  std::uint16_t u16(std::size_t at) const {
    return static_cast<std::uint16_t>(static_cast<unsigned char>(bytes_[at]) << 8 |
                                      static_cast<unsigned char>(bytes_[at + 1]));
  }
  std::size_t start(std::string_view table) const {
    for (std::size_t i = 0; i < u16(4); ++i)
      if (bytes_.compare(12 + 16 * i, 4, table) == 0)
        return std::size_t{u16(12 + 16 * i + 8)} << 16 | u16(12 + 16 * i + 10);
    throw std::runtime_error("no such table");
  }
  std::string bytes_;
};

constexpr TextStyle kPlain{2.0, false}, kBold{2.0, true};

TEST(TextMeasure, WidthsScaleWithTheHeightOfCapitals) {
  const double small = type().width("Reading lamps W12 -> F1", {2.0, false});
  EXPECT_GT(small, 20.0);
  EXPECT_NEAR(type().width("Reading lamps W12 -> F1", {20.0, false}) / small, 10.0, 1e-6);
}

TEST(TextMeasure, DigitsAreOfOneWidthSoThatFiguresAlign) {
  for (const TextStyle style : {kPlain, kBold})
    for (const char* digit : {"1", "4", "8"}) EXPECT_NEAR(type().width(digit, style), type().width("0", style), 1e-6);
}

TEST(TextMeasure, TwoMillimetreCapitalsTakeTheSizeThatTheFontFileAsksFor) {
  // The files name a round 0.75 em; the strokes of H themselves are up to 2 % higher.
  for (const auto& [style, file] : {std::pair{kPlain, "B612-Regular.otf"}, std::pair{kBold, "B612-Bold.otf"}}) {
    const double asked_for = 2.0 * 72.0 / 25.4 / FontFile(file).cap_height_em();
    EXPECT_NEAR(type().font_size_pt(style), asked_for, 0.02 * asked_for);
  }
}

TEST(TextMeasure, LineReachesAsFarAsTheFontFileSays) {
  const FontFile file("B612-Regular.otf");
  const double em = type().font_size_pt(kPlain) * 25.4 / 72.0;
  EXPECT_NEAR(type().ascent(kPlain), file.ascent_em() * em, 0.01);
  EXPECT_NEAR(type().descent(kPlain), file.descent_em() * em, 0.01);
}

TEST(TextMeasure, GlyphsThatNoFontOfOursHasAreCounted) {
  EXPECT_EQ(type().missing_glyphs("Plain text, 5 A, 0.3 \xCE\xA9, 2.5 mm\xC2\xB2", kPlain), 0);
  EXPECT_EQ(type().missing_glyphs("\xD0\x9A\xD0\xB8\xD1\x80 \xC5\x81\xC3\xB3\xC5\xBA", kPlain),
            0);  // by the second font
  EXPECT_EQ(type().missing_glyphs("\xE4\xB8\xAD\xE6\x96\x87", kPlain), 2);
}

TEST(TextMeasure, FontFolderWithoutTheFilesIsRefused) { EXPECT_THROW(TextMeasure("/nowhere"), std::runtime_error); }

TEST(TextMeasure, FileThatIsNoFontIsRefusedByName) {
  const TemplateFolder folder;
  folder.write(".", "B612-Regular.otf", "not a font");
  try {
    TextMeasure measure(folder.path().string());
    ADD_FAILURE() << "taken as a font";
  } catch (const std::runtime_error& error) {
    EXPECT_NE(std::string(error.what()).find("B612-Regular.otf"), std::string::npos) << error.what();
  }
}

TEST(Fitted, TextThatFitsComesBackWhole) { EXPECT_EQ(type().fitted("Reading lamps", kPlain, 100.0), "Reading lamps"); }

TEST(Fitted, LongTextEndsInAnEllipsisWithinTheWidth) {
  const std::string cut = type().fitted("Reading lamps along the roof", kPlain, 20.0);
  EXPECT_LE(type().width(cut, kPlain), 20.0);
  EXPECT_TRUE(cut.starts_with("Reading"));
  EXPECT_TRUE(cut.ends_with("\xE2\x80\xA6"));
  // One more letter would not have fitted.
  EXPECT_GT(type().width("Reading lamps along the roof", kPlain), 20.0);
  EXPECT_GT(type().width(cut, kPlain), 17.0);
}

TEST(Fitted, NoRoomGivesNoText) { EXPECT_EQ(type().fitted("Reading lamps", kPlain, 0.5), ""); }

TEST(Fitted, MarksStayWithTheirLetter) {
  std::string text;
  for (int i = 0; i < 200; ++i) text += "e\xCC\x81";  // e and a combining acute
  const std::string cut = type().fitted(text, kPlain, 30.0);
  const std::string without_ellipsis = cut.substr(0, cut.size() - 3);
  EXPECT_EQ(without_ellipsis.size() % 3, 0u);
}

TEST(Fitted, TenThousandCharactersAreCutToTheWidth) {
  EXPECT_LE(type().width(type().fitted(std::string(10000, 'W'), kPlain, 50.0), kPlain), 50.0);
  EXPECT_LE(type().width(type().fitted(std::string(10000, '\x01'), kPlain, 50.0), kPlain), 50.0);
}

TEST(Wrapped, BreaksBetweenWords) {
  const auto lines = wrapped(type(), "Disconnect the battery before work.", kPlain, 30.0, 9);
  ASSERT_GE(lines.size(), 2u);
  std::string joined;
  for (const std::string& line : lines) {
    EXPECT_LE(type().width(line, kPlain), 30.0);
    joined += (joined.empty() ? "" : " ") + line;
  }
  EXPECT_EQ(joined, "Disconnect the battery before work.");
}

TEST(Wrapped, LastLineSaysThatMoreFollowed) {
  const auto lines = wrapped(type(), "one two three four five six seven eight nine ten", kPlain, 15.0, 2);
  ASSERT_EQ(lines.size(), 2u);
  EXPECT_TRUE(lines.back().ends_with("\xE2\x80\xA6"));
}

TEST(Wrapped, NoTextGivesNoLines) { EXPECT_TRUE(wrapped(type(), "  ", kPlain, 30.0, 3).empty()); }

TEST(Drawable, OrdinaryTextIsLeftAlone) {
  const std::string text = "F1 5 A, 0.3 \xCE\xA9, \xC5\x81\xC3\xB3\xC5\xBA, \xE4\xB8\xAD, e\xCC\x81";
  EXPECT_EQ(drawable(text), text);
}

TEST(Drawable, ControlsAndBrokenBytesBecomeVisible) {
  const std::string mark = "\xEF\xBF\xBD";
  EXPECT_EQ(drawable("a\nb"), "a" + mark + "b");
  EXPECT_EQ(drawable(std::string("a\0b", 3)), "a" + mark + "b");
  EXPECT_EQ(drawable("a\xFFz"), "a" + mark + "z");
  EXPECT_EQ(drawable("a\xE2\x80\xAE"
                     "b"),
            "a" + mark + "b");  // right-to-left override
  EXPECT_EQ(drawable("a\tb"), "a b");
}

TEST(Drawable, TowerOfMarksIsCutDown) {
  std::string tower = "e";
  for (int i = 0; i < 5000; ++i) tower += "\xCC\x81";
  EXPECT_EQ(drawable(tower), "e\xCC\x81\xCC\x81\xEF\xBF\xBD");
}

}  // namespace
}  // namespace loomleaf
