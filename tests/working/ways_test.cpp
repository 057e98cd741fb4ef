// Which standings of the changeovers are taken.
#include "loomleaf/study/ways.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "working/support/studied.h"

namespace loomleaf::test {
namespace {

using ::testing::ElementsAre;
using ::testing::SizeIs;

std::vector<std::string> texts(const std::string& plan) {
  std::vector<std::string> all;
  for (const Ways& ways : study_text(plan).ways) all.push_back(ways.text);
  return all;
}

// So many changeovers of two ways on one bus.
std::string on_one_bus(int count) {
  std::string plan = "source BAT 12 V 100 Ah\nbus PB 100 A\nwire W0 BAT+ to PB 1 mm2 red 1 m\n";
  for (int i = 1; i <= count; ++i) {
    const std::string number = std::to_string(i);
    plan += "switch S" + number + " 10 A 2 ways\nwire W" + number + " PB to S" + number + ".in 1 mm2 red 1 m\n";
  }
  return plan;
}

const char* const battery = "source BAT 12 V 100 Ah\n";

TEST(Ways, WithoutChangeoversThereIsOne) { EXPECT_THAT(texts(battery), ElementsAre("")); }

TEST(Ways, OneWaySwitchIsNoChangeover) {
  EXPECT_THAT(texts(std::string(battery) + "switch S1 10 A\nwire W1 BAT+ to S1 1 mm2 red 1 m\n"), ElementsAre(""));
}

TEST(Ways, ChangeoversThatMeetAreCombined) {
  EXPECT_THAT(
      texts(std::string(battery) + "bus PB 100 A\nswitch S1, S2 10 A 2 ways\nwire W0 PB to S1.in 1 mm2 red 1 m\n"
                                   "wire W1 PB to S2.in 1 mm2 red 1 m\n"),
      ElementsAre("", "S1=2", "S2=2", "S1=2 S2=2"));
}

// S1 has three ways, S2 two: what hangs together through a device, a load or a return is combined.
const char* const behind_two_fuses =
    "bus PB 100 A\nfuse F1, F2 5 A on PB\nswitch S1 10 A 3 ways\nswitch S2 10 A 2 ways\n"
    "wire W1 F1 to S1.in 1 mm2 red 1 m\nwire W2 F2 to S2.in 1 mm2 red 1 m\n";

TEST(Ways, ChangeoversWithADeviceBetweenAreCombined) {
  EXPECT_THAT(texts(battery + std::string(behind_two_fuses)),
              ElementsAre("", "S1=2", "S1=3", "S2=2", "S1=2 S2=2", "S1=3 S2=2"));
}

TEST(Ways, ChangeoversThatShareAReturnAloneAreCombined) {
  // each behind a battery of its own; only the loads' returns meet
  EXPECT_THAT(texts("source A, B 12 V 100 Ah\nswitch S1, S2 10 A 2 ways\nload L1, L2 1 W\nbus NB 10 A\n"
                    "wire W1 A+ to S1.in 1 mm2 red 1 m\nwire W2 B+ to S2.in 1 mm2 red 1 m\n"
                    "wire W3 S1.out2 to L1+ 1 mm2 red 1 m\nwire W4 S2.out2 to L2+ 1 mm2 red 1 m\n"
                    "wire W5 L1- to NB 1 mm2 black 1 m\nwire W6 L2- to NB 1 mm2 black 1 m\n"),
              ElementsAre("", "S1=2", "S2=2", "S1=2 S2=2"));
}

TEST(Ways, WhatNothingJoinsRunsSideBySide) {
  // S2 is through first and stays in its first way
  EXPECT_THAT(texts("source A, B 12 V 100 Ah\nswitch S1 10 A 3 ways\nswitch S2 10 A 2 ways\n"
                    "wire W1 A+ to S1.in 1 mm2 red 1 m\nwire W2 B+ to S2.in 1 mm2 red 1 m\n"),
              ElementsAre("", "S1=2 S2=2", "S1=3"));
}

TEST(Ways, PolesThatMoveTogetherAreOneChangeover) {
  EXPECT_THAT(texts(std::string(battery) + "switch S1 10 A 2 ways 2 poles\nwire W1 BAT+ to S1.1.in 1 mm2 red 1 m\n"
                                           "wire W2 S1.2.in to BAT- 1 mm2 black 1 m\n"),
              ElementsAre("", "S1=2"));
}

TEST(Ways, RelayWithBothContactsIsTakenAtRestFirst) {
  const std::string relay =
      std::string(battery) +
      "relay R1 contact 30 A coil 2 W\nload A, B 1 W on BAT-\nwire W1 BAT+ to R1.30 1 mm2 red 1 m\n"
      "wire W2 R1.87 to A+ 1 mm2 red 1 m\n";
  EXPECT_THAT(texts(relay + "wire W3 R1.87a to B+ 1 mm2 red 1 m\n"), ElementsAre("", "R1=1"));
}

TEST(Ways, RelayWithOneContactStandsClosed) {
  const Studied studied = study_text(std::string(battery) +
                                     "relay R1 contact 30 A coil 2 W\nload A 12 W constant-current on BAT-\n"
                                     "wire W1 BAT+ to R1.30 1 mm2 red 1 m\nwire W2 R1.87 to A+ 1 mm2 red 1 m\n");
  EXPECT_THAT(studied.ways, SizeIs(1));
  EXPECT_NEAR(studied.wire_ampere("W2"), 1.0, 1e-9);
}

// Every position of one changeover beside every position of each other, and each in some standing of all.
void expect_all_pairs(const std::vector<Ways>& standings, const Circuit& circuit) {
  for (const ChangerId a : circuit.changers.ids())
    for (const ChangerId b : circuit.changers.ids()) {
      if (a == b) continue;
      for (int at_a = 0; at_a < circuit.changers[a].positions(); ++at_a)
        for (int at_b = 0; at_b < circuit.changers[b].positions(); ++at_b)
          EXPECT_TRUE(std::ranges::any_of(
              standings, [&](const Ways& ways) { return ways.way_of[a] == at_a && ways.way_of[b] == at_b; }))
              << a.value << '=' << at_a << ' ' << b.value << '=' << at_b;
    }
}

bool has_standing(const std::vector<Ways>& standings, int way) {
  return std::ranges::any_of(
      standings, [&](const Ways& ways) { return std::ranges::all_of(ways.way_of, [&](int is) { return is == way; }); });
}

TEST(Ways, OfMoreThanSixtyFourCombinationsEveryPairIsTaken) {
  for (const int count : {7, 12, 40, 100}) {
    SCOPED_TRACE(count);
    const Studied studied = study_text(on_one_bus(count));
    expect_all_pairs(studied.ways, studied.circuit);
    EXPECT_TRUE(has_standing(studied.ways, 0));
    EXPECT_TRUE(has_standing(studied.ways, 1));
    EXPECT_TRUE(studied.ways.front().text.empty());
    // those and each alone
    EXPECT_LE(studied.ways.size(), 3.0 + 2.0 * std::log2(count) + count);
    for (int i = 1; i <= count; ++i) {
      const std::string alone = "S" + std::to_string(i) + "=2";
      EXPECT_TRUE(std::ranges::count(studied.ways, alone, &Ways::text)) << alone;
    }
    const WaysReading reading = enumerate_ways(studied.plan, studied.circuit);
    ASSERT_THAT(reading.not_combined, SizeIs(1));
    EXPECT_THAT(reading.not_combined[0], SizeIs(count));
  }
}

TEST(Ways, PairsOfUnlikeChangeoversAreTakenToo) {
  std::string plan = on_one_bus(5) + "relay R1 contact 10 A\nwire RA PB to R1.30 1 mm2 red 1 m\n";
  plan += "wire RB R1.87 to R2.30 1 mm2 red 1 m\nrelay R2 contact 10 A\nwire RC R1.87a to R2.87 1 mm2 red 1 m\n";
  plan += "wire RD R2.87a to NB 1 mm2 red 1 m\nbus NB 10 A\nswitch T1 10 A 4 ways\nwire TA PB to T1.in 1 mm2 red 1 m\n";
  plan += "switch T2 10 A 2 ways both\nwire TB PB to T2.in 1 mm2 red 1 m\n";
  const Studied studied = study_text(plan);
  expect_all_pairs(studied.ways, studied.circuit);
  EXPECT_LE(studied.ways.size(), 36u);  // 12 of them each alone
}

// Two that meet with no device between, six times: their combinations are 4 each and 4096 together.
TEST(Ways, OfAGroupEveryCombinationIsTakenAmongMany) {
  std::string plan = std::string(battery) + "bus PB 100 A\n";
  for (int i = 1; i <= 6; ++i) {
    const std::string n = std::to_string(i);
    plan += "fuse F" + n + " 5 A on PB\nswitch A" + n + ", B" + n + " 10 A 2 ways\nwire W" + n + " F" + n + " to A" +
            n + ".in 1 mm2 red 1 m\nwire V" + n + " A" + n + ".out1 to B" + n + ".in 1 mm2 red 1 m\n";
  }
  const Studied studied = study_text(plan);
  expect_all_pairs(studied.ways, studied.circuit);
  EXPECT_LE(studied.ways.size(), 12u);
}

// One a fuse each: no more than the pairs take.
TEST(Ways, PairsOfManyTakeFewStandings) {
  std::string plan = std::string(battery) + "bus PB 100 A\nwire W0 BAT+ to PB 1 mm2 red 1 m\n";
  for (int i = 1; i <= 100; ++i) {
    const std::string n = std::to_string(i);
    plan += "fuse F" + n + " 5 A on PB\nswitch S" + n + " 10 A 2 ways\nwire W" + n + " F" + n + " to S" + n +
            ".in 1 mm2 red 1 m\n";
  }
  const Studied studied = study_text(plan);
  expect_all_pairs(studied.ways, studied.circuit);
  EXPECT_LE(studied.ways.size(), 3.0 + 2.0 * std::log2(100.0));
}

TEST(Ways, StandingsDoNotHangOnThePlansOrder) {
  const auto positions = [](const Studied& studied) {
    std::set<std::map<std::string, int>> all;
    for (const Ways& ways : studied.ways) {
      std::map<std::string, int> at;
      for (const ChangerId id : studied.circuit.changers.ids())
        at[studied.plan.items[studied.circuit.changers[id].item].id] = ways.way_of[id];
      all.insert(std::move(at));
    }
    return all;
  };
  std::string forth = "source BAT 12 V 100 Ah\nbus PB 100 A\n", back = forth;
  for (int i = 1; i <= 9; ++i) {
    const auto declare = [](int n) {
      const std::string number = std::to_string(n);
      return "switch S" + number + " 10 A 2 ways\nwire W" + number + " PB to S" + number + ".in 1 mm2 red 1 m\n";
    };
    forth += declare(i);
    back += declare(10 - i);
  }
  EXPECT_EQ(positions(study_text(forth)), positions(study_text(back)));
}

TEST(Ways, LargePlansAreTakenThroughFewerStandings) {
  // 50,000 branches in all standings are studied: of 5001 conductors and 128 contacts 9, where 64 changeovers take
  // more for every pair
  std::string plan = on_one_bus(64);
  for (int i = 0; i < 4936; ++i) plan += "wire X" + std::to_string(i) + " BAT+ to PB 1 mm2 red 1 m\n";
  const SourceText source("test.loom", "system 12 V\n" + plan);
  const Document document = read_document(source);
  const Plan large = build_plan(document, source, {}).plan;
  ASSERT_EQ(large.conductors.size(), 5001u);
  const WaysReading reading = enumerate_ways(large, build_circuit(large));
  EXPECT_THAT(reading.all, SizeIs(9));
  EXPECT_TRUE(has_standing(reading.all, 1));
  EXPECT_THAT(reading.not_combined, SizeIs(1));
}

TEST(Ways, BothIsOneMorePosition) {
  const Studied studied = study_text(
      "source A, B 12 V 100 Ah\nswitch S1 100 A 2 ways both\nload L 10 A constant-current on A-\n"
      "wire W1 A+ to S1.out1 1 mm2 red 1 m\nwire W2 B+ to S1.out2 1 mm2 red 1 m\nwire W3 B- to A- 10 mm2 black 1 m\n"
      "wire W4 S1.in to L+ 1 mm2 red 1 m\n");
  EXPECT_THAT(studied.case_names(), ElementsAre("load", "load S1=2", "load S1=both"));
  const Ways& both = studied.ways[2];
  for (const BranchId branch : studied.circuit.changers[ChangerId(std::size_t{0})].branches)
    EXPECT_TRUE(conducts(studied.circuit, branch, both));
  // the first of 20 mohm, the second of 22 mohm, side by side
  EXPECT_NEAR(studied.load_volt("L"), 12.0 - 10.0 * (0.02 + 0.022), 1e-9);
  EXPECT_NEAR(studied.wire_ampere("W1"), 10.0, 1e-9);
}

TEST(Ways, SixtyFourCombinationsAreAllTaken) {
  const Studied studied = study_text(on_one_bus(6));
  EXPECT_THAT(studied.ways, SizeIs(64));
  EXPECT_TRUE(enumerate_ways(studied.plan, studied.circuit).not_combined.empty());
}

}  // namespace
}  // namespace loomleaf::test
