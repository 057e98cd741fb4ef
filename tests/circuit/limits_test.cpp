// Above 60 V DC between two points: IEC 61140's bound of extra-low voltage for ripple-free DC in dry places is 120 V;
// 60 V is this program's own, the lower one that several national codes draw for work by lay persons (from memory).
#include <gmock/gmock.h>

#include "support/read_plan.h"

namespace loomleaf {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::IsEmpty;

std::vector<Complaint> refused(const std::string& text) {
  const ReadPlan read = read_plan("default wire 2 AWG 300 mm\n" + text);
  EXPECT_EQ(read.said, "");
  return check_voltage_limits(read.plan, build_circuit(read.plan));
}

TEST(SeriesChain, UpTo60VoltsIsTaken) {
  EXPECT_THAT(
      refused("source B1..B4 12 V high 15 V 100 Ah\nwire W1 B1+ to B2-\nwire W2 B2+ to B3-\nwire W3 B3+ to B4-\n"),
      IsEmpty());
}

TEST(SeriesChain, Above60VoltsByItsHighIsRefused) {
  const auto complaints =
      refused("source B1..B4 12.8 V high 15.1 V 100 Ah\nwire W1 B1+ to B2-\nwire W2 B2+ to B3-\nwire W3 B3+ to B4-\n");
  ASSERT_EQ(complaints.size(), 1u);
  EXPECT_TRUE(complaints[0].refuses);
  EXPECT_THAT(complaints[0].message, HasSubstr("B1, B2, B3 and B4 together put 60.4 V between two points"));
}

TEST(SeriesChain, ThroughFusesSwitchesAndConnectorsIsOne) {
  EXPECT_EQ(refused("source B1..B2 36 V 100 Ah\nfuse F1 60 A on B1+\nswitch S1 60 A\nconnector X1 1 poles\n"
                    "wire W1 F1 to S1\nwire W2 S1 to X1.1\nwire W3 X1.1 to B2-\n")
                .size(),
            1u);
}

TEST(SeriesChain, ThroughAChangeoverIsSeenInEachOfItsWays) {
  // in parallel by way 1, in series by way 2
  const std::string bank = R"(
source B1..B2 36 V 100 Ah
switch S1 100 A 2 poles 2 ways
wire W1 B1+ to S1.1.out1
wire W2 B2+ to S1.1.in
wire W3 B1- to S1.2.out1
wire W4 B1+ to S1.2.out2
wire W5 B2- to S1.2.in
)";
  EXPECT_EQ(refused(bank).size(), 1u);
}

TEST(Bank, ParallelStringsDoNotAddUp) {
  std::string text =
      "source A1..A2 25.6 V high 29.2 V 100 Ah\nsource B1..B2 25.6 V high 29 V 100 Ah\n"
      "source CH charger 57.6 V limit 20 A\nbus P\nbus N\n"
      "wire WA1 N to A1-\nwire WA2 A1+ to A2-\nwire WA3 A2+ to P\n"
      "wire WB1 N to B1-\nwire WB2 B1+ to B2-\nwire WB3 B2+ to P\n"
      "wire WC1 N to CH-\nwire WC2 CH+ to P\n";
  EXPECT_THAT(refused(text), IsEmpty());
  // the same in pairs side by side, and one pair too high
  EXPECT_THAT(refused(text + "wire WX A1+ to B1+\n"), IsEmpty());
  EXPECT_THAT(refused(text + "source C1 12 V high 14.4 V 100 Ah\nwire WD P to C1-\n"),
              testing::ElementsAre(testing::Field(&Complaint::message, AllOf(HasSubstr("72.8 V"), HasSubstr("C1")))));
}

// A and B run into each other, a dead short: there is no voltage between their ends for C to stand on.
TEST(Bank, SourcesInARingAddNothing) {
  const std::string ring = "source A, B 30 V 100 Ah\nsource C 36 V 100 Ah\nwire W1 A+ to B-\nwire W2 B- to C-\n";
  EXPECT_EQ(refused(ring).size(), 1u);
  EXPECT_THAT(refused(ring + "wire W3 B+ to A-\n"), IsEmpty());
}

TEST(Bank, HighestStringCountsThoughAChargerOfLessStandsAcross) {
  EXPECT_EQ(refused("source A1..A2 25.6 V high 31 V 100 Ah\nsource CH charger 58 V limit 20 A\n"
                    "wire W1 CH- to A1-\nwire W2 A1+ to A2-\nwire W3 A2+ to CH+\n")
                .size(),
            1u);
}

TEST(Bank, SourcesPlusToPlusAreToldApartByTheirDifference) {
  EXPECT_THAT(refused("source A 48 V 100 Ah\nsource B 36 V 100 Ah\nwire W1 A+ to B+\n"), IsEmpty());
  // 48 - 10 + 24: from A- up to the top of C
  EXPECT_EQ(refused("source A 48 V 100 Ah\nsource B 10 V 100 Ah\nsource C 24 V 100 Ah\n"
                    "wire W1 A+ to B+\nwire W2 B- to C-\n")
                .size(),
            1u);
}

TEST(Converter, IsolatedOutputOnTopOfABatteryAddsUp) {
  const std::string text = "source A 24 V 100 Ah\nwire W1 A+ to CV.in+\nwire W2 A- to CV.in-\n";
  EXPECT_EQ(refused(text + "converter CV out 48 V 3 A isolated\nwire W3 A+ to CV.out-\n").size(), 1u);
  EXPECT_THAT(refused(text + "converter CV out 48 V 3 A\n"), IsEmpty());
}

TEST(Ring, OfSourcesIsNoChain) {
  EXPECT_THAT(refused("source A, B 48 V 100 Ah\nwire W1 A+ to B-\nwire W2 B+ to A-\n"), IsEmpty());
}

}  // namespace
}  // namespace loomleaf
