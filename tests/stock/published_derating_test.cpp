// Every factor for warmth and for grouping that the rulebooks hold, against the tables as they were printed.
#include <gtest/gtest.h>

#include "support/installed_templates.h"

namespace loomleaf {
namespace {

struct Warm {
  double insulation, ambient, factor;
};

void expect_factors(const char* book, const std::vector<Warm>& printed) {
  const Rulebook rulebook = installed_rulebook(book);
  for (const Warm& row : printed) {
    const WireSize in_every_table = WireSize::metric(square_millimetres(10));
    EXPECT_DOUBLE_EQ(rulebook.ambient_factor(in_every_table, celsius(row.insulation), celsius(row.ambient)).value,
                     row.factor)
        << row.insulation << " C insulation at " << row.ambient << " C";
  }
}

// NEC 310.15(B)(1) (2020), seen in reprints; the cooler rows, which would raise the ampacity, are left out on purpose
TEST(RvRulebook, HoldsEveryFactorOfNec310Dot15) {
  expect_factors("rv", {{60, 35, 0.91}, {60, 40, 0.82}, {60, 45, 0.71}, {60, 50, 0.58}, {60, 55, 0.41}, {75, 35, 0.94},
                        {75, 40, 0.88}, {75, 45, 0.82}, {75, 50, 0.75}, {75, 55, 0.67}, {75, 60, 0.58}, {90, 35, 0.96},
                        {90, 40, 0.91}, {90, 45, 0.87}, {90, 50, 0.82}, {90, 55, 0.76}, {90, 60, 0.71}, {90, 65, 0.58},
                        {90, 70, 0.58}, {75, 25, 1.0},  {90, 25, 1.0},  {75, 30, 1.0},  {90, 30, 1.0}});
}

// 33 CFR 183.425 table 5 note 1, seen: engine space of 50 C
TEST(MarineRulebook, HoldsEveryFactorOf33Cfr183Note1) {
  expect_factors("marine", {{60, 50, 0.58},
                            {75, 50, 0.75},
                            {80, 50, 0.78},
                            {90, 50, 0.82},
                            {105, 50, 0.85},
                            {125, 50, 0.89},
                            {200, 50, 1.0}});
}

// ISO 10133 table A.1, footnote (from memory): engine space of 60 C, where 60 C insulation is not allowed
TEST(MetricRulebook, HoldsEveryFactorOfIso10133) {
  expect_factors("metric", {{60, 60, 0.0},
                            {70, 60, 0.75},
                            {85, 60, 0.82},
                            {90, 60, 0.82},
                            {105, 60, 0.86},
                            {125, 60, 0.89},
                            {200, 60, 1.0}});
}

// ISO 10133 annex A (from memory, low confidence)
TEST(MetricRulebook, GroupingStartsAtFour) {
  const Rulebook metric = installed_rulebook("metric");
  const std::pair<int, double> rows[] = {{3, 1.0}, {4, 0.7}, {6, 0.7}, {7, 0.6}, {24, 0.6}, {25, 0.5}, {99, 0.5}};
  for (const auto& [count, factor] : rows) EXPECT_DOUBLE_EQ(metric.grouping_factor(count).value, factor) << count;
}

// ABYC E-11, seen, and ISO 10133 4.8, seen: 3 %
TEST(Rulebooks, TakeThreePercentOfDropWhereNothingElseIsSaid) {
  for (const char* name : {"rv", "marine", "metric"})
    EXPECT_DOUBLE_EQ(installed_rulebook(name).drop_limit.value, 0.03) << name;
}

}  // namespace
}  // namespace loomleaf
