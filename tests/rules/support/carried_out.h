// A plan with a mend carried out, as its reader would.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace loomleaf::test {

// Does in a plan's text what the first of a mend's alternatives says: "change F1 to 10 A, and make W3 4 AWG and W4 4
// AWG at least". Fails the test where it says nothing of the kind, or names what the text does not have in a line of
// its own.
std::string carried_out(const std::string& mend, const std::string& text);

// "RULE SUBJECT" of each finding of WARNING and above, sorted.
std::vector<std::string> grave_in(const std::string& text);

// The mend of the finding of this rule on this subject; fails the test where there is none.
std::string mend_of(std::string_view rule, const std::string& subject, const std::string& plan);

// That carrying out its mend ends this finding, and that nothing which is a WARNING or more comes of it.
void expect_cured(std::string_view rule, const std::string& subject, const std::string& plan);

}  // namespace loomleaf::test
