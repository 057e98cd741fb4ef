// Contacts that join batteries are held to the fuses on the way: what flows there hangs on how full the batteries are.
#include <gmock/gmock.h>

#include "rules/support/examined.h"

namespace loomleaf::test {
namespace {

using testing::HasSubstr;

std::string split_charge(const std::string& relay, const std::string& fuse1, const std::string& fuse2) {
  return "system 12 V rules marine\ndefault wire insulation 105 C\n"
         "source S, H 12.8 V 100 Ah max 100 A short-circuit 900 A\nrelay K \"Charging relay\" contact " +
         relay + " coil 2 W\nfuse F1 " + fuse1 + " class-t on S+\nfuse F2 " + fuse2 +
         " class-t on H+\nfuse FC 1 A class-t on S+\nwire W1 F1 to K.30 2 AWG red 1 m\nwire W2 K.87 to F2 2 AWG red 1 "
         "m\n"
         "wire W3 H- to S- 2 AWG black 1 m\nwire W4 FC to K.86 16 AWG red 1 m\nwire W5 K.85 to S- 16 AWG black 1 m\n";
}

TEST(OverloadedContact, OfARelayBetweenBatteriesIsHeldToTheSmallerOfTheirFuses) {
  EXPECT_FALSE(fires("overloaded-contact", split_charge("80 A", "100 A", "100 A")));  // 1.25 times
  EXPECT_FALSE(fires("overloaded-contact", split_charge("32 A", "100 A", "40 A")));
  const auto findings = findings_of("overloaded-contact", split_charge("30 A", "80 A", "100 A"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::warning);
  EXPECT_EQ(findings[0].subjects, (std::vector<std::string>{"K", "F1"}));
  EXPECT_THAT(findings[0].message, HasSubstr("joins batteries: if one is flat, F1 lets 80 A through it"));
  EXPECT_THAT(findings[0].mend, HasSubstr("a fuse of 30 A at most beside K, or fit a relay of 80 A or more"));
}

// A selector whose ways lead to three batteries: the way that may have to pass the most is told.
TEST(OverloadedContact, OfASelectorTellsTheWayThatIsTheMostOver) {
  const std::string plan =
      "system 12 V rules marine\ndefault wire insulation 105 C\n"
      "source B1, B2, B3 12.8 V 100 Ah max 100 A short-circuit 900 A\nfuse F1 200 A class-t on B1+\n"
      "fuse F2 300 A class-t on B2+\nfuse F3 400 A class-t on B3+\nswitch S 3 ways both 100 A\nload L 60 W\n"
      "fuse FL 10 A class-t\nwire W1 F1 to S.out1 4/0 AWG red 1 m\nwire W2 F2 to S.out2 4/0 AWG red 1 m\n"
      "wire W3 F3 to S.out3 4/0 AWG red 1 m\nwire W4 S.in to FL 4/0 AWG red 0.1 m\nwire W5 FL to L+ 10 AWG red 1 m\n"
      "bus N 400 A\nwire W6 L- to N 10 AWG black 1 m\nwire W7 B1- to N 4/0 AWG black 1 m\n"
      "wire W8 B2- to N 4/0 AWG black 1 m\nwire W9 B3- to N 4/0 AWG black 1 m\n";
  const auto findings = findings_of("overloaded-contact", plan);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_THAT(findings[0].message, HasSubstr("S.in to S.out3"));
  EXPECT_THAT(findings[0].mend, HasSubstr("400 A or more"));
}

// A switch before loads alone passes from battery to battery nothing.
TEST(OverloadedContact, OfASwitchBeforeLoadsGoesByTheirCurrentAlone) {
  EXPECT_FALSE(
      fires("overloaded-contact",
            "system 12 V rules marine\nsource B 12.8 V 100 Ah max 60 A short-circuit 900 A\n"
            "source A 14 V alternator limit 50 A\nfuse F0 60 A class-t on B+\nfuse FA 60 A class-t\n"
            "switch S 20 A\nload L 60 W\nbus PB, NB 100 A\nwire W0 F0 to PB 6 AWG red 0.2 m\n"
            "wire W1 A+ to FA 6 AWG red 0.1 m\nwire W2 FA to PB 6 AWG red 0.1 m\nwire W3 PB to S 6 AWG red 1 m\n"
            "wire W4 S to L+ 6 AWG red 1 m\nwire W5 L- to NB 6 AWG black 1 m\nwire W6 NB to B- 6 AWG black 1 m\n"
            "wire W7 A- to NB 6 AWG black 1 m\n"));
}

// Where a second way joins the batteries no single contact has to bear what levels them.
TEST(OverloadedContact, BesideASecondWayIsNotHeldToIt) {
  EXPECT_FALSE(fires("overloaded-contact", split_charge("30 A", "80 A", "80 A") +
                                               "switch P 300 A\nwire X1 F1 to P 2 AWG red 1 m\n"
                                               "wire X2 P to F2 2 AWG red 1 m\n"));
}

}  // namespace
}  // namespace loomleaf::test
