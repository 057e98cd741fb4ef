#include "loomleaf/units/quantity.h"

#include <gtest/gtest.h>

#include <type_traits>

namespace loomleaf {
namespace {

TEST(Quantity, ReadsBackInTheUnitItWasMadeWith) {
  EXPECT_DOUBLE_EQ(milliohms(5).in(milliohms), 5);
  EXPECT_DOUBLE_EQ(kiloamperes(2.5).in(amperes), 2500);
}

TEST(Quantity, KeepsDecimalInputExact) {
  EXPECT_EQ(millimetres(150).in(metres), 0.15);
  EXPECT_EQ(millimetres(150), metres(0.15));
}

// The international yard and pound of 1959: a foot is 0.3048 m, an inch 25.4 mm, both exactly.
TEST(Quantity, HoldsTheInternationalFootAndInch) {
  EXPECT_EQ(feet(1).in(metres), 0.3048);
  EXPECT_DOUBLE_EQ(inches(1).in(millimetres), 25.4);
  EXPECT_DOUBLE_EQ(feet(1).in(inches), 12);
}

TEST(Quantity, SatisfiesOhmsLaw) {
  EXPECT_EQ(volts(12) / ohms(4), amperes(3));
  EXPECT_EQ(amperes(3) * ohms(4), volts(12));
  EXPECT_EQ(volts(12) / amperes(3), ohms(4));
  EXPECT_EQ(volts(12) * amperes(3), watts(36));
  EXPECT_EQ(watts(36) / volts(12), amperes(3));
}

TEST(Quantity, NeverComesOfABareNumber) {
  EXPECT_FALSE((std::is_convertible_v<double, Voltage>));
  EXPECT_FALSE((std::is_constructible_v<Voltage, double>));
}

TEST(Quantity, OfUnlikeKindsDoNotMix) { EXPECT_FALSE((std::is_convertible_v<Voltage, Current>)); }

}  // namespace
}  // namespace loomleaf
