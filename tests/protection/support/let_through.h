// Plans built up by hand, and the let-through of their conductors.
#pragma once

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "protection/support/judge.h"

namespace loomleaf::test {

class LetThrough : public testing::Test {
 protected:
  const ConductorProtection& of(const std::string& wire) {
    judged = test::judge(built);
    return judged.protection.conductors[built.conductor(wire)];
  }
  double amps(const std::string& wire) { return of(wire).let_through.value_or(amperes(-1)).in(amperes); }
  std::vector<std::string> by(const std::string& wire) { return test::names(built.plan, of(wire).protected_by); }

  // A battery with its fuse on the post, a fuse block PB and a negative bus NB.
  void house(double main_A) {
    built.battery("BAT");
    built.fuse("F0", main_A);
    built.on("F0", "BAT+");
    built.bus("PB");
    built.bus("NB");
    built.wire("MAIN", "F0.out", "PB");
    built.wire("BACK", "NB", "BAT-");
  }
  // The same without the fuse on the post: returns answer for the circuits' fuses alone.
  void bare_house() {
    built.battery("BAT");
    built.bus("PB");
    built.bus("NB");
    built.wire("MAIN", "BAT+", "PB");
    built.wire("BACK", "NB", "BAT-");
  }
  // A load behind a fuse of its own.
  void circuit(const std::string& n, double fuse_A, Load::Kind kind = Load::Kind::electronic) {
    built.fuse("F" + n, fuse_A);
    built.on("F" + n, "PB");
    built.load("L" + n, kind);
    built.wire("OUT" + n, "F" + n + ".out", "L" + n + "+");
    built.wire("RET" + n, "L" + n + "-", "NB");
  }

  TestPlan built;
  Judged judged;
};

}  // namespace loomleaf::test
