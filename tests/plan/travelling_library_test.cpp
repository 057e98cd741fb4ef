// The example of the language's own page, from text to nodes.
#include <gmock/gmock.h>

#include <fstream>
#include <sstream>

#include "loomleaf/circuit/dump.h"
#include "loomleaf/circuit/limits.h"
#include "loomleaf/plan/dump.h"
#include "loomleaf/route/dump.h"
#include "support/read_plan.h"

namespace loomleaf {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;

std::string example(const std::string& name) {
  std::ifstream file(std::string(LOOMLEAF_ROOT) + "/examples/" + name);
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

TEST(TravellingLibrary, HasNoComplaint) {
  const ReadPlan read = read_plan(example("travelling-library.loom"));
  ASSERT_GT(read.plan.items.size(), 50u);
  EXPECT_EQ(read.said, "");
  EXPECT_THAT(find_routes(read.plan).complaints, IsEmpty());
  EXPECT_THAT(check_voltage_limits(read.plan, build_circuit(read.plan)), IsEmpty());
}

TEST(TravellingLibrary, RunsAsItsLegsLead) {
  const ReadPlan read = read_plan(example("travelling-library.loom"));
  const std::string routes = dump(read.plan, find_routes(read.plan).routes);
  // by hand: LOCKER to LEFT 1.6, LEFT to DOOR 1.4; F1 has no position, D1 none
  EXPECT_THAT(routes, HasSubstr("C1 3 m: LOCKER LEFT DOOR sheathed\n"));
  // DOOR to ROOF 1.3, then 0.9 along the roof
  EXPECT_THAT(routes, HasSubstr("C2 2.2 m: DOOR ROOF sheathed\n"));
  // SP1 at 0.9, LA2 at 0.3 + 0.8 = 1.1
  EXPECT_THAT(routes, HasSubstr("C3 200 mm: ROOF sheathed\n"));
  // LOCKER to BENCH 1.2 with 0.1 slack, S4 at 0.2, PMP at 0.7 (the longer core), plus 0.5
  EXPECT_THAT(routes, HasSubstr("C14 2.5 m: LOCKER BENCH sheathed\n"));
  EXPECT_THAT(routes, HasSubstr("C13 4.5 m: LOCKER RIGHT ROOF sheathed\n"));
}

TEST(TravellingLibrary, JoinsFusesToTheBlockByTheirIn) {
  const ReadPlan read = read_plan(example("travelling-library.loom"));
  const std::string circuit = dump(read.plan, build_circuit(read.plan));
  EXPECT_THAT(circuit, HasSubstr("node PB = FS.in = F1.in = F2.in = F3.in"));
  EXPECT_THAT(circuit, HasSubstr("conductor C1.red: F1.out to D1.in+\n"));
  EXPECT_THAT(circuit, HasSubstr("conductor CS.red: SOL+ to FS.out\n"));
  EXPECT_THAT(circuit, HasSubstr("conductor C4.black: LA2- to LA1-\n"));
}

}  // namespace
}  // namespace loomleaf
