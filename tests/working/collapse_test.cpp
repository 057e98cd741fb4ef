// Where no working point exists. A supply of U behind R gives a load of constant power at most U^2 / 4R, at half its
// voltage (maximum power transfer, Jacobi 1840; from P = V (U - V) / R).
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>

#include "working/support/spice_reference.h"
#include "working/support/studied.h"

namespace loomleaf::test {
namespace {

struct Line {
  double volt, metre;  // of the supply; of wire one way, 20 mohm a metre
  double ohm() const { return 2.0 * 0.020 * metre; }
  double most_watt() const { return volt * volt / (4.0 * ohm()); }
};

class PowerLimit : public ::testing::TestWithParam<Line> {};

std::string plan_of(const Line& line, double watt) {
  return fmt::format(
      "source BAT {0} V 100 Ah\nload LA {1:.17g} W {0} V\n"
      "wire W1 BAT+ to LA+ 1 mm2 {2} m\nwire W2 LA- to BAT- 1 mm2 {2} m\n",
      line.volt, watt, line.metre);
}

TEST_P(PowerLimit, HasAWorkingPointJustBelow) {
  const Line line = GetParam();
  const double watt = line.most_watt() * (1.0 - 1e-6);
  const Studied studied = study_text(plan_of(line, watt));
  EXPECT_TRUE(studied.points.collapses.empty());
  const double half = line.volt / 2.0;
  EXPECT_NEAR(studied.load_volt("LA"), half + std::sqrt(half * half - line.ohm() * watt), 1e-6 * line.volt);
}

TEST_P(PowerLimit, HasNoneJustAbove) {
  const Line line = GetParam();
  const Studied studied = study_text(plan_of(line, line.most_watt() * (1.0 + 1e-6)));
  ASSERT_EQ(studied.points.collapses.size(), 1u);
  EXPECT_EQ(studied.names(studied.points.collapses[0].loads), std::vector<std::string>{"LA"});
  EXPECT_EQ(studied.points.collapses[0].gives_way_first, studied.item("LA"));
  EXPECT_FALSE(studied.load("LA").voltage);
}

// ngspice's tolerances let it settle a little past the limit: a thousandth off either side is clear.
TEST_P(PowerLimit, IsNgspicesToo) {
  if (!has_spice()) GTEST_SKIP() << "ngspice is not installed";
  const Line line = GetParam();
  const auto deck = [&](double watt) {
    return fmt::format("v1 a 0 {0}\nr1 a b {1:.17g}\nb1 b 0 I = {2:.17g}/v(b,0)\n.nodeset v(b)={0}\n", line.volt,
                       line.ohm(), watt);
  };
  const double below = line.most_watt() * 0.999, above = line.most_watt() * 1.001;
  const auto values = run_spice({deck(below), deck(above)},
                                fmt::format("{}loomleaf_limit_{}", ::testing::TempDir(), line.volt * line.metre));
  ASSERT_FALSE(values[0].empty());
  EXPECT_TRUE(values[1].empty());
  EXPECT_NEAR(study_text(plan_of(line, below)).load_volt("LA"), values[0].at("b"), 1e-6 * line.volt);
  EXPECT_EQ(study_text(plan_of(line, above)).points.collapses.size(), 1u);
}

INSTANTIATE_TEST_SUITE_P(Lines, PowerLimit,
                         ::testing::Values(Line{12, 1}, Line{12, 6.5}, Line{12.8, 20}, Line{24, 3}, Line{24, 40},
                                           Line{48, 0.7}, Line{48, 100}));

// All loads raised together, the one behind the most resistance for its power gives way: P R is 1000 x 0.4 against 3000
// x 0.08.
TEST(Collapse, NamesTheLoadThatGivesWayFirst) {
  const std::string lines =
      "source BAT 12 V 100 Ah\nload NEAR 3000 W\nload FAR 1000 W\n"
      "wire W1 BAT+ to NEAR+ 1 mm2 2 m\nwire W2 NEAR- to BAT- 1 mm2 2 m\n"
      "wire W3 BAT+ to FAR+ 1 mm2 10 m\nwire W4 FAR- to BAT- 1 mm2 10 m\n";
  const Studied studied = study_text(lines);
  ASSERT_EQ(studied.points.collapses.size(), 1u);
  EXPECT_EQ(studied.points.collapses[0].gives_way_first, studied.item("FAR"));
}

}  // namespace
}  // namespace loomleaf::test
