#include <gmock/gmock.h>

#include <algorithm>

#include "loomleaf/report/report.h"

namespace loomleaf {
namespace {

using testing::HasSubstr;
using testing::Not;

const SourceText source("van.loom", "fuse F1 30 A\nwire C1 F1 to LA1 18 AWG\n");

Finding mismatch() {
  return {"gauge-mismatch",   Severity::danger,   {"C1", "F1"}, "C1 may carry 6 A, F1 lets 30 A through",
          "change F1 to 5 A", "NEC 552.10(E)(1)", Span{18, 20}, FindingValues{30, 6, "A"},
          std::nullopt};
}
Finding drop() {
  return {"voltage-drop",     Severity::caution, {"LA1"},      "LA1 loses 4 %", "make C1 16 AWG",
          "the plan's limit", Span{0, 4},        std::nullopt, std::nullopt};
}

TEST(FindingsText, IsPlainGnuForm) {
  EXPECT_EQ(findings_text({mismatch()}, source, {}),
            "van.loom:2:6: DANGER: gauge-mismatch: C1 may carry 6 A, F1 lets 30 A through\n"
            "    mend: change F1 to 5 A\n"
            "    after: NEC 552.10(E)(1)\n"
            "1 DANGER, 0 WARNING, 0 CAUTION, 0 NOTICE\n");
}

TEST(FindingsText, OfNothingIsTheCountAlone) {
  EXPECT_EQ(findings_text({}, source, {}), "0 DANGER, 0 WARNING, 0 CAUTION, 0 NOTICE\n");
}

TEST(FindingsText, TellsAcceptedFindingsWithTheirReasonAndCountsThemApart) {
  Finding accepted = drop();
  accepted.accepted = "a path lamp may be dim";
  const std::string text = findings_text({accepted}, source, {});
  EXPECT_THAT(text,
              HasSubstr("van.loom:1:1: CAUTION: voltage-drop: LA1 loses 4 %\n    accepted: a path lamp may be dim\n"));
  EXPECT_THAT(text, HasSubstr("0 CAUTION, 0 NOTICE; 1 accepted\n"));
}

TEST(FindingsText, CountsChecksNotDoneBySubject) {
  Finding gap = drop();
  gap.rule = "not-checked";
  gap.severity = Severity::notice;
  gap.subjects = {"SP1", "SP2"};
  EXPECT_THAT(findings_text({gap}, source, {}), HasSubstr("1 NOTICE; 2 checks not done\n"));
  gap.subjects = {"SP1"};
  EXPECT_THAT(findings_text({gap}, source, {}), HasSubstr("1 NOTICE; 1 check not done\n"));
}

TEST(FindingsText, ColoursTheSeverityWordsAloneAndOnlyWhenAsked) {
  EXPECT_THAT(findings_text({mismatch()}, source, {}), Not(HasSubstr("\x1b")));
  EXPECT_THAT(findings_text({mismatch()}, source, {.colour = true}),
              HasSubstr("van.loom:2:6: \x1b[1;31mDANGER\x1b[0m: gauge-mismatch: C1"));
}

TEST(FindingsText, LetsNoControlCharacterThrough) {
  Finding hostile = drop();
  hostile.accepted = "dim\x1b]0;x\x07";
  hostile.message = "LA1\r\x1b[2J";
  hostile.mend = "a\nb";
  const std::string text = findings_text({hostile}, SourceText("a\x1b[7mb.loom", "x"), {});
  EXPECT_THAT(text, Not(HasSubstr("\x1b")));
  EXPECT_THAT(text, Not(HasSubstr("\r")));
  EXPECT_THAT(text, Not(HasSubstr("\x07")));
  EXPECT_EQ(std::ranges::count(text, '\n'), 5);
}

}  // namespace
}  // namespace loomleaf
