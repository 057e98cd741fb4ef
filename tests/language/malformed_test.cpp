// Each tests/malformed/language/NAME.loom has its complaints, as the user sees them, in NAME.expected beside it.
#include "loomleaf/language/statement.h"
#include "support/golden_plans.h"

namespace loomleaf {
namespace {

const std::filesystem::path folder = std::filesystem::path(LOOMLEAF_ROOT) / "tests/malformed/language";

std::string complaints_of(const std::string& name) {
  const SourceText source(name + ".loom", read_golden(folder / (name + ".loom")));
  std::string text;
  for (const Complaint& complaint : read_document(source).complaints) text += to_text(complaint, source);
  return text;
}

class MalformedPlan : public testing::TestWithParam<std::string> {};

TEST_P(MalformedPlan, IsAnsweredAsExpected) { expect_golden(folder, GetParam(), complaints_of(GetParam())); }

INSTANTIATE_TEST_SUITE_P(Language, MalformedPlan, testing::ValuesIn(golden_names(folder)), golden_test_name);

}  // namespace
}  // namespace loomleaf
