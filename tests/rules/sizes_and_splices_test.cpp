// Vehicle wire, kinds of insulation and splices of the stock: what the rules make of them.
#include <fmt/format.h>
#include <gmock/gmock.h>

#include <cmath>

#include "rules/support/examined.h"

namespace loomleaf::test {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

std::string fused_wire(const std::string& rules, const std::string& fuse, const std::string& size) {
  return "system 12 V rules " + rules + R"(
source BAT 12.8 V low 12.0 V 50 Ah max 30 A short-circuit 500 A
fuse F1 )" +
         fuse + "\nload X 12 W\nwire W1 BAT+ to F1 1/0 AWG red 100 mm\nwire A1 F1 to X+ " + size +
         " red 1 m\nwire A2 X- to BAT- 1/0 AWG black 1 m\n";
}

// NEC 552.10(E)(1): 14 AWG 15 A, 12 AWG 20 A (from memory)
TEST(VehicleWire, OfTheRvBookCountsByItsNumber) {
  EXPECT_FALSE(fires("gauge-mismatch", fused_wire("rv", "15 A", "14 SAE")));
  const auto findings = findings_of("gauge-mismatch", fused_wire("rv", "15.1 A", "14 SAE"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_THAT(findings[0].message, HasSubstr("A1 may carry 15"));
  EXPECT_EQ(findings[0].mend, "change F1 to 15 A");
}

// ISO 10133:2012 table A.1, 60 C (from memory): 1.5 mm2 12 A, 2.5 mm2 17 A; 14 SAE is 1.88 mm2
TEST(VehicleWire, OfTheMetricBookCountsByItsArea) {
  EXPECT_FALSE(fires("gauge-mismatch", fused_wire("metric", "12 A", "14 SAE")));
  const auto findings = findings_of("gauge-mismatch", fused_wire("metric", "12.1 A", "14 SAE"));
  ASSERT_EQ(findings.size(), 1u);
  const auto twenty = findings_of("gauge-mismatch", fused_wire("metric", "17 A", "14 SAE"));
  ASSERT_EQ(twenty.size(), 1u);
}

TEST(VehicleWire, OffersThickerVehicleWire) {
  const std::string plan = fused_wire("rv", "20 A blade", "14 SAE") +
                           "load Y 15 A constant-current\nwire A3 F1 to Y+ 8 SAE red 0.2 m\n"
                           "wire A4 Y- to BAT- 1/0 AWG black 0.2 m\n";
  const auto findings = findings_of("gauge-mismatch", plan);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].mend,
            "put a fuse of 15 A at most close to F1.out, or make A1 12 SAE or thicker, which may carry 20 A");
}

// 33 CFR 183.425(d), (e), seen: 16 AWG alone; ISO 10133:2012 7.7, seen: 1 mm2 alone
TEST(VehicleWire, MeetsALeastSizeAsTheRulebookCountsIt) {
  EXPECT_FALSE(fires("least-size", fused_wire("marine", "5 A", "16 SAE")));
  const auto findings = findings_of("least-size", fused_wire("marine", "5 A", "18 SAE"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].mend, "make A1 16 SAE");
  EXPECT_FALSE(fires("least-size", fused_wire("metric", "5 A", "16 SAE")));  // 1.18 mm2
  EXPECT_EQ(findings_of("least-size", fused_wire("metric", "5 A", "18 SAE")).at(0).mend, "make A1 1 mm2");
}

TEST(VehicleWire, IsNoStepUpBeforeAwgOfItsNumberWhereTheyCountAlike) {
  const auto step = [](const std::string& rules) {
    return fused_wire(rules, "5 A", "14 SAE") +
           "splice SP 2 ways 10 A takes 18..12 AWG\nload Y 6 W\nwire B1 F1 to SP 14 SAE red 0.2 m\n"
           "wire B2 SP to Y+ 14 AWG red 0.2 m\nwire B3 Y- to BAT- 1/0 AWG black 0.2 m\n";
  };
  EXPECT_FALSE(fires("gauge-step", step("marine")));
  EXPECT_TRUE(fires("gauge-step", step("metric")));
}

std::string spliced(const std::string& splice, const std::string& size, int branches = 2,
                    const std::string& load = "6 W") {
  std::string plan = sound_base + "splice SP " + splice + "\nwire A0 PB to SP " + size + " red 0.2 m\n";
  for (int i = 1; i < branches; ++i)
    plan += fmt::format("load X{0} {2}\nwire A{0} SP to X{0}+ {1} red 0.2 m\nwire B{0} X{0}- to NB {1} black 0.2 m\n",
                        i, size, load);
  return plan;
}

TEST(CrowdedSplice, TakesVehicleWireByItsNumberWhereThePartStatesAwg) {
  EXPECT_FALSE(fires("crowded-splice", spliced("2 ways 10 A takes 18..14 AWG", "18 SAE")));
  EXPECT_FALSE(fires("crowded-splice", spliced("2 ways 10 A takes 18..14 AWG", "14 SAE")));
  EXPECT_TRUE(fires("crowded-splice", spliced("2 ways 10 A takes 16..14 AWG", "18 SAE")));
  EXPECT_TRUE(fires("crowded-splice", spliced("2 ways 10 A takes 18..16 AWG", "14 SAE")));
  // In mm2 it is its area, 0.78 mm2, that counts, with 3 % to spare.
  EXPECT_FALSE(fires("crowded-splice", spliced("2 ways 10 A takes 0.8..4 mm2", "18 SAE")));
  EXPECT_TRUE(fires("crowded-splice", spliced("2 ways 10 A takes 0.82..4 mm2", "18 SAE")));
}

// Lever splices of the stock (makers' data, from memory): 2, 3 and 5 ways, up to 4 mm2 with 32 A, up to 6 mm2 with 41 A
TEST(CrowdedSplice, NamesTheSpliceOfTheStockThatTakesAll) {
  const auto mend = [](const std::string& plan) {
    const auto findings = findings_of("crowded-splice", plan);
    return findings.size() == 1 ? findings[0].mend : std::string("not one finding");
  };
  const std::string two = "2 ways 32 A takes 0.2..6 mm2";
  EXPECT_EQ(
      mend(spliced(two, "2.5 mm2", 3)),
      "fit a splice of 3 ways or more as SP; the stock's lever splice of 3 ways takes 0.14 mm2 to 4 mm2 and 32 A");
  EXPECT_THAT(mend(spliced(two, "2.5 mm2", 4)), HasSubstr("the stock's lever splice of 5 ways"));
  EXPECT_THAT(mend(spliced(two, "6 mm2", 3)), HasSubstr("the stock's lever splice, large of 3 ways"));
  EXPECT_THAT(mend(spliced(two, "2.5 mm2", 6)), HasSubstr("no splice in the stock takes all that ends there"));
  EXPECT_EQ(mend(spliced("2 ways 32 A takes 0.2..2.5 mm2", "4 mm2")),
            "fit a splice as SP that takes 4 mm2; the stock's lever splice of 2 ways takes 0.14 mm2 to 4 mm2 and 32 A");
  EXPECT_THAT(mend(spliced("2 ways 32 A takes 0.2..2.5 mm2", "10 mm2")), HasSubstr("no splice in the stock"));
}

TEST(OverloadedSplice, NamesTheSpliceOfTheStockThatTakesTheCurrent) {
  const auto mend = [](const std::string& ampere) {
    const auto findings = findings_of("overloaded-splice",
                                      spliced("2 ways 5 A takes 0.2..6 mm2", "4 mm2", 2, ampere + " constant-current"));
    return findings.size() == 1 ? findings[0].mend : std::string("not one finding");
  };
  EXPECT_EQ(mend("6 A"),
            "fit a splice of 6 A or more as SP; the stock's lever splice of 2 ways takes 0.14 mm2 to 4 mm2 and 32 A");
  EXPECT_THAT(mend("32 A"), HasSubstr("the stock's lever splice of 2 ways takes"));
  EXPECT_THAT(mend("32.1 A"), HasSubstr("the stock's lever splice, large of 2 ways takes"));
  EXPECT_THAT(mend("41 A"), HasSubstr("the stock's lever splice, large of 2 ways takes"));
  EXPECT_THAT(mend("41.1 A"), HasSubstr("the stock's crimp butt, insulated, yellow of 2 ways takes"));
  EXPECT_THAT(mend("48 A"), HasSubstr("the stock's crimp butt, insulated, yellow of 2 ways takes"));
}

// Heat-shrink butts take 4 mm2, but no current is known of them; none takes 12 AWG, 3.3 mm2, beside those of known
// current.
TEST(OverloadedSplice, TellsWhatTakesTooLittleFromWhatIsNotKnown) {
  const auto mend = [](const std::string& size) {
    const auto findings =
        findings_of("overloaded-splice", spliced("2 ways 5 A takes 0.2..6 mm2", size, 2, "48.1 A constant-current"));
    return findings.size() == 1 ? findings[0].mend : std::string("not one finding");
  };
  EXPECT_THAT(mend("4 mm2"), HasSubstr("none is known to bear its current"));
  EXPECT_THAT(mend("12 AWG"), HasSubstr("no splice in the stock takes all that ends there and its current"));
}

TEST(CrowdedSplice, GoesByTheConductorTheFurthestOutsideAndNamesTheRangeThatAllNeed) {
  const auto plan = [](const char* feed, const char* first, const char* second) {
    return sound_base + fmt::format(
                            "splice SP 4 ways 32 A takes 0.5..4 mm2\nload X 12 W\nload Y 12 W\n"
                            "wire A1 PB to SP {} red 0.3 m\nwire A2 SP to X+ {} red 1 m\n"
                            "wire A3 SP to Y+ {} red 1 m\nwire B1 X- to NB 4 AWG black 1 m\n"
                            "wire B2 Y- to NB 14 AWG black 1 m\n",
                            feed, first, second);
  };
  const auto two = findings_of("crowded-splice", plan("10 AWG", "4 AWG", "14 AWG"));
  ASSERT_EQ(two.size(), 1u);
  EXPECT_EQ(two[0].subjects, (std::vector<std::string>{"SP", "A2", "A1"}));
  EXPECT_EQ(two[0].message, "SP takes 0.5 mm2 to 4 mm2, A2 is 4 AWG, and A1 does not fit either");
  EXPECT_THAT(two[0].mend, HasSubstr("fit a splice as SP that takes 14 AWG to 4 AWG; no splice in the stock takes"));
  EXPECT_NEAR(two[0].values->is, 21.15, 0.01);  // mm2 of 4 AWG, ASTM B258
  // Too thin by half counts for more than too thick by a quarter.
  const auto thin = findings_of("crowded-splice", plan("10 AWG", "14 AWG", "24 AWG"));
  ASSERT_EQ(thin.size(), 1u);
  EXPECT_EQ(thin[0].subjects, (std::vector<std::string>{"SP", "A3", "A1"}));
  EXPECT_DOUBLE_EQ(thin[0].values->may_be, 0.5);
  const auto one = findings_of("crowded-splice", plan("14 AWG", "10 AWG", "14 AWG"));
  ASSERT_EQ(one.size(), 1u);
  EXPECT_EQ(one[0].subjects, (std::vector<std::string>{"SP", "A2"}));
  EXPECT_FALSE(fires("crowded-splice", plan("14 AWG", "14 AWG", "14 AWG")));
}

std::string conduit_with(double bore, const std::string& insulation) {
  std::string plan = sound_base + a_lamp + fmt::format("place P\nplace Q\nleg L9 P to Q 1 m conduit {:.4f} mm\n", bore);
  for (int wire = 1; wire <= 3; ++wire) plan += fmt::format("wire G{} T1 to T2 2.5 mm2 {} white\n", wire, insulation);
  return plan + "tail T1 at P\ntail T2 at Q\n";
}

// Three or more may fill 40 % (NEC chapter 9 table 1): 3 d^2 / D^2 = 0.40. 2.5 mm2 is 3.0 mm thick in thin wall (ISO
// 6722-1) and 4.1 mm as H07V-K (EN 50525-2-31), which it is without a kind; all from memory.
TEST(FullConduit, GoesByTheKindOfInsulation) {
  const std::pair<const char*, double> kinds[] = {
      {"insulation thin-wall", 3.0}, {"insulation 105 C thin-wall", 3.0}, {"insulation H07V-K", 4.1}, {"", 4.1}};
  for (const auto& [insulation, diameter] : kinds) {
    const double bore = diameter * std::sqrt(3 / 0.40);
    EXPECT_FALSE(fires("full-conduit", conduit_with(bore + 0.001, insulation))) << insulation;
    EXPECT_TRUE(fires("full-conduit", conduit_with(bore - 0.001, insulation))) << insulation;
  }
}

TEST(FullConduit, IsNotCheckedWhereTheKindIsNotSoldInThatSize) {
  const std::string plan = conduit_with(8, "insulation GXL");
  EXPECT_FALSE(fires("full-conduit", plan));
  const auto findings = findings_of("not-checked", plan + "wire G4 T1 to T2 2.5 mm2 white\n");
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_THAT(findings[0].message, HasSubstr("the stock has no outside diameter for a wire or cable there"));
}

TEST(Insulation, OfAKindSaysNothingOfItsWarmth) {
  const std::string of_kind = fused_wire("marine", "20 A", "14 AWG insulation boat-cable");
  const auto ampacity = [](const std::string& plan) {
    const Examination seen = examined(plan);
    for (const ConductorId id : seen.plan.conductors.ids())
      if (seen.plan.conductors[id].id == "A1") return seen.study.conductors[id].ampacity;
    return std::optional<Current>();
  };
  EXPECT_EQ(ampacity(of_kind), amperes(20));  // 60 C, the coolest column of 33 CFR 183.425 table 5
  EXPECT_EQ(ampacity(fused_wire("marine", "20 A", "14 AWG insulation boat-cable 105 C")), amperes(35));
}

}  // namespace
}  // namespace loomleaf::test
