// Conductors side by side: where the book lets alike ones share what flows, and where each is held to all of it.
#include <gmock/gmock.h>

#include "rules/support/examined.h"

namespace loomleaf::test {
namespace {

using testing::HasSubstr;

// An inverter of 3 kW behind this fuse; two of the first kind of conductor out, two of the second back.
std::string inverter(const std::string& rules, const std::string& fuse, const std::string& one,
                     const std::string& other) {
  std::string text = "system 12 V rules " + rules +
                     "\ndefault wire insulation 90 C\n"
                     "source B 12.8 V low 12.4 V 600 Ah max 600 A short-circuit 8 kA\nload INV 3 kW\nfuse F0 " +
                     fuse + " class-t on B+\n";
  text += "wire A1 F0 to INV+ " + one + " red 1 m\nwire A2 F0 to INV+ " + other + " red 1 m\n";
  text += "wire R1 INV- to B- " + one + " black 1 m\nwire R2 INV- to B- " + other + " black 1 m\n";
  return text;
}

// NEC 310.10(G), from memory: from 1/0 AWG up, alike in size and length. 1/0 AWG of 90 C: 170 A (NEC 310.16).
TEST(GaugeMismatch, LetsAlikeConductorsFromOneOughtUpShareInRv) {
  EXPECT_FALSE(fires("gauge-mismatch", inverter("rv", "300 A", "1/0 AWG", "1/0 AWG")));
  const auto findings = findings_of("gauge-mismatch", inverter("rv", "400 A", "1/0 AWG", "1/0 AWG"));
  ASSERT_EQ(findings.size(), 4u);
  EXPECT_THAT(findings[0].message, HasSubstr("A1 may carry 340 A with the one beside it, F0 lets 400 A through"));
}

TEST(GaugeMismatch, HoldsThinnerOrUnlikeOnesToAll) {
  EXPECT_TRUE(fires("gauge-mismatch", inverter("rv", "200 A", "1 AWG", "1 AWG")));
  EXPECT_TRUE(fires("gauge-mismatch", inverter("rv", "300 A", "1/0 AWG", "2/0 AWG")));
  std::string longer = inverter("rv", "300 A", "1/0 AWG", "1/0 AWG");
  longer.replace(longer.find("red 1 m"), 7, "red 2 m");
  EXPECT_TRUE(fires("gauge-mismatch", longer));
}

TEST(GaugeMismatch, HoldsEachToAllInABookThatIsSilentOnSharing) {
  EXPECT_TRUE(fires("gauge-mismatch", inverter("marine", "600 A", "1/0 AWG", "1/0 AWG")));
}

// Two wires from one fuse to two loads lie side by side nowhere.
TEST(GaugeMismatch, LetsConductorsToUnlikePlacesNotShare) {
  const std::string plan =
      "system 12 V rules rv\ndefault wire insulation 90 C\nsource B 12.8 V 600 Ah max 600 A short-circuit 8 kA\n"
      "fuse F0 300 A class-t on B+\nload X1, X2 1 kW\nbus NB 600 A\nwire A1 F0 to X1+ 1/0 AWG red 1 m\n"
      "wire A2 F0 to X2+ 1/0 AWG red 1 m\nwire R1 X1- to NB 1/0 AWG black 1 m\nwire R2 X2- to NB 1/0 AWG black 1 m\n"
      "wire R NB to B- 4/0 AWG black 1 m\n";
  EXPECT_TRUE(fires("gauge-mismatch", plan));
}

}  // namespace
}  // namespace loomleaf::test
