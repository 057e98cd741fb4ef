// How far a conductor may run before its device, and how large that may be: each row of each rulebook on both sides of
// its figure, as `check` judges a plan.
#include <gtest/gtest.h>

#include "rules/support/examined.h"

namespace loomleaf::test {
namespace {

bool is_danger(const std::string& plan) { return fires("unfused-run", plan) || fires("gauge-mismatch", plan); }

// A battery's lead to its first fuse.
std::string from_battery(const std::string& rules, const std::string& lead) {
  return "system 12 V rules " + rules + R"(
source BAT 12.8 V low 12.0 V 50 Ah max 30 A short-circuit 500 A
fuse F1 10 A blade
load X 24 W
wire W1 BAT+ to F1 4 mm2 red )" +
         lead + R"(
wire W2 F1 to X+ 4 mm2 red 1 m
wire W3 X- to BAT- 4 mm2 black 1 m
)";
}

// A thin tap from a bus that 60 A protect to a fuse that suits it.
std::string from_bus(const std::string& rules, const std::string& tap) {
  return "system 12 V rules " + rules + R"(
source BAT 12.8 V low 12.0 V 50 Ah max 60 A short-circuit 500 A
fuse F0 60 A class-t on BAT+
bus PB 100 A
fuse F1 10 A blade
load X 24 W
wire M F0 to PB 35 mm2 red 1 m
wire T PB to F1 4 mm2 red )" +
         tap + R"(
wire W2 F1 to X+ 4 mm2 red 1 m
wire W3 X- to BAT- 4 mm2 black 1 m
)";
}

// A charger of more current than its lead bears, with its fuse at the far end.
std::string from_charger(const std::string& rules, const std::string& lead) {
  return "system 12 V rules " + rules + R"(
source BAT 12.8 V low 12.0 V 50 Ah max 60 A short-circuit 500 A
source CH charger 14.4 V limit 30 A
fuse F1 5 A blade on BAT+
wire C CH+ to F1 1 mm2 red )" +
         lead + R"(
wire D CH- to BAT- 4 mm2 black 1 m
)";
}

std::string to_starter(const std::string& rules, const std::string& lead) {
  return "system 12 V rules " + rules + R"(
source BAT 12.8 V low 12.0 V 90 Ah max 800 A short-circuit 2 kA
load ST 1.2 kW starter
wire W1 BAT+ to ST+ 50 mm2 red )" +
         lead + R"(
wire W2 ST- to BAT- 50 mm2 black 1 m
)";
}

// 33 CFR 183.460(a), as others quote it: 72 in from a battery's terminal, 1828.8 mm
TEST(MarinePositions, LetABatteryLeadRunForSeventyTwoInches) {
  for (const char* lead : {"72 in", "6 ft", "1828.8 mm"}) EXPECT_FALSE(is_danger(from_battery("marine", lead))) << lead;
  for (const char* lead : {"72.01 in", "1.829 m"}) EXPECT_TRUE(is_danger(from_battery("marine", lead))) << lead;
}

// 33 CFR 183.455(b)(1), seen: 7 in, 177.8 mm
TEST(MarinePositions, LetATapRunForSevenInches) {
  for (const char* tap : {"7 in", "177.8 mm"}) EXPECT_FALSE(is_danger(from_bus("marine", tap))) << tap;
  for (const char* tap : {"7.01 in", "178 mm"}) EXPECT_TRUE(is_danger(from_bus("marine", tap))) << tap;
}

// 33 CFR 183.455(b)(2), seen: 40 in, 1016 mm, in a sheath or enclosure all the way
TEST(MarinePositions, LetASheathedTapRunForFortyInches) {
  for (const char* tap : {"40 in sheathed", "1016 mm sheathed"})
    EXPECT_FALSE(is_danger(from_bus("marine", tap))) << tap;
  for (const char* tap : {"40.01 in sheathed", "40 in"}) EXPECT_TRUE(is_danger(from_bus("marine", tap))) << tap;
}

// 33 CFR 183.460, as others quote it: no device is asked for to a cranking motor; other books do not go as far
TEST(MarinePositions, LetAStarterGoWithoutADevice) {
  EXPECT_FALSE(is_danger(to_starter("marine", "3 m")));
  EXPECT_TRUE(is_danger(to_starter("rv", "3 m")));
  EXPECT_TRUE(is_danger(to_starter("rv", "18 in")));
}

// ISO 10133 8.1, from memory: 200 mm, or covered all the way. It gives no length for that; ABYC E-11 does, 72 in from a
// battery, 40 in from elsewhere.
TEST(MetricPositions, LetALeadRunFor200Millimetres) {
  for (const auto& plan : {from_battery, from_bus}) {
    EXPECT_FALSE(is_danger(plan("metric", "200 mm")));
    EXPECT_TRUE(is_danger(plan("metric", "200.1 mm")));
  }
  EXPECT_FALSE(is_danger(from_battery("metric", "1828 mm sheathed")));
  EXPECT_TRUE(is_danger(from_battery("metric", "1829 mm sheathed")));
  EXPECT_FALSE(is_danger(from_bus("metric", "1016 mm sheathed")));
  EXPECT_TRUE(is_danger(from_bus("metric", "1017 mm sheathed")));
}

// ISO 13297:2020 12.3, seen: 1,8 m from a charging source
TEST(MetricPositions, LetAChargersLeadRunFor1800Millimetres) {
  EXPECT_FALSE(is_danger(from_charger("metric", "1.8 m")));
  EXPECT_TRUE(is_danger(from_charger("metric", "1.801 m")));
  EXPECT_TRUE(is_danger(from_battery("metric", "1.8 m")));
}

// ISO 10133 8.1 exception, from memory: sheathed alone
TEST(MetricPositions, LetASheathedStarterLeadGoWithoutADevice) {
  EXPECT_FALSE(is_danger(to_starter("metric", "3 m sheathed")));
  EXPECT_TRUE(is_danger(to_starter("metric", "3 m")));
}

std::string behind(const std::string& rules, const std::string& fuse, const std::string& size) {
  return "system 12 V rules " + rules + R"(
source BAT 12.8 V low 12.0 V 50 Ah max 30 A short-circuit 500 A
load X 24 W
fuse F1 )" +
         fuse + " on BAT+\nwire W2 F1 to X+ " + size + " red 1 m\nwire W3 X- to BAT- " + size + " black 1 m\n";
}

// 33 CFR 183.455(c)(1), seen: up to 150 % of the table, below 50 V. 16 AWG of 60 C: 15 A; 10 AWG of 105 C: 60 A.
TEST(MarineAllowance, LetsADeviceBeHalfAsLargeAgainAsTheTable) {
  EXPECT_FALSE(is_danger(behind("marine", "22.5 A", "16 AWG")));
  EXPECT_TRUE(is_danger(behind("marine", "22.6 A", "16 AWG")));
  EXPECT_FALSE(is_danger(behind("marine", "90 A", "10 AWG insulation 105 C")));
  EXPECT_TRUE(is_danger(behind("marine", "90.1 A", "10 AWG insulation 105 C")));
}

// NEC 552.10(E)(1), seen, and ISO 13297 12, from memory: not above the table. 14 AWG: 15 A; 2.5 mm2 of 60 C: 17 A.
TEST(OtherAllowances, HoldADeviceToTheTable) {
  EXPECT_FALSE(is_danger(behind("rv", "15 A", "14 AWG")));
  EXPECT_TRUE(is_danger(behind("rv", "15.1 A", "14 AWG")));
  EXPECT_FALSE(is_danger(behind("metric", "17 A", "2.5 mm2")));
  EXPECT_TRUE(is_danger(behind("metric", "17.1 A", "2.5 mm2")));
}

// An engine space of 50 C: 0.58 for 60 C insulation (33 CFR 183.425 table 5 note 1, seen), which is what a wire is
// taken for that does not say.
TEST(WarmPlaces, DerateAWireOfUnknownInsulationAsTheCoolest) {
  const auto in_engine_space = [](const std::string& fuse) {
    return "system 12 V rules marine\nplace E ambient 50 C\nplace H\nleg E to H 1 m\n"
           "source BAT 12.8 V low 12.0 V 50 Ah max 30 A short-circuit 500 A at E\nload X 24 W at H\nfuse F1 " +
           fuse + " on BAT+\nwire W2 F1 to X+ 16 AWG red\nwire W3 X- to BAT- 16 AWG black\n";
  };
  // 15 A x 0.58 x 1.5 = 13.05 A
  EXPECT_FALSE(is_danger(in_engine_space("13.05 A")));
  EXPECT_TRUE(is_danger(in_engine_space("13.1 A")));
}

}  // namespace
}  // namespace loomleaf::test
