// Items, places, legs, defaults and what else a plan declares.
#include <gmock/gmock.h>

#include "loomleaf/plan/dump.h"
#include "support/read_plan.h"

namespace loomleaf {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

Plan plan_of(const std::string& text) {
  ReadPlan read = read_plan(text);
  EXPECT_EQ(read.said, "");
  return std::move(read.plan);
}

const Item& item(const Plan& plan, const std::string& id) {
  for (const Item& each : plan.items)
    if (each.id == id) return each;
  throw std::runtime_error("no item " + id);
}

TEST(Range, SpacesItemsOut) {
  const std::string text = dump(plan_of("place ROOF\nload LA1..LA3 3 W at ROOF 0.3 m every 0.8 m\n"));
  EXPECT_THAT(text, HasSubstr("load LA1 at ROOF 300 mm"));
  EXPECT_THAT(text, HasSubstr("load LA3 at ROOF 1.9 m"));
}

TEST(On, ItemStandsWhereItsHostStands) {
  const Plan plan = plan_of(R"(
place LOCKER
bus PB at LOCKER 0.4 m
fuse F2 5 A on F1
fuse F1 5 A on PB
)");
  EXPECT_THAT(dump(plan),
              HasSubstr("fuse F2 at LOCKER 400 mm: in on F1.out, out\nfuse F1 at LOCKER 400 mm: in on PB, out"));
}

TEST(On, JoinsADeviceByItsInAndALoadOrSourceByItsMinus) {
  const std::string text = dump(plan_of(R"(
chassis FR
source BAT 12 V 10 Ah on FR
load L1 3 W on FR
fuse F0 5 A on BAT+
switch S1 5 A on F0.out
shunt SH 5 A on S1
)"));
  EXPECT_THAT(text, HasSubstr("source BAT: +, - on FR"));
  EXPECT_THAT(text, HasSubstr("load L1: +, - on FR"));
  EXPECT_THAT(text, HasSubstr("fuse F0: in on BAT+, out"));
  EXPECT_THAT(text, HasSubstr("shunt SH: in on S1.out, out"));
}

TEST(On, TakesNoOtherItem) {
  for (const std::string what :
       {"splice X", "bus X", "tail X", "chassis X", "relay X", "dimmer X 5 A", "connector X 2 poles",
        "switch X 5 A 2 ways", "switch X 5 A 2 poles", "converter X out 12 V 5 A"})
    EXPECT_THAT(answer_to("bus PB\n" + what + " on PB\n").message, HasSubstr("cannot be `on` something")) << what;
}

TEST(On, OfALoadBareHasTwoTerminals) {
  EXPECT_EQ(answer_to("source BAT 12 V 10 Ah\nfuse F0 5 A on BAT\n").write, "BAT+ or BAT-");
  EXPECT_EQ(answer_to("fuse F1 5 A\nfuse F0 5 A on F1\n").write, "F1.in or F1.out");
}

TEST(On, InACircleIsOneComplaint) {
  const ReadPlan read = read_plan("fuse F1 5 A on F2\nfuse F2 5 A on F3\nfuse F3 5 A on F1\nfuse F4 5 A on F1\n");
  ASSERT_EQ(read.complaints.size(), 1u);
  EXPECT_EQ(read.complaints[0].message, "F1, F2 and F3 are `on` each other in a circle");
}

TEST(On, InALongStackIsFollowed) {
  std::string text = "place P\nbus B0 at P\n";
  text += "fuse F1 5 A on B0\n";
  for (int n = 2; n <= 5'000; ++n) text += "fuse F" + std::to_string(n) + " 5 A on F" + std::to_string(n - 1) + "\n";
  const Plan plan = plan_of(text);
  EXPECT_TRUE(item(plan, "F5000").standing);
}

TEST(Item, KeepsWhatItsStatementSays) {
  const Plan plan = plan_of(R"(
place P
source BAT "House" 12.8 V low 12.0 V high 14.4 V 100 Ah max 80 A short-circuit 2.5 kA at P
source CH "Charger" charger 14 V limit 20 A
connector X1 3 poles 5 A pole 2 20 A
load L1 "Pump" motor 60 W continuous use 50 % surge 3x 0.5 s later note "low" part "P-1" hole 22 mm
)");
  const Source& battery = *item(plan, "BAT").as<Source>();
  EXPECT_EQ(battery.low_or_nominal(), volts(12));
  EXPECT_EQ(battery.short_circuit, amperes(2500));
  EXPECT_FALSE(battery.is_limited());
  EXPECT_TRUE(item(plan, "CH").as<Source>()->is_limited());
  EXPECT_EQ(item(plan, "CH").as<Source>()->limit, amperes(20));
  EXPECT_THAT(item(plan, "X1").as<Connector>()->pole_ratings, ElementsAre(amperes(5), amperes(20), amperes(5)));
  const Item& pump = item(plan, "L1");
  EXPECT_EQ(pump.as<Load>()->kind, Load::Kind::motor);
  EXPECT_EQ(pump.as<Load>()->use_share, 0.5);
  EXPECT_TRUE(pump.later);
  EXPECT_EQ(pump.note, "low");
  EXPECT_EQ(pump.hole, millimetres(22));
}

TEST(Load, NeedsAVoltageWhereTheSystemNamesSeveral) {
  EXPECT_EQ(answer_to("system 24 V, 12 V\nload L1 3 W\n").write, "24 V or 12 V");
  EXPECT_EQ(answer_to("system 24 V, 12 V\nload L1 3 W 12 V\n").message, "");
  EXPECT_EQ(answer_to("system 24 V\nload L1 3 W\n").message, "");
}

TEST(Default, SpeaksWhereTheStatementDoesNot) {
  const Plan plan = plan_of(R"(
default wire 10 AWG black insulation 105 C
tail A
tail B
wire W1 A to B 1 m
wire W2 A to B 1 m 2.5 mm2 red
)");
  const loomleaf::Run &w1 = plan.runs[RunId(std::size_t{0})], &w2 = plan.runs[RunId(std::size_t{1})];
  EXPECT_EQ(w1.size, WireSize::awg(10));
  EXPECT_EQ(plan.conductors[w1.conductors[0]].colour, (WireColour{Colour::black, {}}));
  EXPECT_EQ(w2.size, WireSize::metric(square_millimetres(2.5)));
  EXPECT_EQ(plan.conductors[w2.conductors[0]].colour, (WireColour{Colour::red, {}}));
  EXPECT_EQ(w2.insulation, celsius(105));
}

TEST(Default, ColoursGiveWayToACableOfOtherCount) {
  const std::string text = dump(plan_of(R"(
default cable cores red, black
splice A1..A3
splice B1..B3
cable C1 A1..A3 to B1..B3 3x1.5 mm2 1 m
cable C2 A1..A2 to B1..B2 2x1.5 mm2 1 m
)"));
  EXPECT_THAT(text, HasSubstr("C1.1: A1 to B1\n"));
  EXPECT_THAT(text, HasSubstr("C2.red: A1 to B1 red\n"));
}

TEST(Default, PlusGivesWayToALengthOfItsOwn) {
  const Plan plan = plan_of("default wire 10 AWG plus 0.2 m\ntail A\ntail B\nwire W1 A to B 1 m\n");
  EXPECT_EQ(plan.runs[RunId(std::size_t{0})].plus, Length{});
}

TEST(Size, IsAskedForButOfASignal) {
  EXPECT_EQ(answer_to("tail A\ntail B\nwire W1 A to B 1 m\n").message, "`W1` does not say its size");
  EXPECT_EQ(answer_to("tail A\ntail B\nwire W1 A to B 1 m signal\n").message, "");
}

TEST(Size, AutoIsAnsweredAndKept) {
  const ReadPlan read = read_plan("tail A\ntail B\nwire W1 A to B 1 m auto\nfuse F1 auto\n");
  EXPECT_THAT(read.said, HasSubstr("`auto` is not worked out yet for a size"));
  EXPECT_THAT(read.said, HasSubstr("`auto` is not worked out yet for a rating"));
  EXPECT_EQ(read.complaints.size(), 2u);
  EXPECT_TRUE(read.plan.runs[RunId(std::size_t{0})].auto_size);
}

TEST(Size, NotInStockIsAnsweredWithTheNextThicker) {
  EXPECT_EQ(answer_to("tail A\ntail B\nwire W1 A to B 1 m 5 mm2\n").write, "6 mm2");
  EXPECT_EQ(answer_to("tail A\ntail B\nwire W1 A to B 1 m 13 AWG\n").write, "12 AWG");
}

TEST(Accept, IsCheckedForItsRuleAndItsSubjects) {
  const std::string items = "tail A\ntail B\ncable C1 A, B to B, A 16 AWG 1 m cores red, blue\n";
  EXPECT_EQ(answer_to(items + "accept loose-end on A, C1, C1.red \"so\"\n").message, "");
  EXPECT_EQ(answer_to(items + "accept loose-end on D \"so\"\n").message, "`D` is not declared");
  EXPECT_EQ(answer_to(items + "accept gauge-mismatch on A \"so\"\n").message,
            "`gauge-mismatch` is a DANGER, and a DANGER cannot be accepted");
}

TEST(Names, AreSharedByItemsConductorsPlacesAndLegs) {
  const ReadPlan read = read_plan("place A\nplace B\nleg L A to B 1 m\nbus A\nwire L A to B 16 AWG 1 m\n");
  EXPECT_THAT(read.said, HasSubstr("`A` is the name of a place already"));
  EXPECT_THAT(read.said, HasSubstr("`L` is the name of a leg already"));
  EXPECT_THAT(read.said, HasSubstr("test.loom:1:7: first declared here"));
}

}  // namespace
}  // namespace loomleaf
