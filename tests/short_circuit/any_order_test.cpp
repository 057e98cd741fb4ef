// Figures of shorts do not hang on the order of the plan's statements.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <string>
#include <vector>

#include "short_circuit/support/shorted.h"

namespace loomleaf::test {
namespace {

// Two or three unlike batteries on a mesh of buses, out and back, all lengths whole metres: many ways are equally long.
class MeshOfBatteries {
 public:
  explicit MeshOfBatteries(unsigned seed) : random_(seed) {
    const int batteries = number(2, 3), feeds = number(2, 5), backs = number(2, 5);
    buses("P", feeds);
    buses("N", backs);
    for (int i = 0; i < batteries; ++i) {
      const std::string n = text(i);
      say("source BAT" + n + " 12.8 V low 12.0 V 100 Ah max 100 A short-circuit " + (chance(50) ? "300 A" : "500 A"));
      say("fuse F" + n + (chance(50) ? " 10 A" : " 20 A") + " blade on BAT" + n + "+");
      wire("F" + n, any("P", feeds), "red");
      wire(any("N", backs), "BAT" + n + "-", "black");
    }
    mesh("P", feeds, "red");
    mesh("N", backs, "black");
    for (int i = 0; i < 4; ++i) {
      say("load X" + text(i) + " 6 W");
      wire(any("P", feeds), "X" + text(i) + "+", "red");
      wire("X" + text(i) + "-", any("N", backs), "black");
    }
    say("tail T0");
    wire(any("P", feeds), "T0", "red");
  }

  std::string as_written() const { return joined(statements_); }
  std::string shuffled() {
    std::vector<std::string> statements = statements_;
    for (std::size_t i = statements.size(); i-- > 1;) std::swap(statements[i], statements[random_() % (i + 1)]);
    return joined(statements);
  }
  int wires() const { return wires_; }

 private:
  static std::string text(int i) { return std::to_string(i); }
  static std::string joined(const std::vector<std::string>& statements) {
    std::string all = "system 12 V rules rv\n";
    for (const std::string& statement : statements) all += statement + "\n";
    return all;
  }
  int number(int least, int most) {
    return least + static_cast<int>(random_() % static_cast<unsigned>(most - least + 1));
  }
  bool chance(int percent) { return number(1, 100) <= percent; }
  std::string any(const std::string& stem, int count) { return stem + text(number(0, count - 1)); }
  void say(const std::string& statement) { statements_.push_back(statement); }
  void buses(const std::string& stem, int count) {
    for (int i = 0; i < count; ++i) say("bus " + stem + text(i) + " 100 A");
  }
  void wire(const std::string& from, const std::string& to, const std::string& colour) {
    if (from == to) return;
    say("wire W" + text(++wires_) + " " + from + " to " + to + " " + text(10 + 2 * number(0, 2)) + " AWG " + colour +
        " " + text(number(1, 3)) + " m");
  }
  void mesh(const std::string& stem, int count, const std::string& colour) {
    for (int i = 1; i < count; ++i) wire(any(stem, i), stem + text(i), colour);
    for (int i = number(0, 3); i > 0; --i) wire(any(stem, count), any(stem, count), colour);
  }

  std::mt19937 random_;
  std::vector<std::string> statements_;
  int wires_ = 0;
};

class MeshesOfBatteries : public testing::TestWithParam<unsigned> {};

// Not a number where there is no short, infinite where it perhaps never ends.
bool are_alike(double one, double other, double share) {
  return (std::isnan(one) && std::isnan(other)) || one == other || std::fabs(one - other) < share * one;
}

TEST_P(MeshesOfBatteries, TellTheSameInAnyOrder) {
  MeshOfBatteries mesh(GetParam());
  const Shorted written(mesh.as_written()), shuffled(mesh.shuffled());
  for (int i = 1; i <= mesh.wires(); ++i) {
    const std::string wire = "W" + std::to_string(i);
    EXPECT_PRED3(are_alike, written.at_far_end(wire), shuffled.at_far_end(wire), 1e-6) << wire << mesh.as_written();
    EXPECT_PRED3(are_alike, written.clears(wire), shuffled.clears(wire), 1e-4) << wire << mesh.as_written();
  }
}

INSTANTIATE_TEST_SUITE_P(Seeds, MeshesOfBatteries, testing::Range(1U, 101U));

}  // namespace
}  // namespace loomleaf::test
