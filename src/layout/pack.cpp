#include "loomleaf/layout/pack.h"

#include <algorithm>

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

}  // namespace

std::vector<PackedAt> pack(const std::vector<PackItem>& items, const PackArea& area) {
  std::vector<PackedAt> places;
  std::vector<PackPage> pages{PackPage(area)};
  for (const PackItem& item : items) {
    if (item.starts_page && !pages.back().is_empty()) pages.emplace_back(area);
    std::optional<Point> at;
    std::size_t number = item.anywhere ? 0 : pages.size() - 1;
    while (number < pages.size() && !(at = pages[number].find(item))) ++number;
    if (!at) {
      if (!pages.back().is_empty()) pages.emplace_back(area);
      number = pages.size() - 1;
      at = pages.back().find(item);
    }
    places.push_back({number, at.value_or(Point{area.area.x, area.area.y})});
    pages[number].take(places.back().at, item);
  }
  return places;
}

}  // namespace loomleaf
