#include "loomleaf/units/format.h"

#include <gtest/gtest.h>

#include <charconv>
#include <cmath>
#include <limits>
#include <string>

namespace loomleaf {
namespace {

TEST(Format, DropsTrailingZeros) {
  EXPECT_EQ(to_text(12.80, 2), "12.8");
  EXPECT_EQ(to_text(100.0, 0), "100");
  EXPECT_EQ(to_text(100.0, 3), "100");
}

TEST(Format, RoundsToThePlacesAskedFor) {
  EXPECT_EQ(to_text(2.346, 2), "2.35");
  EXPECT_EQ(to_text(0.004, 2), "0");
}

TEST(Format, HasNoMinusZero) { EXPECT_EQ(to_text(-0.001, 2), "0"); }

TEST(Format, NeverShowsAnExponent) { EXPECT_EQ(to_text(1e6, 2), "1000000"); }

TEST(Format, SaysThatANumberIsNotKnown) {
  EXPECT_EQ(to_text(std::nan(""), 2), "not known");
  EXPECT_EQ(to_text(std::numeric_limits<double>::infinity(), 2), "not known");
}

TEST(Format, ChoosesTheUnitThatReadsWell) {
  EXPECT_EQ(to_text(volts(12.8)), "12.8 V");
  EXPECT_EQ(to_text(amperes(0.25)), "0.25 A");
  EXPECT_EQ(to_text(amperes(23.456)), "23.5 A");
  EXPECT_EQ(to_text(amperes(2500)), "2.5 kA");
  EXPECT_EQ(to_text(milliohms(5)), "5 mohm");
  EXPECT_EQ(to_text(ohms(90)), "90 ohm");
  EXPECT_EQ(to_text(millimetres(150)), "150 mm");
  EXPECT_EQ(to_text(metres(2.4)), "2.4 m");
  EXPECT_EQ(to_text(milliseconds(500)), "500 ms");
  EXPECT_EQ(to_text(seconds(2)), "2 s");
  EXPECT_EQ(to_text(celsius(75)), "75 C");
  EXPECT_EQ(to_text(celsius(22.5)), "22.5 C");
  EXPECT_EQ(percent_text(0.034), "3.4 %");
}

class Shortest : public testing::TestWithParam<double> {};

TEST_P(Shortest, ReadsBackTheSame) {
  const std::string text = shortest(GetParam());
  double back = 0;
  std::from_chars(text.data(), text.data() + text.size(), back);
  EXPECT_EQ(back, GetParam()) << text;
}

INSTANTIATE_TEST_SUITE_P(Numbers, Shortest,
                         testing::Values(0.1, 1.0 / 3, 12.8, 5e-324, 1.7976931348623157e308, -0.3, 1e21,
                                         123456789.125));

TEST(Format, IsShortestWhereItCanBe) {
  EXPECT_EQ(shortest(0.1), "0.1");
  EXPECT_EQ(shortest(12.0), "12");
}

}  // namespace
}  // namespace loomleaf
