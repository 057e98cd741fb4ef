#include "protection/support/judge.h"

namespace loomleaf::test {

Rulebook plain_book() {
  Rulebook book;
  book.name = "plain";
  PositionRow row;
  row.longest = millimetres(457.2);
  row.from = {"NEC 552.10(E)(4)", Known::seen};
  book.positions = {row};
  return book;
}

Judged judge(const TestPlan& built, const Rulebook& book) {
  Judged judged;
  judged.circuit = built.circuit();
  judged.ways = enumerate_ways(built.plan, judged.circuit).all;
  for (const Ways& ways : judged.ways) judged.sides.push_back(find_sides(built.plan, judged.circuit, ways));
  judged.protection =
      study_protection(built.plan, built.routes, judged.circuit, built.figures, book, judged.ways, judged.sides);
  return judged;
}

}  // namespace loomleaf::test
