// The sound plans that mistakes are put into, and that speed is measured on.
#include "faults/support/sound_plan.h"

#include <gtest/gtest.h>

#include "support/examined.h"

namespace loomleaf::test {
namespace {

void expect_sound(unsigned seed, int conductors) {
  for (const Finding& finding : examined(sound_plan(seed, conductors).text()).findings) {
    EXPECT_LT(finding.severity, Severity::caution)
        << "seed " << seed << ", " << conductors << " conductors: " << finding.rule << ": " << finding.message;
  }
}

TEST(SoundPlans, HaveNoCautionAndNothingWorse) {
  for (unsigned seed = 1; seed <= 300; ++seed) expect_sound(seed, 20 + static_cast<int>(seed % 100));
}

TEST(SoundPlans, OfThousandsOfConductorsHaveNoneEither) {
  for (unsigned seed = 1; seed <= 20; ++seed) expect_sound(seed, 150 * static_cast<int>(seed));
}

TEST(SoundPlans, AreTheSameForTheSameSeed) {
  EXPECT_EQ(sound_plan(7, 90).text(), sound_plan(7, 90).text());
  EXPECT_NE(sound_plan(7, 90).text(), sound_plan(8, 90).text());
}

}  // namespace
}  // namespace loomleaf::test
