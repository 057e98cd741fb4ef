#include "loomleaf/units/colour.h"

#include <gtest/gtest.h>

#include <string>

namespace loomleaf {
namespace {

struct Letters {
  const char* name;
  const char* code;
};

class ColourCode : public testing::TestWithParam<Letters> {};

// IEC 60757, letter code table.
TEST_P(ColourCode, IsThatOfTheStandard) {
  const auto colour = find_colour(GetParam().name);
  ASSERT_TRUE(colour);
  EXPECT_EQ(code_of(*colour), GetParam().code);
  EXPECT_EQ(name_of(*colour), GetParam().name);
}

INSTANTIATE_TEST_SUITE_P(Iec60757, ColourCode,
                         testing::Values(Letters{"black", "BK"}, Letters{"brown", "BN"}, Letters{"red", "RD"},
                                         Letters{"orange", "OG"}, Letters{"yellow", "YE"}, Letters{"green", "GN"},
                                         Letters{"blue", "BU"}, Letters{"violet", "VT"}, Letters{"grey", "GY"},
                                         Letters{"white", "WH"}, Letters{"pink", "PK"}, Letters{"gold", "GD"},
                                         Letters{"turquoise", "TQ"}, Letters{"silver", "SR"}));

TEST(Colour, IsFoundInAnyCaseAndBothSpellings) {
  EXPECT_EQ(find_colour("RED"), Colour::red);
  EXPECT_EQ(find_colour("Gray"), Colour::grey);
  EXPECT_EQ(find_colour("purple"), Colour::violet);
  EXPECT_EQ(find_colour("tan"), std::nullopt);
}

TEST(Colour, WritesTheBaseBeforeTheTracer) {
  const WireColour striped{Colour::red, Colour::white};
  EXPECT_EQ(to_text(striped), "red/white");
  EXPECT_EQ(code_of(striped), "RDWH");
  EXPECT_EQ(code_of(WireColour{Colour::white, Colour::red}), "WHRD");
  EXPECT_EQ(to_text(WireColour{Colour::blue, {}}), "blue");
}

}  // namespace
}  // namespace loomleaf
