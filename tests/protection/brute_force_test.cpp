// The study against the definition taken literally, on circuits wired at random.
#include "protection/support/brute_force.h"

#include <gtest/gtest.h>

#include <map>

#include "protection/support/brute_exposure.h"
#include "protection/support/brute_pairing.h"
#include "protection/support/judge.h"
#include "protection/support/random_plan.h"

namespace loomleaf {
namespace {

using namespace test;

struct Expected {
  BruteLetThrough worst;
  bool shorted = false;
  bool paired = false;  // by the feed that it pairs with it takes more than by shorted loads
};

std::vector<Expected> expected(const TestPlan& built, const Judged& judged) {
  std::vector<Expected> all(built.plan.conductors.size());
  for (const Ways& ways : judged.ways) {
    const BruteForce brute(built.plan, judged.circuit, ways);
    const BrutePairing pairing(built.plan, judged.circuit, brute);
    for (const ConductorId id : built.plan.conductors.ids()) {
      BruteLetThrough one = brute.of(id);
      const BruteFlow paired = pairing.of(id);
      if (one.is_return && paired > one.back) {
        one.back = paired;
        all[id.value].paired = true;
      }
      BruteLetThrough& worst = all[id.value].worst;
      if (one.is_feed && (!worst.is_feed || one.feed > worst.feed)) worst.feed = one.feed;
      if (one.is_return && (!worst.is_return || one.back > worst.back)) worst.back = one.back;
      worst.back_through_battery = worst.back_through_battery || one.back_through_battery;
      worst.back_by_ways = worst.back_by_ways || one.back_by_ways;
      worst.is_feed = worst.is_feed || one.is_feed;
      worst.is_return = worst.is_return || one.is_return;
      all[id.value].shorted = all[id.value].shorted || brute.has_dead_short();
    }
  }
  return all;
}

TEST(BruteForce, LetThroughIsTheLeastOfAllCuts) {
  std::size_t feeds = 0, returns = 0, through_batteries = 0, unbounded = 0, summed = 0, ways = 0, plain = 0,
              in_shorts = 0, paired = 0, by_ways = 0;
  for (unsigned seed = 1; seed <= 400; ++seed) {
    const TestPlan built = random_plan(seed);
    const Judged judged = judge(built);
    const std::vector<Expected> all = expected(built, judged);
    ways += judged.ways.size();
    for (const ConductorId id : built.plan.conductors.ids()) {
      SCOPED_TRACE("seed " + std::to_string(seed) + " conductor " + built.plan.conductors[id].id);
      const auto& [worst, shorted, is_paired] = all[id.value];
      const bool by_return = worst.is_return && (!worst.is_feed || worst.back > worst.feed);
      BruteFlow flow = by_return ? worst.back : worst.feed;
      if (!worst.is_feed && !worst.is_return) flow.most_uA = 0;
      const ConductorProtection& of = judged.protection.conductors[id];
      ++(shorted ? in_shorts : plain);
      if (shorted) {
        // The sides run into each other and chains have no beginning: whatever flows as feed is not missed.
        ASSERT_TRUE(
            of.unbounded || !worst.is_feed ||
            (worst.feed.is_bounded() && of.let_through->in(amperes) >= static_cast<double>(worst.feed.most_uA) / 1e6));
        continue;
      }
      ASSERT_EQ(of.unbounded, !flow.is_bounded());
      ASSERT_EQ(of.let_through.has_value(), flow.is_bounded());
      if (flow.is_bounded()) {
        ASSERT_EQ(of.let_through->in(amperes), static_cast<double>(flow.most_uA) / 1e6);
      }
      const std::vector<std::string> by = names(built.plan, of.protected_by);
      ASSERT_EQ(std::set<std::string>(by.begin(), by.end()), flow.held_by);
      feeds += worst.is_feed ? 1U : 0U;
      returns += worst.is_return && worst.back.most_uA > 0 ? 1U : 0U;
      through_batteries += worst.back_through_battery ? 1U : 0U;
      by_ways += worst.back_by_ways ? 1U : 0U;
      unbounded += of.unbounded ? 1U : 0U;
      paired += is_paired ? 1U : 0U;
      summed += by.size() > 1 ? 1U : 0U;
    }
  }
  // The circuits exercise what they are meant to.
  EXPECT_GT(feeds, 2000u);
  EXPECT_GT(returns, 500u);
  EXPECT_GT(through_batteries, 100u);
  EXPECT_GT(paired, 30u);
  EXPECT_GT(by_ways, 30u);
  EXPECT_GT(unbounded, 300u);
  EXPECT_GT(summed, 300u);
  EXPECT_GT(ways, 420u);
  EXPECT_GT(plain, 2 * in_shorts);
}

// Rows of every kind: a short one for all, longer ones for sheathed runs and for leads from a battery, one for
// starters.
Rulebook book_of_all_rows() {
  Rulebook book = plain_book();
  const auto add = [&](std::optional<Length> longest) -> PositionRow& {
    book.positions.emplace_back();
    book.positions.back().longest = longest;
    return book.positions.back();
  };
  add(millimetres(900)).only_sheathed = true;
  add(millimetres(1200)).only_from_battery = true;
  PositionRow& starter = add(std::nullopt);
  starter.only_starter = starter.only_sheathed = true;
  return book;
}

TEST(BruteForce, ExposureIsWhatTheDefinitionSays) {
  std::map<Exposure, std::size_t> seen;
  for (unsigned seed = 1; seed <= 400; ++seed) {
    const TestPlan built = random_plan(seed);
    const Rulebook book = seed % 2 == 0 ? book_of_all_rows() : plain_book();
    const Judged judged = judge(built, book);
    const std::vector<BruteVerdict> all = brute_exposure(built, judged, book);
    for (const ConductorId id : built.plan.conductors.ids()) {
      SCOPED_TRACE("seed " + std::to_string(seed) + " conductor " + built.plan.conductors[id].id);
      const BruteVerdict& verdict = all[id.value];
      const ConductorProtection& of = judged.protection.conductors[id];
      if (!verdict.exposed_feed) {
        ASSERT_FALSE(of.exposed_length);
        ASSERT_TRUE(of.exposure == Exposure::protected_ || of.exposure == Exposure::exposed_return);
        continue;
      }
      ASSERT_TRUE(of.exposed);
      ASSERT_TRUE(of.exposed_length);
      ASSERT_NEAR(of.exposed_length->in(metres), verdict.length_m, 1e-9);
      ++seen[of.exposure];
      if (of.exposure == Exposure::exposed_return)
        ASSERT_EQ(verdict.exposure, Exposure::tolerated);
      else
        ASSERT_EQ(of.exposure, verdict.exposure);
    }
  }
  EXPECT_GT(seen[Exposure::tolerated], 50u);
  EXPECT_GT(seen[Exposure::too_far], 50u);
  EXPECT_GT(seen[Exposure::too_thin_for_device], 20u);
  EXPECT_GT(seen[Exposure::open_stretch], 500u);
}

}  // namespace
}  // namespace loomleaf
