// What may change and yet leave the diagram as it was.
#include <gtest/gtest.h>

#include <map>
#include <sstream>

#include "diagram/support/drawn.h"
#include "diagram/support/generated_plan.h"

namespace loomleaf::test {
namespace {

std::string example(const std::string& name) { return read_text(std::string(LOOMLEAF_ROOT) + "/examples/" + name); }

// A statement starts at the margin; what is indented belongs to the one above.
std::vector<std::string> statements_of(const std::string& text) {
  std::vector<std::string> statements;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    if (line.empty() || line.front() == '#') continue;
    if (line.front() == ' ' && !statements.empty())
      statements.back() += "\n" + line;
    else
      statements.push_back(line);
  }
  return statements;
}

class ShuffledExample : public ::testing::TestWithParam<const char*> {};

TEST_P(ShuffledExample, GivesTheSameBytes) {
  const auto statements = statements_of(example(GetParam()));
  const std::string first = pdf_of(draw(joined(statements)));
  for (unsigned seed = 1; seed <= 4; ++seed) EXPECT_TRUE(pdf_of(draw(shuffled(statements, seed))) == first) << seed;
}

INSTANTIATE_TEST_SUITE_P(Steadiness, ShuffledExample,
                         ::testing::Values("travelling-library.loom", "net-menders-boat.loom", "weather-hut.loom"));

TEST(Steadiness, ShuffledPlansGiveTheSameBytes) {
  for (unsigned plan = 1; plan <= 6; ++plan) {
    const auto statements = generated_plan(plan, 12);
    const std::string first = pdf_of(draw(joined(statements)));
    for (unsigned seed = 1; seed <= 3; ++seed)
      EXPECT_TRUE(pdf_of(draw(shuffled(statements, seed))) == first) << plan << ", " << seed;
  }
}

// Each circuit's wires, from the first point of the first of them, wherever it stands on the sheets.
std::map<std::string, std::vector<std::vector<Point>>> drawings_by_circuit(const Drawn& drawn) {
  const Examination& seen = drawn.seen();
  std::map<std::string, const PlacedWire*> wires;
  for (const PlacedSheet& sheet : drawn.sheets.placement)
    for (const PlacedWire& wire : sheet.wires) wires[wire.id] = &wire;
  std::map<std::string, std::vector<std::vector<Point>>> drawings;
  for (const FinalCircuit& circuit : seen.study.circuits) {
    std::optional<Point> origin;
    auto& drawing = drawings[seen.plan.items[circuit.device].id];
    for (const BranchId branch : circuit.branches) {
      const auto conductor = seen.circuit.branches[branch].conductor;
      if (!conductor) continue;
      std::vector<Point> points = wires.at(seen.plan.conductors[*conductor].id)->points;
      if (!origin) origin = points.front();
      for (Point& p : points) p = {p.x - origin->x, p.y - origin->y};
      drawing.push_back(std::move(points));
    }
  }
  return drawings;
}

void expect_near(const std::vector<std::vector<Point>>& is, const std::vector<std::vector<Point>>& should_be) {
  ASSERT_EQ(is.size(), should_be.size());
  for (std::size_t wire = 0; wire < is.size(); ++wire) {
    ASSERT_EQ(is[wire].size(), should_be[wire].size());
    for (std::size_t i = 0; i < is[wire].size(); ++i) {
      EXPECT_NEAR(is[wire][i].x, should_be[wire][i].x, 1e-6);
      EXPECT_NEAR(is[wire][i].y, should_be[wire][i].y, 1e-6);
    }
  }
}

TEST(Steadiness, ALoadAddedToACircuitLeavesTheOthersAsTheyWere) {
  const std::string plan = example("travelling-library.loom");
  const std::string more = "load SKL3 \"12 V socket\" 12 W use 30 % at LEFT 2.5 m\ncable C99 SKL2 to SKL3 12 AWG\n";
  const auto before = drawings_by_circuit(draw(plan)), after = drawings_by_circuit(draw(plan + more));
  ASSERT_GT(before.size(), 12u);
  ASSERT_EQ(after.size(), before.size());
  for (const auto& [circuit, drawing] : before) {
    SCOPED_TRACE(circuit);
    if (circuit == "F6")
      EXPECT_EQ(after.at(circuit).size(), drawing.size() + 2);
    else
      expect_near(after.at(circuit), drawing);
  }
}

}  // namespace
}  // namespace loomleaf::test
