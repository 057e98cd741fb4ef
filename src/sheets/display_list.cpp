#include "loomleaf/sheets/display_list.h"

namespace loomleaf {

PathShape polyline(const std::vector<Point>& points, Stroke stroke) {
  PathShape shape;
  for (const Point& point : points) {
    using Kind = PathShape::Segment::Kind;
    shape.segments.push_back({shape.segments.empty() ? Kind::move : Kind::line, {}, {}, point});
  }
  shape.stroke = std::move(stroke);
  return shape;
}

PathShape line(Point a, Point b, Stroke stroke) { return polyline({a, b}, std::move(stroke)); }

PathShape rectangle(const Box& box, std::optional<Stroke> stroke, std::optional<Paint> fill) {
  PathShape shape =
      polyline({{box.x, box.y}, {box.right(), box.y}, {box.right(), box.bottom()}, {box.x, box.bottom()}}, {});
  shape.segments.push_back({PathShape::Segment::Kind::close, {}, {}, {box.x, box.y}});
  shape.stroke = std::move(stroke);
  shape.fill = fill;
  return shape;
}

}  // namespace loomleaf
