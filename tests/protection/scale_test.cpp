// Plans of ten thousand conductors: their figures. How long they take is for the benchmark to say.
#include <gtest/gtest.h>

#include "protection/support/judge.h"

namespace loomleaf {
namespace {

using namespace test;

std::string text(int i) { return std::to_string(i); }

// Fifty panels of ten circuits, each with ten lamps one after the other.
TestPlan many_panels(bool with_loops) {
  TestPlan built;
  built.bus("PB");
  built.bus("NB");
  for (int battery = 0; battery < (with_loops ? 2 : 1); ++battery) {
    const std::string id = "BAT" + text(battery);
    built.battery(id);
    built.fuse("F0" + text(battery), 300);
    built.wire("LEAD" + text(battery), id + "+", "F0" + text(battery) + ".in", 400, 0.2);
    built.wire("MAIN" + text(battery), "F0" + text(battery) + ".out", "PB", 400);
    built.wire("BACK" + text(battery), "NB", id + "-", 400);
  }
  for (int p = 0; p < 50; ++p) {
    const std::string panel = text(p);
    built.bus("P" + panel);
    built.bus("N" + panel);
    built.fuse("FP" + panel, 60);
    built.on("FP" + panel, "PB");
    built.wire("WP" + panel, "FP" + panel + ".out", "P" + panel, 80);
    built.wire("WN" + panel, "N" + panel, "NB", 80);
    for (int c = 0; c < 10; ++c) {
      const std::string circuit = panel + "_" + text(c);
      built.fuse("F" + circuit, 10);
      built.on("F" + circuit, "P" + panel);
      std::string feed = "F" + circuit + ".out", back = "N" + panel;
      for (int l = 0; l < 10; ++l) {
        const std::string load = "L" + circuit + "_" + text(l);
        built.load(load);
        built.wire("A" + load, feed, load + "+", 15);
        built.wire("B" + load, load + "-", back, c == 0 ? 8 : 15);  // some returns are too thin
        feed = load + "+";
        back = load + "-";
      }
      if (with_loops) built.wire("RING" + circuit, feed, "F" + circuit + ".out", 15);
    }
    if (!with_loops || p == 0) continue;
    // Neighbouring panels are tied by a fuse, and every tenth has a solar controller.
    const std::string before = text(p - 1);
    built.fuse("TIE" + panel, 40);
    built.on("TIE" + panel, "P" + before);
    built.wire("TIEA" + panel, "TIE" + panel + ".out", "P" + panel, 80);
    built.wire("TIEB" + panel, "N" + before, "N" + panel, 80);
    if (p % 10 == 0) {
      built.limited("SUN" + panel, 20);
      built.wire("SUNA" + panel, "SUN" + panel + "+", "P" + panel, 80);
      built.wire("SUNB" + panel, "SUN" + panel + "-", "N" + panel, 80);
    }
  }
  return built;
}

TEST(ScaleOfProtection, TreeOfTenThousandConductors) {
  const TestPlan built = many_panels(false);
  ASSERT_GT(built.plan.conductors.size(), 10000u);
  const Judged judged = judge(built);
  EXPECT_EQ(judged.protection.conductors[built.conductor("AL7_3_9")].let_through, amperes(10));
  EXPECT_EQ(judged.protection.conductors[built.conductor("WN7")].let_through, amperes(60));
  EXPECT_EQ(judged.protection.conductors[built.conductor("BACK0")].let_through, amperes(300));
  EXPECT_EQ(judged.protection.conductors[built.conductor("BL7_0_9")].exposure, Exposure::exposed_return);
}

TEST(ScaleOfProtection, TenThousandConductorsWithLoops) {
  const TestPlan built = many_panels(true);
  ASSERT_GT(built.plan.conductors.size(), 10000u);
  const Judged judged = judge(built);
  EXPECT_EQ(judged.protection.conductors[built.conductor("AL7_3_9")].let_through, amperes(10));
  // Panel 10 from its end: 60 A by its own fuse, 40 A by either tie, 20 A from the sun there.
  EXPECT_EQ(judged.protection.conductors[built.conductor("SUNA10")].let_through, amperes(140));
}

// Every conductor is too thin for what reaches it: one stretch from the battery to the last lamp of each circuit.
TEST(ScaleOfProtection, TenThousandExposedConductors) {
  for (const bool with_loops : {false, true}) {
    TestPlan built = many_panels(with_loops);
    for (ConductorFigures& figure : built.figures) figure.may_carry = amperes(1);
    const Judged judged = judge(built);
    EXPECT_EQ(judged.protection.conductors[built.conductor("AL7_3_9")].exposure, Exposure::open_stretch);
  }
}

}  // namespace
}  // namespace loomleaf
