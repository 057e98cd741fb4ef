// What is to be drawn, page by page, in millimetres: made by the sheets, drawn by `render`, read by tests.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "loomleaf/layout/geometry.h"
#include "loomleaf/type/text_measure.h"

namespace loomleaf {

struct Paint {
  double r = 0.0, g = 0.0, b = 0.0;      // 0..1; black by default
  bool operator==(const Paint&) const = default;
};

struct Stroke {
  double width_mm = 0.25;
  Paint paint;
  std::vector<double> dash_mm;           // on, off, ...; empty: solid
  bool round = false;                    // round caps and joins
};

// A run of lines and curves: the only shape there is besides circles and text.
struct PathShape {
  struct Segment {
    enum class Kind { move, line, curve, close } kind = Kind::move;
    Point p1{}, p2{}, to{};              // a curve's control points, and where the segment ends
  };
  std::vector<Segment> segments;
  std::optional<Stroke> stroke;
  std::optional<Paint> fill;
};

struct CircleShape {
  Point centre;
  double radius_mm = 1.0;
  std::optional<Stroke> stroke;
  std::optional<Paint> fill;
};

// One line of text on its baseline.
struct TextRun {
  enum class Anchor { start, middle, end };
  Point at;                              // on the baseline
  std::string text;                      // UTF-8, no control characters
  TextStyle style;
  Anchor anchor = Anchor::start;
  Paint paint;
  double turn_degrees = 0.0;             // clockwise about `at`
  bool underlined = false;               // a rule under it, so that 6 and 9 tell which way is up
};

// Begin and end of a named thing (an item, a wire): an element with ID and title in SVG, nothing in PDF.
struct GroupBegin { std::string id, title; };
struct GroupEnd {};

struct LinkArea { Box box; std::string destination; };        // to a Destination's name, on any page
struct Destination { Point at; std::string name; };           // letters, digits, '-', '_', '.' only

using DrawingItem = std::variant<PathShape, CircleShape, TextRun, GroupBegin, GroupEnd, LinkArea, Destination>;

struct Page {
  double width_mm = 210.0;
  double height_mm = 297.0;
  std::string name;                      // for files of one page each: "diagram-1"
  std::vector<DrawingItem> items;
};

struct OutlineEntry { std::string title, destination; int level = 0; };

struct Drawing {
  std::string title, author, subject;
  std::string date;                      // YYYY-MM-DD; empty: 1970-01-01, so that the same plan gives the same bytes
  std::vector<Page> pages;
  std::vector<OutlineEntry> outline;
};

// Shorthands.
PathShape line(Point a, Point b, Stroke stroke);
PathShape polyline(const std::vector<Point>& points, Stroke stroke);
PathShape rectangle(const Box& box, std::optional<Stroke> stroke, std::optional<Paint> fill = std::nullopt);

}  // namespace loomleaf
