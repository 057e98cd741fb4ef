#include "loomleaf/units/wire_size.h"

#include <gtest/gtest.h>

namespace loomleaf {
namespace {

TEST(WireSize, IsWrittenAsTheTradeWritesIt) {
  EXPECT_EQ(to_text(WireSize::awg(18)), "18 AWG");
  EXPECT_EQ(to_text(WireSize::awg(1)), "1 AWG");
  EXPECT_EQ(to_text(WireSize::awg(0)), "1/0 AWG");
  EXPECT_EQ(to_text(WireSize::awg(-3)), "4/0 AWG");
  EXPECT_EQ(to_text(WireSize::metric(square_millimetres(2.5))), "2.5 mm2");
  EXPECT_EQ(to_text(WireSize::metric(square_millimetres(0.75))), "0.75 mm2");
}

struct Area258 {
  int gauge;
  double mm2;
};

class NominalArea : public testing::TestWithParam<Area258> {};

// Cross-sections of solid round wire as ASTM B258 tabulates them (from memory), to the digits printed there.
TEST_P(NominalArea, IsThatOfTheStandard) {
  const double mm2 = nominal_area(WireSize::awg(GetParam().gauge)).in(square_millimetres);
  EXPECT_NEAR(mm2, GetParam().mm2, GetParam().mm2 * 0.002);
}

INSTANTIATE_TEST_SUITE_P(AstmB258, NominalArea,
                         testing::Values(Area258{-3, 107.2}, Area258{0, 53.49}, Area258{4, 21.15}, Area258{10, 5.261},
                                         Area258{12, 3.309}, Area258{18, 0.8231}, Area258{22, 0.3255},
                                         Area258{36, 0.01267}));

TEST(WireSize, HasTheAreaItIsNamedFor) {
  EXPECT_EQ(nominal_area(WireSize::metric(square_millimetres(2.5))), square_millimetres(2.5));
}

TEST(WireSize, OfTwoSystemsAreNeverEqual) { EXPECT_NE(WireSize::awg(0), WireSize::metric(square_millimetres(0))); }

}  // namespace
}  // namespace loomleaf
