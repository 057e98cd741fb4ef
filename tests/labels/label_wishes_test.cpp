// Which sheet each wire's label goes to, and what the user may wish: one size, copies, a part-used sheet.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "labels/support/label_maker.h"
#include "support/outside_tools.h"

namespace loomleaf::test {
namespace {

using testing::Contains;
using testing::Each;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

TEST(LabelWishes, EachWireGoesToTheSheetOfItsSize) {
  std::vector<Label> labels = pairs(2, 3.0);
  labels.push_back(wire_label("W7", true, 7.9));
  labels.push_back(wire_label("W8", true, 3.4));
  const LabelSheets sheets = sheets_of(labels, label_stock("wrap"));
  ASSERT_EQ(sheets.pages.size(), 2u);
  EXPECT_THAT(underlined_in({sheets.pages[0]}), Contains("W8"));
  EXPECT_THAT(underlined_in({sheets.pages[1]}), Each("W7"));
  EXPECT_THAT(sheets.counts, ElementsAre("5 of size 3.7, on 1 sheet", "1 of size 15, on 1 sheet"));
}

TEST(LabelWishes, WireWithoutASleeveIsNotPrintedAndSaidWithWhatItWouldTake) {
  Label flat = wire_label("C9", true);
  flat.outside = Outside{millimetres(11.0), millimetres(9.13)};
  const LabelSheets sheets = sheets_of({flat, wire_label("W1")}, label_stock("sleeve-2to1"));
  EXPECT_THAT(underlined_in(sheets.pages), Each("W1"));
  EXPECT_THAT(sheets.could_not_fit, Contains(HasSubstr("label C9 from: not printed")));
  EXPECT_THAT(sheets.could_not_fit,
              Contains(HasSubstr("a sleeve of 13.2 mm or more that shrinks to 9.1 mm or less would")));
}

TEST(LabelWishes, WireOfUnknownThicknessGetsNoSleeveButAFlag) {
  Label unknown = wire_label("W1");
  unknown.outside = std::nullopt;
  EXPECT_THAT(sheets_of({unknown}, label_stock("sleeve-2to1")).could_not_fit, Contains(HasSubstr("not known")));
  EXPECT_THAT(underlined_in(sheets_of({unknown}, label_stock("flag")).pages), ElementsAre("W1", "W1"));
}

TEST(LabelWishes, FixedSizeIsUsedForAllAndWhatItDoesNotSuitIsSaid) {
  LabelWishes wishes;
  wishes.size = "4.8";
  const LabelSheets sheets =
      sheets_of({wire_label("W1", true, 3.0), wire_label("W2", true, 7.9), wire_label("W3", true, 2.0)},
                label_stock("sleeve-2to1"), wishes);
  EXPECT_EQ(sheets.pages.size(), 2u);  // front and back
  EXPECT_THAT(underlined_in(sheets.pages), testing::AllOf(Contains("W1"), Contains("W2"), Contains("W3")));
  EXPECT_THAT(sheets.could_not_fit, Contains("label W2 from: size 4.8 does not go over 7.9 mm; size 9.5 would"));
  EXPECT_THAT(sheets.could_not_fit, Contains("label W3 from: size 4.8 does not hold on 2 mm; size 3.2 would"));
}

TEST(LabelWishes, UnknownSizeNamesTheKnownOnes) {
  LabelWishes wishes;
  wishes.size = "5";
  EXPECT_EQ(sheets_of(pairs(1), label_stock("wrap"), wishes).trouble, "wrap has no size 5; it has: 3.7, 7.5, 15, 30");
}

TEST(LabelWishes, LargerSleeveIsTakenWhereTheLettersNeedItAndItHolds) {
  // 18 AWG boat cable: 3.2 mm goes over it, but only 4.8 mm has the height for 2 mm letters after shrinking.
  EXPECT_THAT(sheets_of(pairs(1, 2.5), label_stock("sleeve-2to1")).counts, ElementsAre("2 of size 4.8, on 1 sheet"));
}

TEST(LabelWishes, SleeveThatHasNoHeightForLettersIsSaid) {
  const LabelSheets sheets = sheets_of(pairs(1, 1.6), label_stock("sleeve-2to1"));
  EXPECT_THAT(sheets.could_not_fit, ElementsAre("label W1: not printed: letters of 2 mm do not go on size 2.4"));
  EXPECT_THAT(underlined_in(sheets.pages), IsEmpty());
}

TEST(LabelWishes, EveryLabelIsPrintedOnceForEachCopy) {
  const LabelStock flag = label_stock("flag");
  LabelWishes wishes;
  wishes.copies = 3;
  std::vector<std::string> meant;
  for (int copy = 0; copy < 3; ++copy)
    for (const Label& one : pairs(20)) meant.insert(meant.end(), {one.id, one.id});  // either side of the flag
  EXPECT_EQ(underlined_in(sheets_of(pairs(20), flag, wishes).pages), meant);
}

TEST(LabelWishes, UsedPlacesOfTheFirstSheetStayEmpty) {
  const LabelStock wrap = label_stock("wrap");
  const LabelSize& size = wrap.sizes[0];
  LabelWishes wishes;
  wishes.used = {{"", 6}};
  const LabelSheets sheets = sheets_of(pairs(size.on_a_sheet() / 2), wrap, wishes);
  ASSERT_EQ(sheets.pages.size(), 2u);
  int on_the_first = 0, at_their_place = 0;
  for (const PrintedWord& word : words_of(pdf_of(sheets.pages))) {
    for (int n = 0; n < 6; ++n) EXPECT_FALSE(word.page == 1 && inside(word.box, face_of(size, n), 0.0)) << word.text;
    if (word.page == 1 && word.text == "W1") ++on_the_first;
    if (word.page == 1 && word.text == "W1" &&
        (inside(word.box, face_of(size, 6), 0.4) || inside(word.box, face_of(size, 7), 0.4)))
      ++at_their_place;
  }
  EXPECT_GE(on_the_first, 2);
  EXPECT_EQ(at_their_place, on_the_first);
}

TEST(LabelWishes, UsedWithoutASizeIsRefusedWhereThereAreSeveral) {
  LabelWishes wishes;
  wishes.used = {{"", 6}};
  const std::vector<Label> labels = {wire_label("W1", true, 3.0), wire_label("W2", true, 7.0)};
  EXPECT_EQ(sheets_of(labels, label_stock("wrap"), wishes).trouble,
            "which size is part used? write one of: --used 3.7=6, --used 7.5=6");
  wishes.used = {{"7.5", 6}};
  EXPECT_EQ(sheets_of(labels, label_stock("wrap"), wishes).trouble, "");
  wishes.used = {{"9", 6}};
  EXPECT_EQ(sheets_of(labels, label_stock("wrap"), wishes).trouble, "wrap has no size 9");
}

TEST(LabelWishes, MoreUsedThanASheetHasIsRefused) {
  const LabelStock wrap = label_stock("wrap");
  LabelWishes wishes;
  wishes.used = {{"3.7", wrap.sizes[0].on_a_sheet() - 1}};
  EXPECT_EQ(sheets_of(pairs(1), wrap, wishes).trouble, "");
  ++wishes.used[0].count;
  EXPECT_THAT(sheets_of(pairs(1), wrap, wishes).trouble, HasSubstr("--used can be"));
}

}  // namespace
}  // namespace loomleaf::test
