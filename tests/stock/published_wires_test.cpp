// Every resistance and outside diameter of the conductors, against the tables as they were printed.
#include <gtest/gtest.h>

#include "support/installed_templates.h"

namespace loomleaf {
namespace {

struct Published {
  const char* size;
  double figure;
};

const WireStock& wire(const std::string& size) {
  for (const WireStock& each : installed_stock().wires) {
    if (to_text(each.size) == size) return each;
  }
  throw std::runtime_error(size + " is not in the stock");
}

void expect_resistances(const std::vector<Published>& printed, const char* source) {
  for (const Published& each : printed) {
    EXPECT_NEAR(wire(each.size).per_metre_20C.in(ohms)*1000, each.figure, each.figure * 1e-6) << each.size;
    EXPECT_EQ(to_text(wire(each.size).resistance_from), source) << each.size;
  }
}

void expect_diameters(const std::vector<Published>& printed, Length WireStock::*diameter, Provenance WireStock::*from,
                      const char* source) {
  for (const Published& each : printed) {
    EXPECT_DOUBLE_EQ((wire(each.size).*diameter).in(millimetres), each.figure) << each.size;
    EXPECT_EQ(to_text(wire(each.size).*from), source) << each.size;
  }
}

// 100 % IACS copper (1.7241e-8 ohm m) on the areas of ASTM B258, + 2 % for class B strands (ASTM B8); from memory
TEST(WireStock, HoldsEveryResistanceOfAstmB8ClassB) {
  const std::vector<Published> printed = {
      {"4/0 AWG", 0.1640}, {"3/0 AWG", 0.2068}, {"2/0 AWG", 0.2608}, {"1/0 AWG", 0.3289}, {"1 AWG", 0.4147},
      {"2 AWG", 0.5229},   {"3 AWG", 0.6594},   {"4 AWG", 0.8315},   {"5 AWG", 1.0485},   {"6 AWG", 1.3221},
      {"7 AWG", 1.6671},   {"8 AWG", 2.1022},   {"9 AWG", 2.6508},   {"10 AWG", 3.3427},  {"11 AWG", 4.2150},
      {"12 AWG", 5.3150},  {"13 AWG", 6.7021},  {"14 AWG", 8.4512},  {"15 AWG", 10.6568}, {"16 AWG", 13.4380},
      {"17 AWG", 16.9450}, {"18 AWG", 21.3672}, {"19 AWG", 26.9436}, {"20 AWG", 33.9752}, {"21 AWG", 42.8420},
      {"22 AWG", 54.0227}, {"23 AWG", 68.1214}, {"24 AWG", 85.8995},
  };
  EXPECT_EQ(printed.size(), 28U);
  expect_resistances(printed, "ASTM B8 class B (from memory)");
  // the rule itself, from the areas, so that a slip in copying shows
  for (const Published& each : printed) {
    const double area = wire(each.size).area.in(square_millimetres);
    EXPECT_NEAR(1.02 * 17.241 / area, each.figure, each.figure * 5e-4) << each.size;
  }
}

// ISO 6722-1, greatest resistance at 20 C (from memory): the vehicle sizes that IEC 60228 lacks
TEST(WireStock, HoldsTheVehicleSizesOfIso6722) {
  expect_resistances({{"0.35 mm2", 54.4}, {"2 mm2", 9.42}, {"3 mm2", 6.15}, {"5 mm2", 3.94}},
                     "ISO 6722-1 (from memory)");
  expect_diameters({{"0.35 mm2", 1.4}, {"2 mm2", 2.8}, {"3 mm2", 3.4}, {"5 mm2", 4.2}}, &WireStock::single_od,
                   &WireStock::od_from, "ISO 6722-1 thin wall maxima (from memory)");
}

// UL 1426 boat cable, typical diameters of makers' catalogues (from memory)
TEST(WireStock, HoldsTheDiametersOfBoatCable) {
  expect_diameters({{"18 AWG", 2.5},
                    {"16 AWG", 3.0},
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
                   &WireStock::single_od, &WireStock::od_from, "UL 1426 boat cable, makers' catalogues (from memory)");
  // flat two-core, the width
  expect_diameters({{"18 AWG", 6.4},
                    {"16 AWG", 6.9},
                    {"14 AWG", 7.9},
                    {"12 AWG", 9.1},
                    {"10 AWG", 11.0},
                    {"8 AWG", 14.7},
                    {"6 AWG", 18.0}},
                   &WireStock::two_core_od, &WireStock::two_core_od_from,
                   "UL 1426 flat cable, makers' catalogues (from memory)");
}

// SAE J1128, typical diameters of makers' catalogues (from memory): extra thin wall at 22 AWG, thin wall at 20 AWG
TEST(WireStock, HoldsTheDiametersOfThinVehicleWire) {
  expect_diameters({{"22 AWG", 1.6}}, &WireStock::single_od, &WireStock::od_from,
                   "SAE J1128 TXL, makers' catalogues (from memory)");
  expect_diameters({{"20 AWG", 2.26}}, &WireStock::single_od, &WireStock::od_from,
                   "SAE J1128 GXL, makers' catalogues (from memory)");
}

// A cable maker's table of H05V-K, class 5, greatest diameters (seen); EN 50525-2-31 H07V-K maxima (from memory)
TEST(WireStock, HoldsTheDiametersOfPvcSingles) {
  expect_diameters({{"0.5 mm2", 2.5}, {"0.75 mm2", 2.7}, {"1 mm2", 2.8}}, &WireStock::single_od, &WireStock::od_from,
                   "H05V-K maxima, a maker's table");
  expect_diameters({{"1.5 mm2", 3.4},
                    {"2.5 mm2", 4.1},
                    {"4 mm2", 4.8},
                    {"6 mm2", 5.3},
                    {"10 mm2", 6.8},
                    {"16 mm2", 8.1},
                    {"25 mm2", 10.2},
                    {"35 mm2", 11.7},
                    {"50 mm2", 13.9},
                    {"70 mm2", 16.0},
                    {"95 mm2", 18.2},
                    {"120 mm2", 20.2},
                    {"150 mm2", 22.5}},
                   &WireStock::single_od, &WireStock::od_from, "EN 50525-2-31 H07V-K maxima (from memory)");
}

// Round PVC flexible cable of one maker, two cores (seen), and three at 4 mm2; flat vehicle cable, the width (makers'
// catalogues, from memory)
TEST(WireStock, HoldsTheDiametersOfTwoCoreCables) {
  expect_diameters({{"0.5 mm2", 6.5}, {"0.75 mm2", 7.0}, {"1 mm2", 7.3}, {"1.5 mm2", 7.8}, {"2.5 mm2", 9.5}},
                   &WireStock::two_core_od, &WireStock::two_core_od_from,
                   "round PVC flexible cable, a maker's diameters");
  expect_diameters({{"4 mm2", 11.5}}, &WireStock::two_core_od, &WireStock::two_core_od_from,
                   "three-core cable of the size, two-core is no thicker");
  expect_diameters({{"2 mm2", 6.6}, {"6 mm2", 10.5}}, &WireStock::two_core_od, &WireStock::two_core_od_from,
                   "thin-wall flat vehicle cable, makers' catalogues (from memory)");
}

}  // namespace
}  // namespace loomleaf
