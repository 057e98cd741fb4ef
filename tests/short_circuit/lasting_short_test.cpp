// Which shorts last too long, and whom a finding about one names.
#include <gmock/gmock.h>

#include <cmath>

#include "short_circuit/support/shorted.h"

namespace loomleaf::test {
namespace {

using testing::IsEmpty;

TEST(LastingShort, NamesTheThinnestOfTheLoop) {
  // 20 A maxi: 1 s at 6 times, that is 14,400 A2s for good; 18 AWG bears about 10,000, 12 AWG twenty-five times that.
  const Shorted plan(R"(
system 12 V rules rv
source BAT 12.8 V low 12.0 V 100 Ah short-circuit 2 kA
fuse F1 20 A maxi on BAT+
load X 24 W
wire W1 F1 to X+ 12 AWG red 1 m
wire W2 X- to BAT- 18 AWG black 1 m
)");
  const LastingShort* lasting = plan.lasting("W2");
  ASSERT_NE(lasting, nullptr);
  EXPECT_TRUE(lasting->overheats);
  EXPECT_EQ(plan.lasting("W1"), nullptr);
  EXPECT_LT(*lasting->bears, *lasting->opens);
}

using Names = std::vector<std::string>;

Names names(const Shorted& plan, const std::vector<ConductorId>& conductors) {
  Names names;
  for (const ConductorId id : conductors) names.push_back(plan.seen.plan.conductors[id].id);
  return names;
}

TEST(LastingShort, TellsEachOfWiresSideBySideThatSufferAlike) {
  const Shorted plan(R"(
system 12 V rules rv
source BAT 12.8 V low 12.0 V 100 Ah short-circuit 2 kA
fuse F1 30 A maxi on BAT+
bus PB 100 A
load X 24 W
wire A1 F1 to PB 20 AWG red 1 m
wire A2 F1 to PB 20 AWG red 1 m
wire W2 PB to X+ 10 AWG red 1 m
wire W3 X- to BAT- 10 AWG black 1 m
)");
  const LastingShort *one = plan.lasting("A1"), *other = plan.lasting("A2");
  ASSERT_NE(one, nullptr);
  ASSERT_NE(other, nullptr);
  EXPECT_EQ(one->bears, other->bears);
}

// 20 AWG and 24 AWG behind a fuse that never opens: both pass their limit for ever, the thin one sooner.
TEST(LastingShort, ThatNeverEndsNamesWhatBearsItLeast) {
  const std::string head = R"(
system 12 V rules rv
source BAT 12.8 V low 12.0 V 100 Ah max 100 A short-circuit 500 A
fuse F1 20 A blade on BAT+
splice SP1, SP2
load X 6 W
wire C SP2 to X+ 10 AWG red 1 m
wire D X- to BAT- 10 AWG black 85 m
)";
  const std::string thick = "wire A F1 to SP1 20 AWG red 3 m\n", thin = "wire B SP1 to SP2 24 AWG red 2 m\n";
  for (const std::string& wires : {thick + thin, thin + thick}) {
    const Shorted plan(head + wires);
    const LastingShort* lasting = plan.lasting("B");
    ASSERT_NE(lasting, nullptr) << wires;
    EXPECT_FALSE(lasting->opens);
    EXPECT_NEAR(lasting->bears->in(seconds), 1.63, 0.01);
  }
}

TEST(LastingShort, ThatNeverEndsNamesAThinWireBeforeTheShortedOne) {
  const Shorted plan(R"(
system 12 V rules rv
source BAT 12.8 V low 12.0 V 100 Ah max 100 A short-circuit 500 A
fuse F1 20 A blade on BAT+
splice SP2
load X 6 W
wire B F1 to SP2 24 AWG red 1 m
wire C SP2 to X+ 10 AWG red 1 m
wire D X- to BAT- 14 AWG black 56 m
)");
  const LastingShort* lasting = plan.lasting("B");
  ASSERT_NE(lasting, nullptr);
  EXPECT_LT(lasting->bears->in(seconds), 2.0);
  EXPECT_EQ(plan.lasting("D"), nullptr);
}

// 20 m of 18 AWG let so little through that the fuse never opens, and 20 AWG bears that least.
TEST(LastingShort, TellsAllPlacesAtWhichItIsAlike) {
  const Shorted plan(R"(
system 12 V rules rv
source BAT 12.8 V low 12.0 V 100 Ah short-circuit 2 kA
fuse F1 20 A blade on BAT+
bus PB 100 A
load X1..X2 12 W
wire A1 F1 to PB 20 AWG red 1 m
wire W1 PB to X1+ 18 AWG red 20 m
wire W2 PB to X2+ 18 AWG red 20 m
wire W3 X1- to BAT- 10 AWG black 1 m
wire W4 X2- to BAT- 10 AWG black 1 m
)");
  const LastingShort* lasting = plan.lasting("A1");
  ASSERT_NE(lasting, nullptr);
  EXPECT_EQ(names(plan, lasting->shorted), Names({"W1", "W2"}));
  EXPECT_EQ(lasting->ways, std::vector<std::size_t>({0}));
}

TEST(LastingShort, TellsTheWaysOfAChangeoverInWhichItIsAlike) {
  const Shorted plan(R"(
system 12 V rules rv
source BAT 12.8 V low 12.0 V 100 Ah max 100 A short-circuit 500 A
fuse F1 20 A blade on BAT+
switch S 30 A 3 ways
load X1..X3 6 W
wire A F1 to S.in 20 AWG red 1 m
wire W1 S.out1 to X1+ 18 AWG red 1 m
wire W2 S.out2 to X2+ 18 AWG red 20 m
wire W3 S.out3 to X3+ 18 AWG red 20 m
wire N1 X1- to BAT- 10 AWG black 1 m
wire N2 X2- to BAT- 10 AWG black 1 m
wire N3 X3- to BAT- 10 AWG black 1 m
)");
  const LastingShort* lasting = plan.lasting("A");
  ASSERT_NE(lasting, nullptr);
  EXPECT_EQ(names(plan, lasting->shorted), Names({"W2", "W3"}));
  EXPECT_EQ(lasting->ways, std::vector<std::size_t>({1, 2}));
}

TEST(LastingShort, NamesAllFusesSideBySideThatOpenAlike) {
  const Shorted plan(R"(
system 12 V rules rv
source BAT 12.8 V low 12.0 V 100 Ah short-circuit 2 kA
fuse F1..F2 20 A maxi on BAT+
bus PB 100 A
load X 24 W
wire A1 F1 to PB 12 AWG red 1 m
wire A2 F2 to PB 12 AWG red 1 m
wire W2 PB to X+ 18 AWG red 1 m
wire W3 X- to BAT- 10 AWG black 1 m
)");
  const LastingShort* lasting = plan.lasting("W2");
  ASSERT_NE(lasting, nullptr);
  EXPECT_EQ(plan.names(lasting->devices), Names({"F1", "F2"}));
}

TEST(LastingShort, StaysWhereTheFuseIsRaised) {
  for (const char* internal : {"20 mohm", "150 mohm", "400 mohm"}) {
    double last = 0.0;
    bool was_lasting = false;
    for (const char* rating : {"5 A", "7.5 A", "10 A", "15 A", "20 A", "25 A", "30 A", "40 A"}) {
      const Shorted plan("system 12 V rules rv\nsource BAT 12.8 V low 12.0 V 50 Ah internal " + std::string(internal) +
                         "\nfuse F1 " + rating + " blade on BAT+\nload X 6 W\nwire W1 F1 to X+ 18 AWG red 6 m\n" +
                         "wire W2 X- to BAT- 18 AWG black 6 m\n");
      EXPECT_GE(plan.clears("W1"), last) << internal << " " << rating;
      last = plan.clears("W1");
      const bool is_lasting = !plan.seen.study.shorts.lasting.empty();
      EXPECT_TRUE(is_lasting || !was_lasting) << internal << " " << rating;
      was_lasting = is_lasting;
    }
    EXPECT_TRUE(was_lasting) << internal;
  }
}

TEST(LastingShort, ThatALimitedSourceKeepsUpAndAllCarryIsNone) {
  const Shorted plan(R"(
system 12 V rules rv
source SUP supply 13.8 V limit 12 A
fuse F1 10 A blade
load X 24 W
wire W1 SUP+ to F1 12 AWG red 400 mm
wire W2 F1 to X+ 12 AWG red 3 m
wire W3 X- to SUP- 12 AWG black 3 m
)");
  EXPECT_TRUE(std::isinf(plan.clears("W2")));
  EXPECT_THAT(plan.seen.study.shorts.lasting, IsEmpty());
}

}  // namespace
}  // namespace loomleaf::test
