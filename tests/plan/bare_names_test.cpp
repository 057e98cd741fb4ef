// That a fuse is not by-passed by what a bare name means.
#include <gmock/gmock.h>

#include "support/read_plan.h"

namespace loomleaf {
namespace {

using testing::HasSubstr;

const std::string items = R"(
default wire 6 AWG
default cable 6 AWG
source BAT 12.8 V 100 Ah
source SOL solar 14 V limit 10 A
bus PB
bus NB
fuse F0 60 A class-t
fuse FS 20 A blade on PB
switch S1 10 A
dimmer D1 8 A
connector X1 2 poles
chassis FRAME
load L1, L2 3 W on FRAME
load L3, L4 3 W
)";

std::string message_with(const std::string& more) { return answer_to(items + more).message; }

TEST(TwoOnOneSide, OfAFuseIsAComplaintThatNamesBoth) {
  const ReadPlan read = read_plan(items + "wire W1 BAT+ to F0 1 m\nwire W2 PB to F0 1 m\n");
  ASSERT_EQ(read.complaints.size(), 1u);
  EXPECT_EQ(read.complaints[0].message, "`W1` and `W2` both end at F0.in, and nothing is joined to F0.out");
  EXPECT_THAT(read.complaints[0].write, HasSubstr("F0.out"));
  ASSERT_TRUE(read.complaints[0].also);
  EXPECT_EQ(read.complaints[0].also->text, "`W1` ends here");
}

TEST(TwoOnOneSide, OfAContactAPoleOrADimmerIsAComplaint) {
  EXPECT_THAT(message_with("wire W1 S1 to L3+ 1 m\nwire W2 S1 to L4+ 1 m\n"), HasSubstr("both end at S1.out"));
  EXPECT_THAT(message_with("wire W1 BAT+ to X1.2 1 m\nwire W2 PB to X1.2 1 m\n"), HasSubstr("both end at X1.in2"));
  EXPECT_THAT(message_with("cable C1 PB, NB to D1 1 m\ncable C2 L3 to D1 1 m\n"), HasSubstr("both end at D1.in+"));
}

TEST(TwoOnOneSide, IsNoComplaintOnceTheOtherSideIsJoined) {
  EXPECT_EQ(message_with("wire W1 BAT+ to F0 1 m\nwire W2 PB to F0 1 m\nwire W3 F0 to NB 1 m\n"), "");
  EXPECT_EQ(message_with("wire W1 BAT+ to F0 1 m\nwire W2 PB to F0 1 m\nfuse F5 5 A on F0.out\n"), "");
}

TEST(TwoOnOneSide, IsNoComplaintWhereOneNamesItsTerminal) {
  EXPECT_EQ(message_with("wire W1 BAT+ to F0 1 m\nwire W2 PB to F0.in 1 m\n"), "");
}

TEST(TwoOnOneSide, IsNoComplaintOfALoadOrSource) {
  EXPECT_EQ(message_with("wire W1 F0 to L1 1 m\nwire W2 L1 to L2 1 m\n"), "");
  EXPECT_EQ(message_with("cable C1 BAT to L3 1 m\ncable C2 BAT to L4 1 m\n"), "");
}

TEST(OnABus, FuseTakesASupplyAtItsFreeTerminal) { EXPECT_EQ(message_with("wire W9 SOL+ to FS 1 m\n"), ""); }

// The block holds the fuse's in already, so a supply and a load that meet on its out are what was written.
TEST(OnABus, TwoOnTheFreeTerminalAreNoComplaint) {
  EXPECT_EQ(message_with("wire W9 SOL+ to FS 1 m\nwire W8 FS to L3+ 1 m\n"), "");
}

TEST(OnABus, WireFromThatBusWouldRunPastTheFuse) {
  EXPECT_THAT(message_with("wire W9 PB to FS 1 m\n"), HasSubstr("`W9` would run past it"));
  EXPECT_THAT(message_with("wire W9 FS to PB 1 m\n"), HasSubstr("`W9` would run past it"));
  EXPECT_THAT(message_with("fuse F5 5 A on BAT+\nwire W9 BAT+ to F5 1 m\n"), HasSubstr("would run past it"));
  EXPECT_THAT(message_with("wire W9 FRAME to L1 1 m\n"), HasSubstr("would run past it"));
  EXPECT_EQ(message_with("wire W9 PB to FS.out 1 m\n"), "");
}

TEST(OnABus, ChainThroughTheBareNameWouldRunPastTheFuse) {
  EXPECT_THAT(message_with("wire W8..W9 NB to FS to L3+ 1 m\n"), HasSubstr("this chain would run past it"));
  EXPECT_EQ(message_with("wire W8..W9 NB to FS.out to L3+ 1 m\n"), "");
  EXPECT_EQ(message_with("wire W8..W9 F0 to L1 to L2 1 m\n"), "");
}

}  // namespace
}  // namespace loomleaf
