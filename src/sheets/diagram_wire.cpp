#include "diagram_wire.h"

namespace loomleaf {
namespace {

// A colour on paper, in the order of IEC 60757's names.
Paint paint_of(Colour colour) {
  static constexpr Paint paints[] = {
      {0.00, 0.00, 0.00},  // black
      {0.45, 0.26, 0.10},  // brown
      {0.80, 0.05, 0.05},  // red
      {0.95, 0.50, 0.05},  // orange
      {0.98, 0.85, 0.10},  // yellow
      {0.05, 0.50, 0.15},  // green
      {0.10, 0.25, 0.75},  // blue
      {0.50, 0.15, 0.60},  // violet
      {0.55, 0.55, 0.55},  // grey
      {1.00, 1.00, 1.00},  // white
      {0.98, 0.65, 0.75},  // pink
      {0.80, 0.65, 0.20},  // gold
      {0.15, 0.70, 0.75},  // turquoise
      {0.78, 0.78, 0.80},  // silver
  };
  return paints[static_cast<std::size_t>(colour)];
}

// Relative luminance (ITU-R BT.709 weights): a line above this is too light to stand alone on white paper.
bool is_light(Paint paint) { return 0.2126 * paint.r + 0.7152 * paint.g + 0.0722 * paint.b > 0.4; }

constexpr double kEdge = 0.2;  // dark edge on either side, mm
constexpr double kTracerDash = 1.8;

}  // namespace

std::vector<PathShape> wire_shapes(const std::vector<Point>& points, const std::optional<WireColour>& colour,
                                   double width_mm, bool dashed) {
  const Paint base = colour ? paint_of(colour->base) : Paint{};
  std::vector<double> dash;
  if (dashed) dash = {3.0, 1.5};
  std::vector<PathShape> shapes;
  double width = width_mm;
  if (is_light(base) || (colour && colour->tracer)) {
    width = std::max(width, 0.6);
    shapes.push_back(polyline(points, {width + 2.0 * kEdge, {}, dash, false}));
  }
  shapes.push_back(polyline(points, {width, base, dash, false}));
  if (colour && colour->tracer) {
    const std::vector<double> tracer =
        dashed ? std::vector<double>{1.2, 3.3} : std::vector<double>{kTracerDash, kTracerDash};
    shapes.push_back(polyline(points, {width, paint_of(*colour->tracer), tracer, false}));
  }
  return shapes;
}

}  // namespace loomleaf
