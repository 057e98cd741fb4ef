#include "loomleaf/layout/pack.h"

#include <algorithm>
#include <numeric>

namespace loomleaf {
namespace {

constexpr double slack = 1e-6;

class PackPage {
 public:
  explicit PackPage(const PackArea& area) : area_(area) {}

  bool is_empty() const { return taken_.empty(); }

  std::optional<Point> find(const PackItem& item) const {
    std::vector<double> tops{area_.area.y}, lefts{area_.area.x};
    for (const Box& box : taken_) {
      tops.push_back(box.bottom() + area_.gap);
      lefts.push_back(box.right() + area_.gap);
    }
    std::sort(tops.begin(), tops.end());
    std::sort(lefts.begin(), lefts.end());
    for (double y : tops)
      for (double x : lefts)
        if (fits({x, y, item.width, item.height})) return Point{x, y};
    return std::nullopt;
  }

  void take(Point at, const PackItem& item) { taken_.push_back({at.x, at.y, item.width, item.height}); }

 private:
  bool fits(const Box& box) const {
    if (box.right() > area_.area.right() + slack || box.bottom() > area_.area.bottom() + slack) return false;
    const Box wide{box.x - area_.gap + slack, box.y - area_.gap + slack, box.w + 2.0 * (area_.gap - slack),
                   box.h + 2.0 * (area_.gap - slack)};
    if (area_.keep_clear && wide.overlaps(*area_.keep_clear)) return false;
    return std::none_of(taken_.begin(), taken_.end(), [&](const Box& other) { return wide.overlaps(other); });
  }

  PackArea area_;
  std::vector<Box> taken_;
};

std::vector<PackedAt> pack_in_order(const std::vector<PackItem>& items, const std::vector<std::size_t>& order,
                                    const PackArea& area) {
  std::vector<PackedAt> places(items.size());
  std::vector<PackPage> pages;
  for (const std::size_t index : order) {
    const PackItem& item = items[index];
    std::size_t page = item.first_page;
    if (item.follows && index > 0) page = std::max(page, places[index - 1].page);
    std::optional<Point> at;
    for (;; ++page) {
      while (pages.size() <= page) pages.emplace_back(area);
      at = pages[page].find(item);
      if (at || pages[page].is_empty()) break;
    }
    places[index] = {page, at.value_or(Point{area.area.x, area.area.y})};
    pages[page].take(places[index].at, item);
  }
  return places;
}

std::size_t last_page(const std::vector<PackedAt>& places) {
  std::size_t last = 0;
  for (const PackedAt& place : places) last = std::max(last, place.page);
  return last;
}

}  // namespace

std::vector<PackedAt> pack(const std::vector<PackItem>& items, const PackArea& area) {
  std::vector<std::size_t> order(items.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  const auto sort_by = [&](auto is_before) { std::stable_sort(order.begin(), order.end(), is_before); };
  sort_by([&](std::size_t a, std::size_t b) { return items[a].rank < items[b].rank; });
  std::vector<PackedAt> in_order = pack_in_order(items, order, area);
  std::vector<double> weight;
  for (const PackItem& item : items)
    weight.push_back(item.follows && !weight.empty() ? std::min(weight.back(), item.height) : item.height);
  sort_by([&](std::size_t a, std::size_t b) {
    return items[a].rank != items[b].rank ? items[a].rank < items[b].rank : weight[a] > weight[b];
  });
  std::vector<PackedAt> tallest_first = pack_in_order(items, order, area);
  return last_page(tallest_first) < last_page(in_order) ? tallest_first : in_order;
}

}  // namespace loomleaf
