#include "loomleaf/study/adiabatic.h"

#include <gtest/gtest.h>

#include <cmath>

namespace loomleaf {
namespace {

TEST(AdiabaticK, MeetsTheTablesOfBs7671) {
  // BS 7671 table 43.1 as reprinted (seen): copper, 70 C PVC 115, 90 C PVC 100, 90 C thermosetting 143, 60 C rubber 141
  EXPECT_NEAR(adiabatic_k(celsius(70), celsius(160)), 115, 0.5);
  EXPECT_NEAR(adiabatic_k(celsius(90), celsius(160)), 100, 0.5);
  EXPECT_NEAR(adiabatic_k(celsius(90), celsius(250)), 143, 0.5);
  EXPECT_NEAR(adiabatic_k(celsius(60), celsius(200)), 141, 0.5);
  // table 54.2 as reprinted (seen): a separate conductor starts at 30 C
  EXPECT_NEAR(adiabatic_k(celsius(30), celsius(160)), 143, 0.5);
  EXPECT_NEAR(adiabatic_k(celsius(30), celsius(250)), 176, 0.5);
}

TEST(AdiabaticK, MeetsOneSecondCurrentsOfAShipCable) {
  // a maker's ship cable to IEC 60092 of 90 C (seen): what each size bears for one second
  const double size_and_ampere[][2] = {{1.5, 210}, {2.5, 360}, {4, 570},   {6, 860},   {10, 1430},
                                       {16, 2290}, {25, 3580}, {50, 7150}, {95, 13590}};
  for (const auto& [area, ampere] : size_and_ampere)
    EXPECT_NEAR(adiabatic_k(celsius(90), celsius(250)) * area, ampere, 0.025 * ampere) << area;
}

TEST(BearsFor, FallsWithTheSquareOfTheCurrent) {
  const Duration at_hundred = bears_for(square_millimetres(1.5), celsius(70), amperes(100));
  EXPECT_NEAR(at_hundred.in(seconds), std::pow(115 * 1.5 / 100, 2), 0.03);  // BS 7671 table 43.1: k = 115
  EXPECT_NEAR(bears_for(square_millimetres(1.5), celsius(70), amperes(200)) / at_hundred, 0.25, 1e-12);
}

TEST(BearsFor, WarmerInsulationOfPvcLeavesLess) {
  EXPECT_LT(bears_for(square_millimetres(1), celsius(105), amperes(50)),
            bears_for(square_millimetres(1), celsius(75), amperes(50)));
  // cross-linked insulation may get hotter: k = 123 from 125 to 250 C, 88 from 105 to 160 C (computed by the formula)
  EXPECT_NEAR(adiabatic_k(celsius(125), short_circuit_limit(celsius(125))), 123, 0.5);
  EXPECT_NEAR(adiabatic_k(celsius(105), short_circuit_limit(celsius(105))), 88, 0.5);
}

}  // namespace
}  // namespace loomleaf
