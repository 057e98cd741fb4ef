// Networks small enough to work out by hand; the arithmetic stands beside each.
#include "loomleaf/study/network.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

namespace loomleaf {
namespace {

// A 12.8 V source, 0.25 ohm out and back together, one load.
NetworkShape one_load() {
  NetworkShape shape;
  shape.nodes = 3;
  shape.links = {{0, 1, 0.25}};
  shape.holds = {{0, 2, 12.8}};
  shape.ports = {{1, 2}};
  return shape;
}

NetworkSolution solve(const NetworkShape& shape, std::vector<Demand> ports, std::vector<TransferGain> gains = {}) {
  return Network(shape).solve({std::move(ports), std::move(gains)});
}

double across(const NetworkSolution& solution, std::size_t plus, std::size_t minus) {
  return solution.node_volt[plus] - solution.node_volt[minus];
}

TEST(Network, ResistiveLoadFollowsOhmsLaw) {
  // 12.8 V / (0.25 + 1.35) ohm = 8 A
  const auto solution = solve(one_load(), {{0.0, 1.0 / 1.35, 0.0}});
  EXPECT_NEAR(solution.link_ampere[0], 8.0, 1e-12);
  EXPECT_NEAR(across(solution, 1, 2), 10.8, 1e-12);
}

TEST(Network, ConstantCurrentDropsTheSameWhateverTheVoltage) {
  const auto solution = solve(one_load(), {{0.0, 0.0, 4.0}});
  EXPECT_NEAR(across(solution, 1, 2), 11.8, 1e-12);  // 12.8 - 4 x 0.25
}

TEST(Network, ConstantPowerTakesTheUpperRoot) {
  // V (12.8 - V) / 0.25 = 150 has the roots 6.4 +- sqrt(6.4^2 - 37.5)
  const auto solution = solve(one_load(), {{150.0, 0.0, 0.0}});
  EXPECT_NEAR(across(solution, 1, 2), 6.4 + std::sqrt(40.96 - 37.5), 1e-9);
}

TEST(Network, PowerJustBelowTheLimitSolves) {
  // The limit is V^2 / 4R = 12.8^2 / 1 = 163.84 W
  const auto solution = solve(one_load(), {{163.83, 0.0, 0.0}});
  ASSERT_TRUE(solution.collapses.empty());
  EXPECT_NEAR(across(solution, 1, 2), 6.4 + std::sqrt(40.96 - 0.25 * 163.83), 1e-6);
}

TEST(Network, PowerJustAboveTheLimitHasNoSolution) {
  const auto solution = solve(one_load(), {{163.85, 0.0, 0.0}});
  ASSERT_EQ(solution.collapses.size(), 1u);
  EXPECT_EQ(solution.collapses[0].port, 0u);
  EXPECT_TRUE(std::isnan(solution.node_volt[1]));
  EXPECT_TRUE(std::isnan(solution.link_ampere[0]));
}

TEST(Network, CollapseInOneIslandLeavesTheOtherSolved) {
  NetworkShape shape = one_load();
  shape.nodes = 6;
  shape.links.push_back({3, 4, 0.25});
  shape.holds.push_back({3, 5, 12.8});
  shape.ports.push_back({4, 5});
  const auto solution = solve(shape, {{200.0, 0.0, 0.0}, {0.0, 0.0, 4.0}});
  ASSERT_EQ(solution.collapses.size(), 1u);
  EXPECT_TRUE(std::isnan(solution.node_volt[1]));
  EXPECT_NEAR(across(solution, 4, 5), 11.8, 1e-12);
}

TEST(Network, LoadOnTheThinLineGivesWayFirst) {
  // Both ask 100 W; the first line's limit is 12.8^2 / (4 x 0.25) = 163.84 W, the second's 12.8^2 / (4 x 0.5) = 81.92 W
  NetworkShape shape = one_load();
  shape.nodes = 4;
  shape.links.push_back({0, 3, 0.5});
  shape.ports.push_back({3, 2});
  const auto solution = solve(shape, {{100.0, 0.0, 0.0}, {100.0, 0.0, 0.0}});
  ASSERT_EQ(solution.collapses.size(), 1u);
  EXPECT_EQ(solution.collapses[0].port, 1u);
}

TEST(Network, ParallelFeedsShareByConductance) {
  NetworkShape shape = one_load();
  shape.links.push_back({0, 1, 0.75});
  // 4 A over 0.25 and 0.75 ohm: 3 A and 1 A
  const auto solution = solve(shape, {{0.0, 0.0, 4.0}});
  EXPECT_NEAR(solution.link_ampere[0], 3.0, 1e-12);
  EXPECT_NEAR(solution.link_ampere[1], 1.0, 1e-12);
}

TEST(Network, LinkWithoutResistanceCarriesWhatKirchhoffAsks) {
  NetworkShape shape;
  shape.nodes = 5;  // source 0-4, tie 0-1, wires 1-2 and 1-3
  shape.links = {{0, 1, 0.0}, {1, 2, 0.1}, {1, 3, 0.1}};
  shape.holds = {{0, 4, 12.0}};
  shape.ports = {{2, 4}, {3, 4}};
  const auto solution = solve(shape, {{0.0, 0.0, 2.0}, {0.0, 0.0, 5.0}});
  EXPECT_NEAR(solution.link_ampere[0], 7.0, 1e-12);
  EXPECT_NEAR(solution.hold_ampere[0], 7.0, 1e-12);
}

TEST(Network, RingWithoutResistanceSharesEvenly) {
  NetworkShape shape;
  shape.nodes = 3;
  shape.links = {{0, 1, 0.0}, {0, 1, 0.0}};
  shape.holds = {{0, 2, 12.0}};
  shape.ports = {{1, 2}};
  const auto solution = solve(shape, {{0.0, 0.0, 6.0}});
  EXPECT_NEAR(solution.link_ampere[0], 3.0, 1e-12);
  EXPECT_NEAR(solution.link_ampere[1], 3.0, 1e-12);
}

TEST(Network, SeriesSourcesAddTheirVoltages) {
  NetworkShape shape;
  shape.nodes = 5;  // lower 1-0, link 1-2, upper 3-2, line 3-4
  shape.links = {{1, 2, 0.01}, {3, 4, 0.19}};
  shape.holds = {{1, 0, 12.0}, {3, 2, 12.0}};
  shape.ports = {{4, 0}};
  // 24 V behind 0.2 ohm at 10 A: 22 V
  const auto solution = solve(shape, {{0.0, 0.0, 10.0}});
  EXPECT_NEAR(across(solution, 4, 0), 22.0, 1e-12);
  EXPECT_NEAR(solution.hold_ampere[0], 10.0, 1e-12);
  EXPECT_NEAR(solution.hold_ampere[1], 10.0, 1e-12);
}

TEST(Network, SourcesThatContradictEachOtherHaveNoSolution) {
  NetworkShape shape = one_load();
  shape.holds.push_back({0, 2, 24.0});
  const auto solution = solve(shape, {{0.0, 0.0, 1.0}});
  EXPECT_TRUE(solution.collapses.empty());
  EXPECT_TRUE(std::isnan(solution.node_volt[1]));
}

// A converter: 24 V behind 0.5 ohm at its input, 12 V held at its output, which brings 5 A to a load.
NetworkShape with_converter() {
  NetworkShape shape;
  shape.nodes = 5;  // source 0-2, input 1-2, output 3-2, load 4-2
  shape.links = {{0, 1, 0.5}, {3, 4, 0.1}};
  shape.holds = {{0, 2, 24.0}, {3, 2, 12.0}};
  shape.ports = {{1, 2}, {4, 2}};
  shape.transfers = {{1, 0}};
  return shape;
}

TEST(Network, ConverterDrawsItsOutputPowerOverItsEfficiency) {
  // 12 V x 5 A / 0.8 = 75 W: V (24 - V) / 0.5 = 75, V = 12 + sqrt(144 - 37.5)
  const auto solution = solve(with_converter(), {{}, {0.0, 0.0, 5.0}}, {{12.0 / 0.8, 0.0}});
  const double volt = 12.0 + std::sqrt(144.0 - 37.5);
  EXPECT_NEAR(across(solution, 1, 2), volt, 1e-9);
  EXPECT_NEAR(solution.port_ampere[0], 75.0 / volt, 1e-9);
  EXPECT_NEAR(solution.hold_ampere[1], 5.0, 1e-12);
}

TEST(Network, ConverterWithoutResistanceAtItsInputIsAskedTheSame) {
  NetworkShape shape = with_converter();
  shape.links[0].ohm = 0.0;
  const auto solution = solve(shape, {{}, {0.0, 0.0, 5.0}}, {{12.0 / 0.8, 0.0}});
  EXPECT_NEAR(solution.hold_ampere[0], 75.0 / 24.0, 1e-12);
}

TEST(Network, SolvingFromANeighbourGivesWhatSolvingAfreshGives) {
  Network network(with_converter());
  const std::vector<TransferGain> gains{{15.0, 0.0}};
  const auto start = network.solve({{{}, {48.0, 0.0, 0.0}}, gains});
  const NetworkDemands more{{{}, {66.0, 0.0, 0.0}}, gains};
  const auto quick = network.solve_from(start, more);
  const auto fresh = Network(with_converter()).solve(more);
  for (std::size_t node = 0; node < 5; ++node) EXPECT_NEAR(quick.node_volt[node], fresh.node_volt[node], 1e-10);
  EXPECT_NEAR(quick.port_ampere[0], fresh.port_ampere[0], 1e-9);
}

TEST(Network, NothingAtAllIsSolved) { EXPECT_TRUE(solve({}, {}).node_volt.empty()); }

}  // namespace
}  // namespace loomleaf
