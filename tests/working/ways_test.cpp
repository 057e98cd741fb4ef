// Which standings of the changeovers are taken.
#include "loomleaf/study/ways.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

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

TEST(Ways, GroupsApartRunSideBySide) {
  // S1 has three ways, S2 two: S2 is through first and stays in its first way
  EXPECT_THAT(
      texts(std::string(battery) + "bus PB 100 A\nfuse F1, F2 5 A on PB\nswitch S1 10 A 3 ways\nswitch S2 10 A 2 ways\n"
                                   "wire W1 F1 to S1.in 1 mm2 red 1 m\nwire W2 F2 to S2.in 1 mm2 red 1 m\n"),
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

TEST(Ways, MoreThanSixtyFourCombinationsAreTakenOneByOne) {
  const Studied studied = study_text(on_one_bus(7));
  EXPECT_THAT(studied.ways, SizeIs(8));
  EXPECT_EQ(studied.ways.back().text, "S7=2");
  const WaysReading reading = enumerate_ways(studied.plan, studied.circuit);
  ASSERT_THAT(reading.not_combined, SizeIs(1));
  EXPECT_THAT(reading.not_combined[0], SizeIs(7));
}

TEST(Ways, SixtyFourCombinationsAreAllTaken) {
  const Studied studied = study_text(on_one_bus(6));
  EXPECT_THAT(studied.ways, SizeIs(64));
  EXPECT_TRUE(enumerate_ways(studied.plan, studied.circuit).not_combined.empty());
}

}  // namespace
}  // namespace loomleaf::test
