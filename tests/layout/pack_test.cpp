#include "loomleaf/layout/pack.h"

#include <gtest/gtest.h>

namespace loomleaf {
namespace {

// Pages of 100 x 100.
PackArea page() { return {{0.0, 0.0, 100.0, 100.0}, std::nullopt, 3.0}; }
PackItem item(double width, double height) { return {width, height, 0, 0, false}; }

std::size_t pages_of(const std::vector<PackedAt>& places) {
  std::size_t last = 0;
  for (const PackedAt& place : places) last = std::max(last, place.page);
  return last + 1;
}

TEST(Pack, FillsWhatAnEarlierPageHasLeft) {
  const auto places = pack({item(100, 70), item(100, 70), item(100, 20)}, page());
  EXPECT_EQ(places[2].page, 0u);
  EXPECT_DOUBLE_EQ(places[2].at.y, 73.0);
}

TEST(Pack, TakesTheTallestFirstWhereThatSavesAPage) {
  const auto places = pack({item(100, 30), item(100, 30), item(100, 60), item(100, 60)}, page());
  EXPECT_EQ(pages_of(places), 2u);
}

TEST(Pack, KeepsTheOrderWhereNoPageIsSaved) {
  const auto places = pack({item(100, 30), item(100, 60)}, page());
  EXPECT_LT(places[0].at.y, places[1].at.y);
}

TEST(Pack, PutsWhatFollowsOnNoEarlierPage) {
  std::vector<PackItem> items{item(100, 70), item(100, 70), item(100, 20)};
  items[2].follows = true;
  EXPECT_EQ(pack(items, page())[2].page, 1u);
}

TEST(Pack, PlacesLowerRanksBefore) {
  std::vector<PackItem> items{item(100, 60), item(100, 60)};
  items[0].rank = 1;
  const auto places = pack(items, page());
  EXPECT_EQ(places[1].page, 0u);
  EXPECT_EQ(places[0].page, 1u);
}

TEST(Pack, KeepsClearOfTheTitleBlock) {
  PackArea area = page();
  area.keep_clear = Box{50.0, 80.0, 50.0, 20.0};
  const auto places = pack({item(100, 60), item(60, 30), item(40, 30)}, area);
  EXPECT_EQ(places[1].page, 1u);
  EXPECT_EQ(places[2].page, 0u);
}

TEST(Pack, LeavesWhatIsTooLargeAloneOnAPage) {
  const auto places = pack({item(10, 10), item(200, 10)}, page());
  EXPECT_EQ(places[1].page, 1u);
  EXPECT_DOUBLE_EQ(places[1].at.x, 0.0);
}

}  // namespace
}  // namespace loomleaf
