// Whole plans whose return is judged by the fuse of the feed beside it.
#include <gmock/gmock.h>

#include "rules/support/examined.h"

namespace loomleaf::test {
namespace {

using testing::HasSubstr;

// Two lamps behind 10 A each between two bars, which a main fuse and a return of this size join to the battery.
std::string panel_home_by(const std::string& main, const std::string& back, const std::string& watt = "20 W") {
  std::string text = "system 12 V rules rv\nsource B 12.8 V low 12.2 V 200 Ah max 60 A short-circuit 500 A\nfuse F0 " +
                     main +
                     " class-t on B+\nbus PB, NB 100 A 6 ways\nwire W1 F0 to PB 2 AWG red 0.5 m\nwire W2 NB to B- " +
                     back + " black 0.6 m\n";
  for (const std::string n : {"1", "2"})
    text += "fuse K" + n + " 10 A blade on PB\nload X" + n + " " + watt + "\nwire A" + n + " K" + n + " to X" + n +
            "+ 14 AWG red 1 m\nwire R" + n + " X" + n + "- to NB 14 AWG black 1 m\n";
  return text;
}

// From the plus bar to the minus bar the main fuse alone stands before the return.
TEST(GaugeMismatch, HoldsTheReturnOfAPanelAgainstItsMainFuse) {
  // 12 AWG: 20 A, 10 AWG: 30 A (NEC 552.10(E)(1)); 6 AWG: 55 A, 4 AWG: 70 A (NEC 310.16, 60 C column).
  EXPECT_FALSE(fires("gauge-mismatch", panel_home_by("20 A", "12 AWG")));
  EXPECT_TRUE(fires("gauge-mismatch", panel_home_by("25 A", "12 AWG")));
  EXPECT_FALSE(fires("gauge-mismatch", panel_home_by("30 A", "10 AWG")));
  EXPECT_TRUE(fires("gauge-mismatch", panel_home_by("40 A", "10 AWG")));
  EXPECT_FALSE(fires("gauge-mismatch", panel_home_by("60 A", "4 AWG")));
  EXPECT_TRUE(fires("gauge-mismatch", panel_home_by("60 A", "6 AWG")));
}

TEST(GaugeMismatch, MendsAPanelsReturnByAThickerOneOrASmallerMain) {
  const auto findings = findings_of("gauge-mismatch", panel_home_by("40 A", "14 AWG"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].subjects, (std::vector<std::string>{"W2", "F0"}));
  EXPECT_THAT(findings[0].message, HasSubstr("W2 may carry 15 A, F0 lets 40 A through"));
  EXPECT_EQ(findings[0].mend, "make W2 8 AWG or thicker, which may carry 40 A, or change F0 to 15 A");
  // The lamps draw more than 15 A together: a smaller main would open.
  const auto busy = findings_of("gauge-mismatch", panel_home_by("40 A", "14 AWG", "100 W"));
  ASSERT_EQ(busy.size(), 1u);
  EXPECT_EQ(busy[0].mend, "make W2 8 AWG or thicker, which may carry 40 A");
}

}  // namespace
}  // namespace loomleaf::test
