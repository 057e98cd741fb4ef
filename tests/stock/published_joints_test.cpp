// Splices and conduits, against what was printed of them.
#include <gtest/gtest.h>

#include <map>

#include "support/installed_templates.h"

namespace loomleaf {
namespace {

// Makers' data and common catalogue series, from memory; the sizes of insulated butts seen, their current from memory.
TEST(JointStock, HoldsEveryPublishedSplice) {
  struct Printed {
    const char* what;
    std::vector<int> ways;
    double least_mm2, most_mm2;
    std::optional<Current> rating;
  };
  const Printed printed[] = {
      {"lever splice", {2, 3, 5}, 0.14, 4, amperes(32)},
      {"lever splice, large", {2, 3, 5}, 0.5, 6, amperes(41)},
      {"lever inline splice", {2}, 0.2, 4, amperes(32)},
      {"push-in splice, solid conductors only", {2, 3, 4, 5, 6, 8}, 0.5, 2.5, amperes(24)},
      {"crimp butt, insulated, red", {2}, 0.5, 1.5, amperes(19)},
      {"crimp butt, insulated, blue", {2}, 1.5, 2.5, amperes(27)},
      {"crimp butt, insulated, yellow", {2}, 2.5, 6, amperes(48)},
      {"crimp butt, heat-shrink sealed, red", {2}, 0.5, 1.5, {}},
      {"crimp butt, heat-shrink sealed, blue", {2}, 1.5, 2.5, {}},
      {"crimp butt, heat-shrink sealed, yellow", {2}, 4, 6, {}},
      {"crimp butt, small", {2}, 0.1, 0.4, {}},
  };
  std::size_t met = 0;
  for (const Printed& each : printed) {
    std::vector<int> ways;
    for (const SpliceKind& held : installed_stock().splices) {
      if (held.what != each.what) continue;
      ways.push_back(held.ways);
      EXPECT_DOUBLE_EQ(nominal_area(held.least).in(square_millimetres), each.least_mm2) << each.what;
      EXPECT_DOUBLE_EQ(nominal_area(held.most).in(square_millimetres), each.most_mm2) << each.what;
      EXPECT_EQ(held.rating, each.rating) << each.what;
      EXPECT_EQ(held.solid_only, held.what.find("solid conductors only") != std::string::npos) << each.what;
      EXPECT_EQ(held.from.known, Known::memory) << each.what;
    }
    EXPECT_EQ(ways, each.ways) << each.what;
    met += ways.size();
  }
  EXPECT_EQ(met, installed_stock().splices.size());
}

// Bores in mm: IEC 61386 in makers' data (named by the OUTSIDE), loom tube (named by the bore), NEC chapter 9 table 4;
// all from memory
TEST(ConduitStock, HoldsEveryPublishedBore) {
  const std::map<std::string, double> printed = {
      {"rigid PVC 16 mm", 13.0},
      {"rigid PVC 20 mm", 16.9},
      {"rigid PVC 25 mm", 21.4},
      {"rigid PVC 32 mm", 27.8},
      {"rigid PVC 40 mm", 35.4},
      {"rigid PVC 50 mm", 44.3},
      {"pliable corrugated 16 mm", 10.7},
      {"pliable corrugated 20 mm", 14.1},
      {"pliable corrugated 25 mm", 18.3},
      {"pliable corrugated 32 mm", 24.3},
      {"pliable corrugated 40 mm", 31.2},
      {"split loom tube NW 6.5", 6.5},
      {"split loom tube NW 8.5", 8.5},
      {"split loom tube NW 10", 10.0},
      {"split loom tube NW 13", 13.0},
      {"split loom tube NW 16", 16.0},
      {"split loom tube NW 19", 19.0},
      {"split loom tube NW 23", 23.0},
      {"EMT 1/2 in", 15.8},
      {"EMT 3/4 in", 20.9},
      {"EMT 1 in", 26.6},
      {"EMT 1-1/4 in", 35.1},
      {"EMT 1-1/2 in", 40.9},
      {"EMT 2 in", 52.5},
      {"ENT 1/2 in", 14.2},
      {"ENT 3/4 in", 19.3},
      {"ENT 1 in", 25.4},
      {"flexible metal 3/8 in", 9.7},
      {"flexible metal 1/2 in", 16.1},
      {"flexible metal 3/4 in", 20.9},
      {"flexible metal 1 in", 25.9},
  };
  std::map<std::string, double> held;
  for (const Conduit& conduit : installed_stock().conduits) {
    held[conduit.name] = conduit.bore.in(millimetres);
    EXPECT_EQ(conduit.from.known, Known::memory) << conduit.name;
  }
  ASSERT_EQ(held.size(), printed.size());
  for (const auto& [name, bore] : printed) EXPECT_DOUBLE_EQ(held[name], bore) << name;
}

}  // namespace
}  // namespace loomleaf
