// What the ends of wires and cables stand for.
#include <gmock/gmock.h>

#include "loomleaf/plan/dump.h"
#include "support/read_plan.h"

namespace loomleaf {
namespace {

using testing::HasSubstr;
using testing::Not;

const std::string items = R"(
default wire 16 AWG
default cable 16 AWG
source BAT 12.8 V 100 Ah
bus PB
bus NB
chassis FRAME
fuse F1, F2 5 A blade
fuse FS 5 A blade on PB
switch S1 10 A
switch S2 10 A 2 ways
switch S3 10 A 2 poles
switch S4 10 A 2 poles 2 ways
shunt SH 100 A
dimmer D1 8 A
relay R1 contact 30 A
converter CV out 19 V 3 A
connector X1 3 poles
splice SP, SN
load L1..L4 3 W
load LF 3 W on FRAME
)";

// A plan of these items and more, as text.
std::string dump_with(const std::string& more) {
  const ReadPlan read = read_plan(items + more);
  EXPECT_EQ(read.said, "");
  return dump(read.plan);
}

Answer answer_with(const std::string& more) { return answer_to(items + more); }

// --- bare names in wires ---

TEST(BareName, MeansOutOnTheFromSideAndInOnTheToSide) {
  EXPECT_THAT(dump_with("wire W1 F1 to F2 1 m\n"), HasSubstr("W1: F1.out to F2.in"));
  EXPECT_THAT(dump_with("wire W1 S1 to SH 1 m\n"), HasSubstr("W1: S1.out to SH.in"));
}

TEST(BareName, MeansTheOneNodeOfASpliceOrBus) {
  EXPECT_THAT(dump_with("wire W1 PB to SP 1 m\n"), HasSubstr("W1: PB to SP"));
}

TEST(BareName, MeansTheFreeTerminalOfWhatIsOnSomethingInEitherDirection) {
  EXPECT_THAT(dump_with("wire W1 FS to L1+ 1 m\n"), HasSubstr("W1: FS.out to L1+"));
  EXPECT_THAT(dump_with("wire W9 BAT+ to FS 1 m\n"), HasSubstr("W9: BAT+ to FS.out"));
  EXPECT_THAT(dump_with("wire W1 F1 to LF 1 m\n"), HasSubstr("W1: F1.out to LF+"));
  EXPECT_THAT(dump_with("wire W1 LF to F1 1 m\n"), HasSubstr("W1: LF+ to F1.in"));
}

TEST(BareName, OfAPoleGoesByDirection) {
  EXPECT_THAT(dump_with("wire W1 F1 to X1.2 1 m\n"), HasSubstr("W1: F1.out to X1.in2"));
  EXPECT_THAT(dump_with("wire W1 X1.2 to L1+ 1 m\n"), HasSubstr("W1: X1.out2 to L1+"));
  EXPECT_THAT(dump_with("wire W1 S3.1 to S3.2 1 m\n"), HasSubstr("W1: S3.1.out to S3.2.in"));
}

TEST(BareName, OfTwoCandidatesInAWireNamesBoth) {
  EXPECT_EQ(answer_with("wire W1 BAT to F1 1 m\n").write, "BAT+ or BAT-");
  EXPECT_EQ(answer_with("wire W1 F1 to L1 1 m\n").write, "L1+ or L1-");
  EXPECT_EQ(answer_with("wire W1 F1 to D1 1 m\n").write, "D1.in+ or D1.in-");
  EXPECT_EQ(answer_with("wire W1 D1 to L1+ 1 m\n").write, "D1.out+ or D1.out-");
  EXPECT_EQ(answer_with("wire W1 F1 to S3 1 m\n").write, "S3.1.in or S3.2.in");
}

TEST(BareName, OfAChangeoverOrRelayIsNeverClear) {
  EXPECT_EQ(answer_with("wire W1 F1 to S2 1 m\n").write, "S2.in, S2.out1 or S2.out2");
  EXPECT_EQ(answer_with("wire W1 F1 to S4.2 1 m\n").write, "S4.2.in, S4.2.out1 or S4.2.out2");
  EXPECT_EQ(answer_with("wire W1 F1 to R1 1 m\n").write, "R1.85, R1.86, R1.30, R1.87 or R1.87a");
}

// --- named terminals ---

TEST(Terminal, IsFoundUnderItsName) {
  EXPECT_THAT(dump_with("wire W1 BAT+ to S2.out2 1 m\n"), HasSubstr("W1: BAT+ to S2.out2"));
  EXPECT_THAT(dump_with("wire W1 S4.1.in to S4.2.out2 1 m\n"), HasSubstr("W1: S4.1.in to S4.2.out2"));
  EXPECT_THAT(dump_with("wire W1 R1.87a to R1.30 1 m\n"), HasSubstr("W1: R1.87a to R1.30"));
  EXPECT_THAT(dump_with("wire W1 D1.out+ to X1.out3 1 m\n"), HasSubstr("W1: D1.out+ to X1.out3"));
}

TEST(Terminal, NamedIsTakenAgainstTheDirection) {
  EXPECT_THAT(dump_with("wire W1 F1.in to F2.out 1 m\n"), HasSubstr("W1: F1.in to F2.out"));
}

TEST(Terminal, UnknownIsAnsweredWithWhatTheItemHas) {
  const Answer answer = answer_with("wire W1 BAT.x to F1 1 m\n");
  EXPECT_EQ(answer.message, "`BAT` has no terminal x; it has + and -");
  EXPECT_EQ(answer.write, "BAT+ or BAT-");
  EXPECT_EQ(answer_with("wire W1 R1.87b to F1 1 m\n").write, "R1.87");
}

TEST(Terminal, AlsoIsOneMore) {
  EXPECT_THAT(dump_with("shunt S9 100 A also sense\nwire W1 S9.sense to L1+ 1 m\n"), HasSubstr("W1: S9.sense to L1+"));
  EXPECT_THAT(answer_with("switch S9 5 A 2 ways also out1\n").message, HasSubstr("has a terminal out1 already"));
}

TEST(Wire, FromATerminalToItselfIsAComplaint) {
  EXPECT_EQ(answer_with("wire W1 PB to PB 1 m\n").message, "`W1` would join PB to itself");
  EXPECT_EQ(answer_with("wire W1 F1.in to F1 1 m\n").message, "`W1` would join F1.in to itself");
}

// --- cables ---

TEST(Cable, BareItemStandsForItsPair) {
  EXPECT_THAT(dump_with("cable C1 BAT to L1 1 m\n"), HasSubstr("C1.1: BAT+ to L1+\n  C1.2: BAT- to L1-"));
  EXPECT_THAT(dump_with("cable C1 F1, NB to D1 1 m\n"), HasSubstr("C1.1: F1.out to D1.in+\n  C1.2: NB to D1.in-"));
  EXPECT_THAT(dump_with("cable C1 CV to L1 1 m\n"), HasSubstr("C1.1: CV.out+ to L1+\n  C1.2: CV.out- to L1-"));
}

TEST(Cable, BareConnectorStandsForAllItsPolesInOrder) {
  EXPECT_THAT(dump_with("cable C1 PB, NB, SP to X1 1 m\ncable C2 X1 to L1+, L1-, SN 1 m\n"),
              HasSubstr("C1.1: PB to X1.in1\n  C1.2: NB to X1.in2\n  C1.3: SP to X1.in3\n"
                        "cable C2 16 AWG 1 m\n  C2.1: X1.out1 to L1+\n"));
}

TEST(Cable, BareItemOnSomethingStandsForItsFreeTerminal) {
  EXPECT_THAT(dump_with("cable C1 BAT to FS, NB 1 m\n"), HasSubstr("C1.1: BAT+ to FS.out\n  C1.2: BAT- to NB"));
}

TEST(Cable, RangeInAnEndListsTerminals) {
  EXPECT_THAT(dump_with("cable C1 X1 to L1..L3+ 1 m\n"), HasSubstr("C1.3: X1.out3 to L3+"));
}

TEST(Cable, ChainMakesOneForEachTo) {
  EXPECT_THAT(dump_with("cable C1..C2 SP, SN to L1 to L2 1 m\n"),
              HasSubstr("cable C1 16 AWG 1 m\n  C1.1: SP to L1+\n  C1.2: SN to L1-\n"
                        "cable C2 16 AWG 1 m\n  C2.1: L1+ to L2+\n  C2.2: L1- to L2-\n"));
}

TEST(Wire, ChainGoesInAtOneSideOfADeviceAndOutAtTheOther) {
  EXPECT_THAT(dump_with("wire W1..W2 BAT+ to F1 to PB 1 m\n"),
              HasSubstr("W1: BAT+ to F1.in\nwire W2 16 AWG 1 m\n  W2: F1.out to PB"));
}

TEST(Cable, UnequalCountsAreAComplaintThatSaysBoth) {
  EXPECT_EQ(answer_with("cable C1 F1 to L1 1 m\n").message,
            "`C1` joins 1 terminal (F1.out) to 2 terminals (L1+ and L1-)");
}

TEST(Cable, OfOneCoreIsAComplaint) {
  EXPECT_THAT(answer_with("cable C1 F1 to L1+ 1 m\n").message, HasSubstr("two cores or more"));
}

TEST(Cable, CoresAreNamedByTheirColours) {
  EXPECT_THAT(dump_with("cable C1 BAT to L1 1 m cores red, black/white\n"),
              HasSubstr("C1.red: BAT+ to L1+ red\n  C1.black/white: BAT- to L1- black/white"));
}

TEST(Cable, CoresOfOtherCountThanItsEndsAreAComplaint) {
  EXPECT_EQ(answer_with("cable C1 BAT to L1 1 m cores red, black, blue\n").message,
            "`C1` has 3 cores and 2 terminals at each end");
  EXPECT_EQ(answer_with("cable C1 BAT to L1 1 m 3x1.5 mm2\n").message, "`C1` has 3 cores and 2 terminals at each end");
}

// --- names ---

TEST(Name, UnknownIsAnsweredWithTheNearest) {
  EXPECT_EQ(answer_with("wire W1 BATT+ to F1 1 m\n").write, "BAT+");
  EXPECT_EQ(answer_with("wire W1 f1.out to PB 1 m\n").write, "F1.out");
}

TEST(Name, OfAWireIsNoEnd) {
  EXPECT_EQ(answer_with("wire W1 F1 to PB 1 m\nwire W2 W1 to NB 1 m\n").message,
            "`W1` is a wire, and here an item is wanted");
}

TEST(Name, DeclaredOnAnUnreadLineIsNoFurtherComplaint) {
  const std::string text = complaints_of("x.loom", "zzz Q9 5 A\ntail T1\nwire W1 T1 to Q9 16 AWG 1 m\n");
  EXPECT_THAT(text, HasSubstr("`zzz` begins no statement"));
  EXPECT_THAT(text, Not(HasSubstr("not declared")));
}

}  // namespace
}  // namespace loomleaf
