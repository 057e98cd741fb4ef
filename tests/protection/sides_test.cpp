#include <gtest/gtest.h>

#include <tuple>

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

// Strings of so many batteries of 12 V between two points, a load across them.
TestPlan strings(const std::vector<std::pair<std::string, int>>& of, const std::string& turned) {
  TestPlan built;
  built.bus("P");
  built.bus("N");
  built.load("L");
  built.wire("L1", "P", "L+");
  built.wire("L2", "L-", "N");
  int wires = 0;
  for (const auto& [stem, count] : of) {
    std::string from = "N";
    for (int i = 1; i <= count; ++i) {
      const std::string id = stem + std::to_string(i);
      built.battery(id, 12);
      const bool is_turned = turned.find(id) != std::string::npos;
      built.wire("W" + std::to_string(++wires), from, id + (is_turned ? "+" : "-"));
      from = id + (is_turned ? "-" : "+");
    }
    built.wire("W" + std::to_string(++wires), from, "P");
  }
  return built;
}

TEST(Sides, StringWithATurnedMemberClashesWithTheOtherAndNamesIt) {
  for (const int count : {2, 3, 4})
    for (int i = 1; i <= count; ++i)
      for (const char* stem : {"A", "B"}) {
        const std::string turned = stem + std::to_string(i);
        SCOPED_TRACE(std::to_string(count) + " a string, turned: " + turned);
        const TestPlan built = strings({{"A", count}, {"B", count}}, turned);
        const Found found = find(built);
        ASSERT_EQ(found.sides.clashes.size(), 1u);
        const VoltageClash& clash = found.sides.clashes[0];
        EXPECT_EQ(test::names(built.plan, clash.turned), Names{turned});
        EXPECT_DOUBLE_EQ(found.sides.supplies[clash.a].nominal.in(volts), 12.0 * (count - 2));
        EXPECT_DOUBLE_EQ(found.sides.supplies[clash.b].nominal.in(volts), 12.0 * count);
        EXPECT_EQ(sources(built, found, clash.a.value).size(), static_cast<std::size_t>(count));
        EXPECT_TRUE(found.sides.island_has_no_working_point[0]);
        EXPECT_TRUE(found.sides.shorts.empty());
      }
}

TEST(Sides, TwoTurnedMembersClashToo) {
  for (const char* turned : {"A2 A3", "A1 A2", "A3 A4", "A1 A3", "A2 B3 B4"}) {
    const Found found = find(strings({{"A", 4}, {"B", 4}}, turned));
    EXPECT_FALSE(found.sides.clashes.empty()) << turned;
  }
}

TEST(Sides, StringsThatAllLieOneWayDoNotClash) {
  for (const int count : {1, 2, 3, 4}) {
    const TestPlan built = strings({{"A", count}, {"B", count}, {"C", count}}, "");
    const Found found = find(built);
    EXPECT_TRUE(found.sides.clashes.empty()) << count;
    const Polarity polarity(built.plan, found.circuit, found.sides);
    for (const ItemId item : built.plan.items.ids()) EXPECT_FALSE(polarity.is_reversed(item)) << count;
  }
}

// Two plus bars and two minus bars: of the ring through all four each step from bar to bar goes the other way.
TEST(Sides, RingOfBarsAgreesUpToAQuarter) {
  for (const auto& [last, clashes] : {std::pair(18.0, 0u), std::pair(18.1, 1u)}) {
    TestPlan built;
    for (const char* bar : {"P1", "P2", "N1", "N2"}) built.bus(bar);
    built.battery("A", 12);
    built.battery("B", 12);
    built.battery("C", 12);
    built.battery("D", last);  // 12 V + 12 V stand against 12 V + D
    int wires = 0;
    for (const auto& [id, plus, minus] : {std::tuple("A", "P1", "N1"), std::tuple("B", "P1", "N2"),
                                          std::tuple("C", "P2", "N2"), std::tuple("D", "P2", "N1")}) {
      built.wire("W" + std::to_string(++wires), id + std::string("+"), plus);
      built.wire("W" + std::to_string(++wires), id + std::string("-"), minus);
    }
    EXPECT_EQ(find(built).sides.clashes.size(), clashes) << last;
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

// One string with a load across it: nothing clashes, and the turned one meets its neighbours with like poles.
TEST(Polarity, BatteryTurnedInItsStringIsReversed) {
  for (const int count : {2, 3, 4, 5})
    for (int i = 1; i <= count; ++i) {
      const std::string turned = "A" + std::to_string(i);
      SCOPED_TRACE(std::to_string(count) + " in the string, turned: " + turned);
      const TestPlan built = strings({{"A", count}}, turned);
      const Found found = find(built);
      EXPECT_TRUE(found.sides.clashes.empty());
      const Polarity polarity(built.plan, found.circuit, found.sides);
      Names reversed;
      for (const ItemId item : built.plan.items.ids())
        if (polarity.is_reversed(item)) reversed.push_back(built.plan.items[item].id);
      EXPECT_EQ(reversed, Names{turned});
    }
}

TEST(Polarity, BatteriesSideBySideWithoutALoadAreNotReversed) {
  TestPlan built;
  for (const char* id : {"A", "B"}) built.battery(id, 12);
  built.wire("1", "A+", "B+");
  built.wire("2", "A-", "B-");
  const Found found = find(built);
  const Polarity polarity(built.plan, found.circuit, found.sides);
  for (const ItemId item : built.plan.items.ids()) EXPECT_FALSE(polarity.is_reversed(item));
}

TEST(Polarity, BankWithTapsIsNotReversed) {
  TestPlan built;
  for (const char* id : {"A", "B", "C"}) built.battery(id, 12);
  for (const char* id : {"L", "M", "T"}) built.load(id);
  built.wire("1", "A+", "B-");
  built.wire("2", "B+", "C-");
  built.wire("3", "A+", "L+");  // on the lowest
  built.wire("4", "L-", "A-");
  built.wire("5", "C+", "M+");  // on the highest
  built.wire("6", "M-", "B+");
  built.wire("7", "C+", "T+");
  built.wire("8", "T-", "A-");
  const Found found = find(built);
  const Polarity polarity(built.plan, found.circuit, found.sides);
  for (const ItemId item : built.plan.items.ids()) EXPECT_FALSE(polarity.is_reversed(item));
}

}  // namespace
}  // namespace loomleaf
