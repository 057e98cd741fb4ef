#include <gtest/gtest.h>

#include "loomleaf/study/polarity.h"
#include "protection/support/test_plan.h"

namespace loomleaf {
namespace {

using test::TestPlan;

struct Found {
  Circuit circuit;
  Sides sides;
};
Found find(const TestPlan& built) {
  Found found;
  found.circuit = built.circuit();
  found.sides = find_sides(built.plan, found.circuit, enumerate_ways(built.plan, found.circuit).all.front());
  return found;
}
NodeId node(const TestPlan& built, const Found& found, const std::string& terminal) {
  return found.circuit.node_of[built.terminal(terminal)];
}
std::vector<std::string> sources(const TestPlan& built, const Found& found, std::size_t supply) {
  return test::names(built.plan, found.sides.supplies[SupplyId(supply)].sources);
}
using Names = std::vector<std::string>;

TestPlan lamp_on_battery() {
  TestPlan built;
  built.battery("BAT");
  built.fuse("F1", 5);
  built.load("L");
  built.wire("W1", "BAT+", "F1.in");
  built.wire("W2", "F1.out", "L+");
  built.wire("W3", "L-", "BAT-");
  return built;
}

TEST(Sides, PlusReachesThroughADeviceButNotThroughALoad) {
  const TestPlan built = lamp_on_battery();
  const Found found = find(built);
  EXPECT_TRUE(found.sides.is_feed(node(built, found, "L+")));
  EXPECT_FALSE(found.sides.is_return(node(built, found, "L+")));
  EXPECT_TRUE(found.sides.is_return(node(built, found, "L-")));
  EXPECT_FALSE(found.sides.is_feed(node(built, found, "L-")));
  EXPECT_EQ(found.sides.across(node(built, found, "L+"), node(built, found, "L-")).size(), 1u);
  EXPECT_TRUE(found.sides.shorts.empty());
}

TEST(Sides, OneIslandSpansALoad) {
  const TestPlan built = lamp_on_battery();
  const Found found = find(built);
  EXPECT_EQ(found.sides.island_of[node(built, found, "L+")], found.sides.island_of[node(built, found, "BAT-")]);
  EXPECT_EQ(found.sides.island_has_no_working_point.size(), 1u);
}

TEST(Sides, DeadShortNamesItsShortestWay) {
  TestPlan built = lamp_on_battery();
  built.wire("X", "F1.out", "L-");
  const Found found = find(built);
  ASSERT_EQ(found.sides.shorts.size(), 1u);
  std::vector<BranchId> way = found.sides.shorts[0].way;
  ASSERT_EQ(way.size(), 4u);
  EXPECT_EQ(way[0], found.circuit.branch_of[built.conductor("W1")]);
  EXPECT_EQ(found.circuit.branches[way[1]].item, built.item("F1"));
  EXPECT_EQ(way[2], found.circuit.branch_of[built.conductor("X")]);
  EXPECT_EQ(way[3], found.circuit.branch_of[built.conductor("W3")]);
  EXPECT_TRUE(found.sides.island_has_no_working_point[0]);
}

TEST(Sides, BatteriesCrosswiseAreADeadShort) {
  TestPlan built;
  built.battery("A");
  built.battery("B");
  built.wire("W1", "A+", "B-");
  built.wire("W2", "B+", "A-");
  const Found found = find(built);
  ASSERT_EQ(found.sides.shorts.size(), 1u);
  EXPECT_EQ(found.sides.shorts[0].way.size(), 2u);
}

// Wires from the middle of a bank to its top short the upper battery alone; the chain as a whole is none.
TEST(Sides, ShortOfOneBatteryInABankIsFound) {
  TestPlan built;
  built.battery("A");
  built.battery("B");
  built.wire("W1", "A+", "B-");
  built.wire("X", "B+", "B-");
  const Found found = find(built);
  ASSERT_EQ(found.sides.shorts.size(), 1u);
  EXPECT_EQ(test::names(built.plan, found.sides.supplies[found.sides.shorts[0].supply].sources), Names{"B"});
}

// In both middles other sources meet the crosswise pair, so that pairing by order alone would hide the ring.
TEST(Sides, RingOfTwoIsFoundAmongOthers) {
  TestPlan built;
  for (const char* id : {"Z", "W", "X", "Y"}) built.battery(id);
  built.wire("1", "Z+", "X-");
  built.wire("2", "X-", "Y+");
  built.wire("3", "W+", "Y-");
  built.wire("4", "Y-", "X+");
  const Found found = find(built);
  ASSERT_EQ(found.sides.shorts.size(), 1u);
  EXPECT_EQ(test::names(built.plan, found.sides.supplies[found.sides.shorts[0].supply].sources).size(), 2u);
}

TEST(Sides, SeriesBankIsOneSupplyWithItsPiecesBehind) {
  TestPlan built;
  built.battery("A", 12);
  built.battery("B", 12);
  built.load("L");
  built.wire("LINK", "A+", "B-");
  built.wire("W1", "B+", "L+");
  built.wire("W2", "A-", "L-");
  const Found found = find(built);
  ASSERT_EQ(found.sides.supplies.size(), 3u);
  EXPECT_EQ(sources(built, found, 0), (Names{"A", "B"}));
  EXPECT_DOUBLE_EQ(found.sides.supplies[SupplyId(0)].nominal.in(volts), 24);
  EXPECT_FALSE(found.sides.supplies[SupplyId(0)].piece_of);
  EXPECT_EQ(found.sides.supplies[SupplyId(1)].piece_of, SupplyId(0));
  EXPECT_TRUE(found.sides.is_feed(node(built, found, "A+")));
  EXPECT_FALSE(found.sides.is_return(node(built, found, "A+")));
  EXPECT_EQ(found.sides.across(node(built, found, "L+"), node(built, found, "L-")), std::vector<SupplyId>{SupplyId(0)});
  EXPECT_TRUE(found.sides.clashes.empty());
}

TEST(Sides, TapInTheMiddleOfABankHasASupply) {
  TestPlan built;
  for (const char* id : {"A", "B", "C"}) built.battery(id, 12);
  built.wire("1", "A+", "B-");
  built.wire("2", "B+", "C-");
  const Found found = find(built);
  const std::vector<SupplyId> across = found.sides.across(node(built, found, "B+"), node(built, found, "A-"));
  ASSERT_EQ(across.size(), 1u);
  EXPECT_DOUBLE_EQ(found.sides.supplies[across[0]].nominal.in(volts), 24);
}

TEST(Sides, TwoBatteriesOfOneVoltageDoNotClash) {
  TestPlan built;
  built.battery("A", 12);
  built.battery("B", 15);  // a quarter over, no more
  built.wire("1", "A+", "B+");
  built.wire("2", "A-", "B-");
  EXPECT_TRUE(find(built).sides.clashes.empty());
}

TEST(Sides, UnlikeVoltagesClash) {
  TestPlan built;
  built.battery("A", 12);
  built.battery("B", 15.1);
  built.wire("1", "A+", "B+");
  built.wire("2", "A-", "B-");
  const Found found = find(built);
  ASSERT_EQ(found.sides.clashes.size(), 1u);
  EXPECT_EQ(sources(built, found, found.sides.clashes[0].a.value), Names{"A"});
  EXPECT_TRUE(found.sides.island_has_no_working_point[0]);
}

TEST(Sides, ChainCountsWithItsSum) {
  TestPlan built;
  built.battery("A", 12);
  built.battery("B", 12);
  built.limited("CH", 20, 27.6);
  built.wire("0", "A+", "B-");
  built.wire("1", "B+", "CH+");
  built.wire("2", "A-", "CH-");
  EXPECT_TRUE(find(built).sides.clashes.empty());
}

// The charger stands across the lower two of three; whichever way the chain is put together, the two disagree.
TEST(Sides, ClashOverAPieceOfAChainIsFound) {
  for (const bool charger_first : {false, true}) {
    TestPlan built;
    if (charger_first) built.limited("CH", 20, 36);
    for (const char* id : {"A", "B", "C"}) built.battery(id, 12);
    if (!charger_first) built.limited("CH", 20, 36);
    built.wire("1", "A+", "B-");
    built.wire("2", "B+", "C-");
    built.wire("3", "CH+", "B+");
    built.wire("4", "CH-", "A-");
    const Found found = find(built);
    ASSERT_EQ(found.sides.clashes.size(), 1u);
    EXPECT_EQ(sources(built, found, found.sides.clashes[0].a.value), (Names{"A", "B"}));
    EXPECT_EQ(sources(built, found, found.sides.clashes[0].b.value), Names{"CH"});
  }
}

TEST(Sides, ConverterThatMeetsABatteryIsLimited) {
  TestPlan built;
  built.battery("A", 12);
  built.battery("B", 12);
  built.load("L");
  built.converter("DC", 30, 14.4);
  built.converter("LONE", 3, 5);
  built.wire("1", "A+", "DC.in+");
  built.wire("2", "A-", "DC.in-");
  built.wire("3", "DC.out+", "B+");
  built.wire("4", "DC.out-", "B-");
  built.wire("5", "A+", "LONE.in+");
  built.wire("6", "A-", "LONE.in-");
  built.wire("7", "LONE.out+", "L+");
  const Found found = find(built);
  const Supply& charging = found.sides.supplies[SupplyId(2)];
  EXPECT_EQ(charging.converter, built.item("DC"));
  EXPECT_TRUE(charging.limited);
  EXPECT_DOUBLE_EQ(charging.limit->in(amperes), 30);
  EXPECT_FALSE(found.sides.supplies[SupplyId(3)].limited);
  EXPECT_DOUBLE_EQ(found.sides.supplies[SupplyId(3)].limit->in(amperes), 3);
}

TEST(Polarity, LampWiredBackwardsIsReversed) {
  TestPlan built;
  built.battery("BAT");
  built.load("L");
  built.load("MOTOR", Load::Kind::motor);
  for (const std::string id : {"L", "MOTOR"}) {
    built.wire("1" + id, "BAT+", id + "-");
    built.wire("2" + id, "BAT-", id + "+");
  }
  const Found found = find(built);
  const Polarity polarity(built.plan, found.circuit, found.sides);
  EXPECT_TRUE(polarity.is_reversed(built.item("L")));
  EXPECT_FALSE(polarity.is_reversed(built.item("MOTOR")));
  EXPECT_FALSE(polarity.is_reversed(built.item("BAT")));
}

TEST(Polarity, ReversedBatteryAmongThreeIsTheOneNamed) {
  TestPlan built;
  for (const char* id : {"A", "B", "C"}) built.battery(id);
  built.wire("1", "A+", "B+");
  built.wire("2", "A-", "B-");
  built.wire("3", "A+", "C-");
  built.wire("4", "A-", "C+");
  const Found found = find(built);
  const Polarity polarity(built.plan, found.circuit, found.sides);
  EXPECT_FALSE(polarity.is_reversed(built.item("A")));
  EXPECT_FALSE(polarity.is_reversed(built.item("B")));
  EXPECT_TRUE(polarity.is_reversed(built.item("C")));
}

TEST(Polarity, SeriesBankIsNotReversed) {
  TestPlan built;
  for (const char* id : {"A", "B"}) built.battery(id);
  built.wire("1", "A+", "B-");
  const Found found = find(built);
  const Polarity polarity(built.plan, found.circuit, found.sides);
  EXPECT_FALSE(polarity.is_reversed(built.item("A")));
  EXPECT_FALSE(polarity.is_reversed(built.item("B")));
}

}  // namespace
}  // namespace loomleaf
