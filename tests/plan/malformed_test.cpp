// Plans of which the statements read well, and that still cannot be understood: tests/malformed/plan.
#include "support/golden_plans.h"
#include "support/read_plan.h"

namespace loomleaf {
namespace {

const std::filesystem::path folder = std::filesystem::path(LOOMLEAF_ROOT) / "tests/malformed/plan";

class MalformedPlan : public testing::TestWithParam<std::string> {};

TEST_P(MalformedPlan, IsAnsweredAsExpected) {
  expect_golden(folder, GetParam(), complaints_of(GetParam() + ".loom", read_golden(folder / (GetParam() + ".loom"))));
}

INSTANTIATE_TEST_SUITE_P(Plan, MalformedPlan, testing::ValuesIn(golden_names(folder)), golden_test_name);

}  // namespace
}  // namespace loomleaf
