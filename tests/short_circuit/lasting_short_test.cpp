// Which shorts last too long, and whom a finding about one names.
#include <gmock/gmock.h>

#include <cmath>

#include "loomleaf/study/fuse_curve.h"
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

// A strong battery behind a quick fuse and a weak one behind a slow one, side by side; all that both feed comes back
// through W7.
std::string two_mains(const std::string& size) {
  return R"(
system 12 V rules marine drop 10 %
default wire insulation 105 C
source H 12.8 V low 12.2 V 200 Ah max 200 A short-circuit 8 kA
source S 12.8 V low 12.2 V 90 Ah max 200 A short-circuit 2 kA
bus PB, NB 500 A 6 ways
fuse FH 125 A class-t on H+
fuse FS 300 A class-t on S+
wire W1 FH to PB 4/0 AWG red 10 mm
wire W2 FS to PB 4/0 AWG red 10 mm
wire W3 NB to H- 4/0 AWG black 10 mm
wire W4 NB to S- 4/0 AWG black 10 mm
load X 1 kW motor
wire W5 PB to X+ 4/0 AWG red 10 mm
wire W7 X- to NB )" +
         size + " black 1 m\n";
}

// The strong battery's heat ends with its fuse; from then on the weak one's is all there is.
TEST(LastingShort, AddsUpTheHeatAsOneSupplyAfterTheOtherIsCutOff) {
  const Shorted plan(two_mains("8 AWG"));
  const LastingShort* lasting = plan.lasting("W7");
  ASSERT_NE(lasting, nullptr);
  EXPECT_TRUE(lasting->in_stages);
  EXPECT_EQ(plan.names(lasting->devices), Names{"FS"});
  // Both through the wires they share, and S alone.
  const double shared = plan.ohm("W5") + plan.ohm("W7");
  const double by_h = 12.8 / 8000 + plan.ohm("FH") + plan.ohm("W1") + plan.ohm("W3");
  const double by_s = 12.8 / 2000 + plan.ohm("FS") + plan.ohm("W2") + plan.ohm("W4");
  const double both = 12.2 / (shared + 1 / (1 / by_h + 1 / by_s)), alone = 12.2 / (shared + by_s);
  const double of_h = both * by_s / (by_h + by_s), of_s = both * by_h / (by_h + by_s);
  const FuseFamily& family = *plan.seen.stock.find_family("class-t");
  const double first_s = opens_no_later(family, amperes(125), amperes(of_h)).no_later->in(seconds);
  const double shared_s = opens_no_later(family, amperes(300), amperes(of_s)).no_later->in(seconds);
  const double then_s =
      std::min(opens_no_later(family, amperes(300), amperes(alone)).no_later->in(seconds), shared_s - first_s);
  EXPECT_LT(first_s, then_s);
  EXPECT_NEAR(lasting->opens->in(seconds), first_s + then_s, 1e-6);
  const double heat = both * both * first_s + alone * alone * then_s;
  EXPECT_NEAR(std::pow(lasting->current.in(amperes), 2) * lasting->opens->in(seconds), heat, 1e-4 * heat);
  EXPECT_LT(heat, both * both * shared_s);
}

// 6 AWG bears the added-up heat, 8 AWG does not.
TEST(LastingShort, OfTwoSuppliesIsSilentWhereTheHeatOfBothStagesIsBorne) {
  const std::vector<std::string> sizes{"4/0 AWG", "2/0 AWG", "2 AWG", "6 AWG", "8 AWG"};
  bool was_lasting = false;
  for (const std::string& size : sizes) {
    const Shorted plan(two_mains(size));
    const bool is_lasting = plan.lasting("W7") != nullptr;
    EXPECT_TRUE(is_lasting || !was_lasting) << size;
    was_lasting = is_lasting;
  }
  EXPECT_EQ(Shorted(two_mains("6 AWG")).lasting("W7"), nullptr);
  EXPECT_TRUE(was_lasting);
}

TEST(LastingShort, OfWhatIsAlikeInEveryStandingIsThatOfTheFirst) {
  const Shorted plan(R"(
system 12 V rules rv
source A, B 12.8 V low 12.0 V 100 Ah max 100 A short-circuit 500 A
fuse FA, FB 20 A blade
wire PA A+ to FA 10 AWG red 0.1 m
wire PB B+ to FB 10 AWG red 0.1 m
wire NB A- to B- 10 AWG black 0.1 m
switch K 30 A 3 ways
load X, Y 6 W
fuse F1 5 A blade
wire QA FA to F1 12 AWG red 0.2 m
wire W1 F1 to X+ 18 AWG red 4 m
wire W2 X- to A- 18 AWG black 4 m
wire QB FB to K.in 12 AWG red 0.2 m
wire Y1 K.out1 to Y+ 18 AWG red 1 m
wire Y3 K.out3 to Y+ 18 AWG red 2 m
wire Y2 Y- to B- 18 AWG black 1 m
)");
  EXPECT_EQ(plan.seen.study.ways.all.size(), 3u);
  EXPECT_EQ(plan.seen.study.shorts.conductors[plan.conductor("W1")]->ways, 0u);
  for (const char* device : {"F1", "FA", "FB"})
    EXPECT_EQ(plan.seen.study.shorts.devices[plan.item(device)].front().ways, 0u) << device;
}

}  // namespace
}  // namespace loomleaf::test
