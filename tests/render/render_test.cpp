// Files as other programs read them: poppler (pdftotext, pdffonts, pdfinfo), qpdf, and pugixml for SVG.
#include "loomleaf/render/render.h"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <pugixml.hpp>

#include "support/outside_tools.h"

namespace loomleaf {
namespace {

using testing::HasSubstr;
using testing::Not;

const TextMeasure& type() {
  static const TextMeasure measure(LOOMLEAF_ROOT "/fonts");
  return measure;
}

TextRun text(Point at, std::string words, TextStyle style = {3.0, false}) {
  return TextRun{at, std::move(words), style, TextRun::Anchor::start, {}, 0.0, false};
}

// Two sheets with shapes, both weights, signs outside Latin-1, links both ways and an outline.
Drawing sample() {
  Drawing drawing;
  drawing.title = "Weather hut";
  drawing.date = "2026-03-14";
  Page first{297.0, 210.0, "diagram-1", {}}, second{215.9, 279.4, "diagram-2", {}};
  first.items = {GroupBegin{"W1", "wire W1 from BAT+ to F0"},
                 line({20, 30}, {80, 30}, {0.5, {}, {}, false}),
                 text({50, 100}, "Lantern"),
                 GroupEnd{},
                 text({50, 120}, "0.3 \xCE\xA9 \xE2\x86\x92 2.5 mm\xC2\xB2", {2.0, true}),
                 CircleShape{{100, 50}, 4.0, Stroke{}, std::nullopt},
                 Destination{{20, 30}, "F1"},
                 LinkArea{{50, 95, 30, 6}, "sheet-2"}};
  second.items = {text({20, 40}, "Second"), Destination{{10, 10}, "sheet-2"}, LinkArea{{20, 35, 20, 6}, "F1"},
                  rectangle({20, 60, 50, 20}, Stroke{}, Paint{0.9, 0.9, 0.9})};
  drawing.pages = {first, second};
  drawing.outline = {{"First", "F1", 0}, {"Second", "sheet-2", 1}};
  return drawing;
}

TEST(Pdf, StrictReaderFindsNothingToComplainOf) {
  const Outcome check = run_on_file(to_pdf(sample(), type()), "pdf", "qpdf --check {}");
  EXPECT_EQ(check.status, 0) << check.output;
  EXPECT_THAT(check.output, Not(HasSubstr("WARNING")));
}

TEST(Pdf, EveryFontIsEmbeddedAsASubsetThatCanBeCopied) {
  const Outcome fonts = run_on_file(to_pdf(sample(), type()), "pdf", "pdffonts {} | tail -n +3");
  ASSERT_THAT(fonts.output, HasSubstr("B612"));
  EXPECT_THAT(fonts.output, Not(HasSubstr(" no ")));
}

TEST(Pdf, SameDrawingGivesTheSameBytes) { EXPECT_EQ(to_pdf(sample(), type()), to_pdf(sample(), type())); }

TEST(Pdf, DateIsThePlansOwn) {
  const Outcome info = run_on_file(to_pdf(sample(), type()), "pdf", "TZ=UTC pdfinfo {}");
  EXPECT_THAT(info.output, HasSubstr("Mar 14 00:00:00 2026"));
  EXPECT_THAT(info.output, HasSubstr("Weather hut"));
}

TEST(Pdf, EachPageHasItsOwnSize) {
  const Outcome info = run_on_file(to_pdf(sample(), type()), "pdf", "pdfinfo -f 1 -l 2 {}");
  EXPECT_THAT(info.output, HasSubstr("841.89 x 595.276"));
  EXPECT_THAT(info.output, HasSubstr("612 x 792"));
}

TEST(Pdf, TextStandsWhereItWasPut) {
  const std::vector<PrintedWord> words = words_of(to_pdf(sample(), type()));
  const auto word = std::find_if(words.begin(), words.end(), [](const PrintedWord& w) { return w.text == "Lantern"; });
  ASSERT_NE(word, words.end());
  const TextStyle style{3.0, false};
  EXPECT_NEAR(word->box.x, 50.0, 0.1);
  EXPECT_NEAR(word->box.w, type().width("Lantern", style), 0.1);
  EXPECT_NEAR(word->box.y, 100.0 - type().ascent(style), 0.1);
  EXPECT_NEAR(word->box.bottom(), 100.0 + type().descent(style), 0.1);
}

TEST(Pdf, AnchorsMoveTextToTheLeftOfItsPoint) {
  Drawing drawing;
  Page page;
  page.items = {TextRun{{100, 50}, "Middle", {3.0, false}, TextRun::Anchor::middle, {}, 0.0, false},
                TextRun{{100, 70}, "Ending", {3.0, false}, TextRun::Anchor::end, {}, 0.0, false}};
  drawing.pages = {page};
  for (const PrintedWord& word : words_of(to_pdf(drawing, type()))) {
    const double meant = word.text == "Middle" ? word.box.x + word.box.w / 2.0 : word.box.right();
    EXPECT_NEAR(meant, 100.0, 0.1) << word.text;
  }
}

TEST(Pdf, SignsCanBeCopiedOut) {
  const Outcome copied = run_on_file(to_pdf(sample(), type()), "pdf", "pdftotext {} -");
  EXPECT_THAT(copied.output, HasSubstr("0.3 \xCE\xA9 \xE2\x86\x92 2.5 mm\xC2\xB2"));
}

TEST(Pdf, DestinationsLieWhereTheyWerePut) {
  const Outcome dests = run_on_file(to_pdf(sample(), type()), "pdf", "pdfinfo -dests {}");
  // 20 mm from the left is 57 pt; 30 mm from the top of 210 mm is 510 pt from the bottom.
  EXPECT_THAT(dests.output, HasSubstr("1 [ XYZ   57  510"));
  EXPECT_THAT(dests.output, HasSubstr("\"sheet-2\""));
}

TEST(Pdf, LinkCoversItsBox) {
  const Outcome json = run_on_file(to_pdf(sample(), type()), "pdf", "qpdf --json=1 {} | grep -A5 '\"/Rect\"'");
  // 50 mm is 141.732 pt; 30 mm wide ends at 226.772 pt; links are kept in whole points, outwards.
  EXPECT_THAT(json.output, HasSubstr("        141,"));
  EXPECT_THAT(json.output, HasSubstr("        227,"));
}

TEST(Pdf, OutlineNamesTheSheets) {
  const Outcome json = run_on_file(to_pdf(sample(), type()), "pdf", "qpdf --json=1 --json-key=outlines {}");
  EXPECT_THAT(json.output, HasSubstr("\"title\": \"First\""));
  EXPECT_THAT(json.output, HasSubstr("\"title\": \"Second\""));
}

TEST(Pdf, LinkToNowhereIsRefused) {
  Drawing drawing = sample();
  drawing.pages[0].items.push_back(LinkArea{{1, 1, 5, 5}, "F9"});
  EXPECT_THROW(to_pdf(drawing, type()), std::runtime_error);
  drawing = sample();
  drawing.outline.push_back({"Lost", "F9", 0});
  EXPECT_THROW(to_pdf(drawing, type()), std::runtime_error);
}

TEST(Pdf, DestinationThatIsNoPlainNameIsRefused) {
  Drawing drawing = sample();
  drawing.pages[0].items.push_back(Destination{{1, 1}, "it's"});
  EXPECT_THROW(to_pdf(drawing, type()), std::runtime_error);
}

TEST(Pdf, DrawingWithoutPagesIsRefused) { EXPECT_THROW(to_pdf(Drawing{}, type()), std::runtime_error); }

TEST(Pdf, HostileTextStaysAGoodFile) {
  Drawing drawing = sample();
  drawing.title = "a\0b\xFF(\\)";
  for (const std::string& nasty :
       {std::string("\x01\x02\n\r(\\"), std::string(10000, 'W'), std::string("\xD7\xA9\xD7\x9C\xD7\x95\xD7\x9D"),
        std::string("e\xCC\x81\xCC\x81\xCC\x81\xCC\x81"), std::string("\xFF\xFE\xC0"), std::string()})
    drawing.pages[0].items.push_back(text({20, 150}, nasty));
  const Outcome check = run_on_file(to_pdf(drawing, type()), "pdf", "qpdf --check {}");
  EXPECT_EQ(check.status, 0) << check.output;
}

TEST(Svg, IsWellFormedAndNamesItsThings) {
  const Drawing drawing = sample();
  const std::string svg = to_svg(drawing.pages[0], drawing, type());
  pugi::xml_document document;
  ASSERT_TRUE(document.load_string(svg.c_str()));
  const pugi::xml_node wire = document.child("svg").find_child_by_attribute("g", "id", "W1");
  EXPECT_STREQ(wire.child_value("title"), "wire W1 from BAT+ to F0");
  EXPECT_STREQ(wire.child_value("text"), "Lantern");
  EXPECT_TRUE(wire.child("path"));
  EXPECT_EQ(run_on_file(svg, "svg", "python3 -c 'import sys, xml.dom.minidom as d; d.parse(sys.argv[1])' {}").status,
            0);
}

TEST(Svg, LinkToAnotherSheetNamesItsFile) {
  const Drawing drawing = sample();
  EXPECT_THAT(to_svg(drawing.pages[0], drawing, type()), HasSubstr("href=\"diagram-2.svg#to-sheet-2\""));
  EXPECT_THAT(to_svg(drawing.pages[1], drawing, type()), HasSubstr("id=\"to-sheet-2\""));
}

TEST(Svg, RepeatedIdsAreToldApart) {
  Drawing drawing;
  Page page;
  page.items = {GroupBegin{"C1", ""}, GroupEnd{}, GroupBegin{"C1", ""},
                GroupEnd{},           GroupEnd{}, GroupBegin{"9 \"x", ""}};
  drawing.pages = {page};
  const std::string svg = to_svg(page, drawing, type());
  EXPECT_THAT(svg, HasSubstr("id=\"C1\""));
  EXPECT_THAT(svg, HasSubstr("id=\"C1-2\""));
  EXPECT_THAT(svg, HasSubstr("id=\"_9__x\""));
}

TEST(Svg, HostileTextStaysWellFormed) {
  Drawing drawing = sample();
  drawing.pages[0].items.push_back(text({20, 150}, std::string("\x01<&>\"\0\xFF", 7)));
  const std::string svg = to_svg(drawing.pages[0], drawing, type());
  EXPECT_EQ(run_on_file(svg, "svg", "python3 -c 'import sys, xml.dom.minidom as d; d.parse(sys.argv[1])' {}").status,
            0);
}

TEST(Png, HasItsSizeAndItsResolution) {
  const std::string png = to_png(sample().pages[0], type(), 150.0);
  ASSERT_EQ(png.substr(1, 3), "PNG");
  const auto number = [&](std::size_t at) {
    unsigned value = 0;
    for (std::size_t i = 0; i < 4; ++i) value = value << 8 | static_cast<unsigned char>(png[at + i]);
    return value;
  };
  EXPECT_EQ(number(16), 1754u);  // 297 mm at 150 dpi is 1753.9 dots
  EXPECT_EQ(number(20), 1241u);  // 210 mm: 1240.2
  ASSERT_EQ(png.substr(37, 4), "pHYs");
  EXPECT_EQ(number(41), 5906u);  // 150 dots an inch are 5905.5 a metre
}

TEST(Png, AnotherReaderTakesItWithItsChecksums) {
  const Outcome read = run_on_file(to_png(sample().pages[0], type(), 72.0), "png",
                                   "python3 -c 'import sys,zlib,struct; b=open(sys.argv[1],\"rb\").read(); i=8\n"
                                   "while i<len(b):\n n=struct.unpack(\">I\",b[i:i+4])[0]; assert "
                                   "zlib.crc32(b[i+4:i+8+n])==struct.unpack(\">I\",b[i+8+n:i+12+n])[0]; i+=12+n\n"
                                   "print(\"sound\")' {}");
  EXPECT_THAT(read.output, HasSubstr("sound"));
}

TEST(Png, AbsurdSizesAreRefused) {
  EXPECT_THROW(to_png(sample().pages[0], type(), 100000.0), std::runtime_error);
  EXPECT_THROW(to_png(sample().pages[0], type(), 0.0), std::runtime_error);
}

}  // namespace
}  // namespace loomleaf
