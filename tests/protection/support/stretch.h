// Plans built up by hand, and how a rulebook takes the stretches that no device protects.
#pragma once

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "protection/support/judge.h"

namespace loomleaf::test {

class Stretch : public testing::Test {
 protected:
  const ConductorProtection& of(const std::string& wire) {
    judged = test::judge(built, book);
    return judged.protection.conductors[built.conductor(wire)];
  }
  double length(const std::string& wire) { return of(wire).exposed_length.value_or(metres(-1)).in(metres); }
  std::vector<std::string> beyond(const std::string& wire) { return test::names(built.plan, of(wire).beyond); }

  // The book's one row (457.2 mm, NEC 552.10(E)(4)) and what a test adds to it.
  PositionRow& add_row(std::optional<Length> longest) {
    book.positions.emplace_back();
    book.positions.back().longest = longest;
    return book.positions.back();
  }

  TestPlan built;
  Rulebook book = test::plain_book();
  Judged judged;
};

}  // namespace loomleaf::test
