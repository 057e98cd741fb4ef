#include "loomleaf/units/wire_size.h"

#include <gtest/gtest.h>

namespace loomleaf {
namespace {

TEST(WireSize, IsWrittenAsTheTradeWritesIt) {
  EXPECT_EQ(to_text(WireSize::awg(18)), "18 AWG");
  EXPECT_EQ(to_text(WireSize::awg(1)), "1 AWG");
  EXPECT_EQ(to_text(WireSize::awg(0)), "1/0 AWG");
  EXPECT_EQ(to_text(WireSize::awg(-3)), "4/0 AWG");
  EXPECT_EQ(to_text(WireSize::sae(14)), "14 SAE");
  EXPECT_EQ(to_text(WireSize::sae(-1)), "2/0 SAE");
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

TEST(WireSize, OfTwoSystemsAreNeverEqual) {
  EXPECT_NE(WireSize::awg(0), WireSize::metric(square_millimetres(0)));
  EXPECT_NE(WireSize::awg(14), WireSize::sae(14));
}

// SAE J1127 and J1128 least areas, mm2, as a boat-cable maker's catalogue has them (seen in circular mils)
TEST(WireSize, OfVehicleWireIsTheLeastAreaOfItsStandard) {
  const std::pair<int, double> published[] = {{18, 0.779}, {16, 1.184},  {14, 1.876},  {12, 2.956},  {10, 4.734},
                                              {8, 7.504},  {6, 12.434},  {4, 18.931},  {2, 31.644},  {1, 39.417},
                                              {0, 50.154}, {-1, 63.389}, {-2, 80.364}, {-3, 104.128}};
  for (const auto& [gauge, mm2] : published)
    EXPECT_NEAR(nominal_area(WireSize::sae(gauge)).in(square_millimetres), mm2, 0.0006) << gauge;
}

TEST(WireSize, OfVehicleWireIsThinnerThanAwgOfItsNumberAndThickerThanTheNext) {
  for (int gauge = -3; gauge <= 18; ++gauge) {
    EXPECT_LT(nominal_area(WireSize::sae(gauge)), nominal_area(WireSize::awg(gauge))) << gauge;
    EXPECT_GT(nominal_area(WireSize::sae(gauge)), nominal_area(WireSize::awg(gauge + 1))) << gauge;
  }
}

}  // namespace
}  // namespace loomleaf
