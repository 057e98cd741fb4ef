// Points and boxes on paper. Every coordinate is in millimetres, x to the right, y down, from the sheet's upper left.
#pragma once

namespace loomleaf {

struct Point {
  double x = 0.0;
  double y = 0.0;
  bool operator==(const Point&) const = default;
};

struct Box {
  double x = 0.0;
  double y = 0.0;
  double w = 0.0;
  double h = 0.0;
  double right() const { return x + w; }
  double bottom() const { return y + h; }
  bool overlaps(const Box& o) const { return x < o.right() && o.x < right() && y < o.bottom() && o.y < bottom(); }
};

}  // namespace loomleaf
