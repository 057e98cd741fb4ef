// When a device opens at the latest, by gates that are known from memory of SAE J1284 and ISO 8820-3.
#include <gtest/gtest.h>

#include <cmath>

#include "loomleaf/study/fuse_curve.h"

namespace loomleaf {
namespace {

FuseFamily blade() {
  FuseFamily family;
  family.gates = {{1.1, seconds(360000), std::nullopt}, {1.35, seconds(0.75), seconds(600)},
                  {1.6, seconds(0.25), seconds(50)},    {2.0, seconds(0.15), seconds(5)},
                  {3.5, seconds(0.04), seconds(0.5)},   {6.0, seconds(0.02), seconds(0.1)}};
  return family;
}

double latest(const FuseFamily& family, double times) {
  return opens_no_later(family, amperes(10), amperes(10 * times)).no_later->in(seconds);
}

TEST(OpensNoLater, MeetsEachGate) {
  const FuseFamily family = blade();
  for (const TimeGate& gate : family.gates) {
    if (!gate.no_later) continue;
    EXPECT_NEAR(latest(family, gate.times), gate.no_later->in(seconds), 1e-9) << gate.times;
  }
}

TEST(OpensNoLater, MayNeverOpenBelowTheFirstLimit) {
  const Opening opening = opens_no_later(blade(), amperes(10), amperes(13.49));
  EXPECT_FALSE(opening.no_later);
  EXPECT_TRUE(opening.is_published);
}

TEST(OpensNoLater, IsStraightOnLogarithmicPaperBetweenGates) {
  // half way between 2 and 3.5 times: sqrt(2 x 3.5); half way between 5 and 0.5 s: sqrt(5 x 0.5)
  EXPECT_NEAR(latest(blade(), std::sqrt(2.0 * 3.5)), std::sqrt(5.0 * 0.5), 1e-9);
}

TEST(OpensNoLater, KeepsItsI2tBeyondTheLastGate) { EXPECT_NEAR(latest(blade(), 60.0), 0.1 / 100.0, 1e-9); }

TEST(OpensNoLater, IsABoundAloneBeyondGatesThatEndEarly) {
  FuseFamily slow;
  slow.gates = {{1.35, std::nullopt, seconds(3600)}, {2.0, std::nullopt, seconds(60)}};
  EXPECT_TRUE(opens_no_later(slow, amperes(10), amperes(20)).is_published);
  const Opening beyond = opens_no_later(slow, amperes(10), amperes(40));
  EXPECT_FALSE(beyond.is_published);
  EXPECT_NEAR(beyond.no_later->in(seconds), 15.0, 1e-9);
}

TEST(OpensNoLater, SaysNothingWithoutACurve) {
  const Opening opening = opens_no_later(FuseFamily{}, amperes(10), amperes(1000));
  EXPECT_FALSE(opening.no_later);
  EXPECT_FALSE(opening.is_published);
}

}  // namespace
}  // namespace loomleaf
