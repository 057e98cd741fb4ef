// Outside diameters by kind of insulation, against the tables as they were printed.
#include <gtest/gtest.h>

#include <cmath>

#include "loomleaf/stock/outside_diameter.h"
#include "support/installed_templates.h"

namespace loomleaf {
namespace {

using Row = InsulationKind::Row;

struct Published {
  const char* size;
  double mm;
};

const InsulationKind& kind(const char* name) {
  const InsulationKind* found = installed_stock().find_insulation(name);
  if (!found) throw std::runtime_error(std::string(name) + " is not in the stock");
  return *found;
}

void expect_rows(const std::vector<Row>& held, const std::vector<Published>& printed, const char* source) {
  ASSERT_EQ(held.size(), printed.size());
  for (std::size_t i = 0; i < held.size(); ++i) {
    EXPECT_EQ(to_text(held[i].size), printed[i].size);
    EXPECT_DOUBLE_EQ(held[i].outside.in(millimetres), printed[i].mm) << printed[i].size;
    EXPECT_EQ(to_text(held[i].from), source) << printed[i].size;
  }
}

// ISO 6722-1, greatest diameters (from memory); flat two-core vehicle cable, the width (makers' catalogues, from
// memory)
TEST(Insulations, HoldIso6722) {
  expect_rows(kind("thin-wall").singles,
              {{"0.35 mm2", 1.4},
               {"0.5 mm2", 1.6},
               {"0.75 mm2", 1.9},
               {"1 mm2", 2.1},
               {"1.5 mm2", 2.4},
               {"2 mm2", 2.8},
               {"2.5 mm2", 3},
               {"3 mm2", 3.4},
               {"4 mm2", 3.7},
               {"5 mm2", 4.2},
               {"6 mm2", 4.3},
               {"10 mm2", 6},
               {"16 mm2", 7.2},
               {"25 mm2", 8.7},
               {"35 mm2", 10.4},
               {"50 mm2", 12.2},
               {"70 mm2", 14.4},
               {"95 mm2", 16.7},
               {"120 mm2", 18.7}},
              "ISO 6722-1 thin wall maxima (from memory)");
  expect_rows(kind("thin-wall").two_core,
              {{"0.5 mm2", 4.2},
               {"1 mm2", 5.3},
               {"1.5 mm2", 6},
               {"2 mm2", 6.6},
               {"2.5 mm2", 7.2},
               {"4.5 mm2", 9.4},
               {"6 mm2", 10.5}},
              "thin-wall flat vehicle cable, makers' catalogues (from memory)");
  expect_rows(kind("thick-wall").singles,
              {{"0.5 mm2", 2.3},
               {"0.75 mm2", 2.5},
               {"1 mm2", 2.7},
               {"1.5 mm2", 3},
               {"2.5 mm2", 3.6},
               {"4 mm2", 4.4},
               {"6 mm2", 5},
               {"10 mm2", 6.5},
               {"16 mm2", 8.3},
               {"25 mm2", 10.4}},
              "ISO 6722-1 thick wall maxima (from memory)");
}

// A cable maker's table of H05V-K, class 5 (seen); EN 50525-2-31 H07V-K maxima (from memory)
TEST(Insulations, HoldPvcSingles) {
  expect_rows(kind("H05V-K").singles, {{"0.5 mm2", 2.5}, {"0.75 mm2", 2.7}, {"1 mm2", 2.8}},
              "H05V-K maxima, a maker's table");
  expect_rows(kind("H07V-K").singles,
              {{"1.5 mm2", 3.4},
               {"2.5 mm2", 4.1},
               {"4 mm2", 4.8},
               {"6 mm2", 5.3},
               {"10 mm2", 6.8},
               {"16 mm2", 8.1},
               {"25 mm2", 10.2},
               {"35 mm2", 11.7},
               {"50 mm2", 13.9},
               {"70 mm2", 16},
               {"95 mm2", 18.2},
               {"120 mm2", 20.2},
               {"150 mm2", 22.5}},
              "EN 50525-2-31 H07V-K maxima (from memory)");
}

// SAE J1128, typical diameters of makers' catalogues (from memory)
TEST(Insulations, HoldVehicleWire) {
  expect_rows(kind("TXL").singles,
              {{"22 AWG", 1.6},
               {"20 AWG", 1.85},
               {"18 SAE", 2.03},
               {"16 SAE", 2.29},
               {"14 SAE", 2.62},
               {"12 SAE", 3.1},
               {"10 SAE", 3.76}},
              "SAE J1128 TXL, makers' catalogues (from memory)");
  expect_rows(kind("GXL").singles,
              {{"20 AWG", 2.26},
               {"18 SAE", 2.46},
               {"16 SAE", 2.77},
               {"14 SAE", 3.1},
               {"12 SAE", 3.53},
               {"10 SAE", 4.17},
               {"8 SAE", 4.93}},
              "SAE J1128 GXL, makers' catalogues (from memory)");
  expect_rows(kind("SXL").singles,
              {{"20 AWG", 2.67},
               {"18 SAE", 2.87},
               {"16 SAE", 3.18},
               {"14 SAE", 3.58},
               {"12 SAE", 4.17},
               {"10 SAE", 4.75},
               {"8 SAE", 5.89}},
              "SAE J1128 SXL, makers' catalogues (from memory)");
}

// UL 1426, typical diameters of makers' catalogues (from memory); flat two-core, the width
TEST(Insulations, HoldBoatCable) {
  expect_rows(kind("boat-cable").singles,
              {{"18 AWG", 2.5},
               {"16 AWG", 3},
               {"14 AWG", 3.4},
               {"12 AWG", 4.1},
               {"10 AWG", 4.8},
               {"8 AWG", 6.4},
               {"6 AWG", 7.9},
               {"4 AWG", 9.5},
               {"2 AWG", 11.6},
               {"1 AWG", 13.2},
               {"1/0 AWG", 14.2},
               {"2/0 AWG", 15.7},
               {"3/0 AWG", 17.5},
               {"4/0 AWG", 19.6}},
              "UL 1426 boat cable, makers' catalogues (from memory)");
  expect_rows(kind("boat-cable").two_core,
              {{"18 AWG", 6.4},
               {"16 AWG", 6.9},
               {"14 AWG", 7.9},
               {"12 AWG", 9.1},
               {"10 AWG", 11},
               {"8 AWG", 14.7},
               {"6 AWG", 18}},
              "UL 1426 flat cable, makers' catalogues (from memory)");
}

std::optional<double> outside_mm(const WireSize& size, const char* of) {
  const auto outside = outside_of_wire(installed_stock(), size, of);
  return outside ? std::optional(outside->widest.in(millimetres)) : std::nullopt;
}

TEST(OutsideDiameter, OfANumberIsThatOfAwgAndOfVehicleWire) {
  EXPECT_EQ(outside_mm(WireSize::awg(14), "gxl"), 3.1);
  EXPECT_EQ(outside_mm(WireSize::sae(14), "gxl"), 3.1);
  EXPECT_EQ(outside_mm(WireSize::sae(14), "boat-cable"), 3.4);
}

TEST(OutsideDiameter, WithoutAKindIsThatOfTheUsualWire) {
  for (const WireStock& wire : installed_stock().wires)
    EXPECT_EQ(outside_mm(wire.size, ""), wire.single_od.in(millimetres)) << to_text(wire.size);
}

TEST(OutsideDiameter, OfASizeThatTheKindLacksIsNotKnown) {
  EXPECT_FALSE(outside_mm(WireSize::awg(14), "thin-wall"));
  EXPECT_FALSE(outside_mm(WireSize::metric(square_millimetres(2.5)), "gxl"));
  EXPECT_FALSE(outside_mm(WireSize::awg(14), "feathers"));
  EXPECT_FALSE(outside_of_cable(installed_stock(), WireSize::awg(14), "gxl", 2));
  EXPECT_TRUE(outside_of_cable(installed_stock(), WireSize::awg(14), "boat-cable", 3));
}

TEST(OutsideDiameter, IsWiderThanTheCopperInEveryKind) {
  for (const InsulationKind& each : installed_stock().insulations)
    for (const std::vector<Row>* rows : {&each.singles, &each.two_core})
      for (const Row& row : *rows) {
        const double copper = std::sqrt(nominal_area(row.size).in(square_millimetres)*4 / M_PI);
        EXPECT_GT(row.outside.in(millimetres), copper * (rows == &each.two_core ? 2 : 1)) << each.name;
      }
}

}  // namespace
}  // namespace loomleaf
