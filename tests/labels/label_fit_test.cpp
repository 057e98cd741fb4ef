// Which sleeve a wire takes. The sleeves' bores are those of SAE AMS-DTL-23053/5 as commonly listed (from memory; the
// inch sizes agree with a maker's drawing that was seen). Diameters of wires: UL 1426 boat cable, SAE J1128 GXL and
// TXL, ISO 6722-1 thin wall (from memory), H05V-K and round two-core cable (makers' tables, seen). That a sleeve's
// supplied bore is 20 to 30 per cent over what it passes and its recovered bore under it: sleeve guides, seen.
#include "loomleaf/sheets/label_fit.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "support/installed_templates.h"

namespace loomleaf {
namespace {

using testing::HasSubstr;

LabelStock stock(std::string_view name) {
  const Loaded<LabelStock> loaded = load_label_stock(installed_templates(), name, "a4");
  EXPECT_TRUE(loaded.errors.empty()) << loaded.errors.front().message;
  return loaded.value;
}

Outside round(double mm) { return {millimetres(mm), millimetres(mm)}; }

std::string chosen(const LabelStock& from, const Outside& outside, double terminal_mm = 0.0) {
  const LabelSize* size = choose_size(from, outside, millimetres(terminal_mm));
  return size ? size->name : "none";
}

struct SleeveRow {
  double supplied, recovered;
};

TEST(LabelFit, SleevesOfHalfRecoveryAreThoseOfTheStandard) {
  // AMS-DTL-23053/5, supplied and recovered inside diameter, mm (from memory); rounding of inches is within 0.05.
  const SleeveRow rows[] = {{2.4, 1.2},  {3.2, 1.6},  {4.8, 2.4},   {6.4, 3.2},  {9.5, 4.8},
                            {12.7, 6.4}, {19.0, 9.5}, {25.4, 12.7}, {38.1, 19.0}};
  const LabelStock sleeves = stock("sleeve-2to1");
  ASSERT_EQ(sleeves.sizes.size(), std::size(rows));
  for (std::size_t i = 0; i < std::size(rows); ++i) {
    EXPECT_NEAR(sleeves.sizes[i].supplied_bore_mm, rows[i].supplied, 0.055);
    EXPECT_NEAR(sleeves.sizes[i].recovered_bore_mm, rows[i].recovered, 0.055);
  }
}

struct WireCase {
  const char* wire;
  double diameter_mm;
  const char *half, *third;  // the sleeve of either ratio
};

class SleeveForWire : public testing::TestWithParam<WireCase> {};

TEST_P(SleeveForWire, IsTheSmallestThatGoesOnWithRoomAndHolds) {
  EXPECT_EQ(chosen(stock("sleeve-2to1"), round(GetParam().diameter_mm)), GetParam().half) << GetParam().wire;
  EXPECT_EQ(chosen(stock("sleeve-3to1"), round(GetParam().diameter_mm)), GetParam().third) << GetParam().wire;
}

// Worked out by hand: 1.2 times the diameter, then the first row at or above it whose recovered bore is no larger.
INSTANTIATE_TEST_SUITE_P(Labels, SleeveForWire,
                         testing::Values(WireCase{"TXL 22 AWG", 1.6, "2.4", "3"},           // 1.92
                                         WireCase{"ISO 6722 0.5 mm2", 1.6, "2.4", "3"},     //
                                         WireCase{"TXL 18 AWG", 2.03, "3.2", "3"},          // 2.44
                                         WireCase{"GXL 20 AWG", 2.26, "3.2", "3"},          // 2.71
                                         WireCase{"ISO 6722 1.5 mm2", 2.4, "3.2", "3"},     // 2.88
                                         WireCase{"boat cable 18 AWG", 2.5, "3.2", "3"},    // 3.00, on the limit of 3
                                         WireCase{"H05V-K 0.75 mm2", 2.7, "4.8", "6"},      // 3.24
                                         WireCase{"boat cable 16 AWG", 3.0, "4.8", "6"},    // 3.60
                                         WireCase{"boat cable 14 AWG", 3.4, "4.8", "6"},    // 4.08
                                         WireCase{"ISO 6722 4 mm2", 3.7, "4.8", "6"},       // 4.44
                                         WireCase{"boat cable 12 AWG", 4.1, "6.4", "6"},    // 4.92
                                         WireCase{"boat cable 10 AWG", 4.8, "6.4", "6"},    // 5.76
                                         WireCase{"GXL 8 AWG", 4.93, "6.4", "6"},           // 5.92
                                         WireCase{"boat cable 8 AWG", 6.4, "9.5", "9"},     // 7.68
                                         WireCase{"2 x 0.5 mm2 round", 6.5, "9.5", "9"},    // 7.80
                                         WireCase{"boat cable 6 AWG", 7.9, "9.5", "12"},    // 9.48
                                         WireCase{"boat cable 4 AWG", 9.5, "12.7", "12"},   // 11.4
                                         WireCase{"boat cable 2 AWG", 11.6, "19", "18"},    // 13.92
                                         WireCase{"boat cable 1/0 AWG", 14.2, "19", "18"},  // 17.04
                                         WireCase{"boat cable 4/0 AWG", 19.6, "25.4", "24"}));  // 23.52

TEST(LabelFit, SleeveOverACrimpedTerminalMayNeedTheGreaterRatio) {
  // A ring terminal 8 mm wide on 16 AWG: 9.6 mm or more has to recover to 3.0 mm.
  EXPECT_EQ(chosen(stock("sleeve-2to1"), round(3.0), 8.0), "none");
  EXPECT_EQ(chosen(stock("sleeve-3to1"), round(3.0), 7.5), "9");
  EXPECT_EQ(chosen(stock("sleeve-3to1"), round(3.0), 7.51), "none");
  EXPECT_EQ(wanted_text(stock("sleeve-3to1"), round(3.0), millimetres(8.0)),
            "a sleeve of 9.6 mm or more that shrinks to 3.0 mm or less");
}

TEST(LabelFit, WhatIsStuckRoundTheWireDoesNotMindTheTerminal) {
  EXPECT_EQ(chosen(stock("wrap"), round(3.0), 30.0), chosen(stock("wrap"), round(3.0)));
}

TEST(LabelFit, RoomIsAFifth) {
  const LabelStock sleeves = stock("sleeve-3to1");
  EXPECT_EQ(chosen(sleeves, round(5.0)), "6");
  EXPECT_EQ(chosen(sleeves, round(5.01)), "9");
}

TEST(LabelFit, SleeveThatDoesNotShrinkToTheWireIsNotTaken) {
  const LabelSize smallest = stock("sleeve-3to1").sizes.front();  // recovers to 1 mm
  EXPECT_TRUE(holds_on(smallest, round(1.0)));
  EXPECT_FALSE(holds_on(smallest, round(0.99)));
}

TEST(LabelFit, FlatCableIsJudgedByItsWidthAndByItsGirth) {
  // 2 x 10 AWG, 11.0 x 6.1 mm (from memory): its girth is that of 9.2 mm.
  const Outside flat = *outside_of_cable(installed_stock(), WireSize::awg(10), "", 2);
  const double girth = 2.0 * (11.0 - 6.1) / 3.14159265 + 6.1;
  EXPECT_DOUBLE_EQ(flat.widest.in(millimetres), 11.0);
  EXPECT_LE(flat.girth.in(millimetres), girth);
  EXPECT_NEAR(flat.girth.in(millimetres), girth, 0.2);
  EXPECT_EQ(chosen(stock("sleeve-2to1"), flat), "none");  // 19 goes on but recovers to 9.53
  EXPECT_EQ(chosen(stock("sleeve-3to1"), flat), "18");
}

// EN 50525-2-31 and ISO 6722-1, greatest diameters (from memory): 2.5 mm2 is 4.1 mm thick as H07V-K, 3.0 mm as thin
// wall
TEST(LabelFit, SleeveIsChosenForTheKindOfInsulation) {
  const auto outside = [](const char* kind) {
    return *outside_of_wire(installed_stock(), WireSize::metric(square_millimetres(2.5)), kind);
  };
  EXPECT_EQ(outside("").widest, outside("H07V-K").widest);
  EXPECT_DOUBLE_EQ(outside("thin-wall").widest.in(millimetres), 3.0);
  const LabelStock sleeves = stock("sleeve-2to1");
  EXPECT_NE(chosen(sleeves, outside("thin-wall")), chosen(sleeves, outside("H07V-K")));
}

TEST(LabelFit, TailOfAWrapRoundLabelCoversItsFace) {
  const LabelStock wrap = stock("wrap");
  for (const LabelSize& size : wrap.sizes) {
    const double tail = size.label_height_mm - size.face.bottom();
    EXPECT_NEAR(size.most_width_mm * 3.14159265, tail, 1e-6);
    EXPECT_NEAR(size.least_girth_mm * 3.14159265, size.face.h, 1e-6);
  }
  for (const double mm : {1.5, 2.0, 3.0, 3.75, 3.8, 5.0, 7.5, 7.6, 12.0, 14.9, 20.0, 29.0})
    EXPECT_NE(chosen(wrap, round(mm)), "none") << mm;
}

TEST(LabelFit, EveryWireOfTheStockHasASleeveAndALabelToWrapRound) {
  for (const WireStock& wire : installed_stock().wires) {
    const Outside outside = *outside_of_wire(installed_stock(), wire.size, "");
    for (const char* name : {"sleeve-2to1", "sleeve-3to1", "plain"})
      EXPECT_NE(chosen(stock(name), outside), "none") << name << " " << outside.widest.in(millimetres);
    if (outside.widest <= millimetres(21)) {  // what the largest flag goes round: all but 150 mm2
      EXPECT_NE(chosen(stock("flag"), outside), "none") << outside.widest.in(millimetres);
    }
    if (outside.widest >= millimetres(1.5)) {
      EXPECT_NE(chosen(stock("wrap"), outside), "none") << outside.widest.in(millimetres);
    }
  }
}

TEST(LabelFit, LettersShrinkWithTheSleevesOuterGirth) {
  LabelSize sleeve;
  sleeve.supplied_bore_mm = 6.0;
  sleeve.recovered_bore_mm = 3.0;
  // Without a wall the girth goes with the bore.
  EXPECT_DOUBLE_EQ(height_left(sleeve, millimetres(4.5)), 0.75);
  EXPECT_DOUBLE_EQ(height_left(sleeve, millimetres(2.0)), 0.5);  // no further than it recovers
  EXPECT_DOUBLE_EQ(height_left(sleeve, millimetres(7.0)), 1.0);
  // A wall of 1 mm about 3 mm has the section pi x 4: about 6 mm it is 0.606 thick, and 5 / 7.211 is left.
  sleeve.recovered_wall_mm = 1.0;
  EXPECT_NEAR(height_left(sleeve, millimetres(3.0)), 5.0 / std::sqrt(52.0), 1e-12);
  EXPECT_DOUBLE_EQ(height_left(LabelSize{}, millimetres(3.0)), 1.0);
}

}  // namespace
}  // namespace loomleaf
