#include "paint_page.h"

#include <pango/pangocairo.h>

#include <numbers>
#include <stdexcept>

#include "loomleaf/type/drawable_text.h"

namespace loomleaf {
namespace {

constexpr double kMmPerPt = 25.4 / 72.0;

class Painter {
 public:
  Painter(cairo_t* cairo, const TextMeasure& type) : cairo_(cairo), type_(type) {}

  void operator()(const PathShape& shape) const {
    cairo_new_path(cairo_);
    for (const PathShape::Segment& s : shape.segments) {
      using Kind = PathShape::Segment::Kind;
      switch (s.kind) {
        case Kind::move:
          cairo_move_to(cairo_, s.to.x, s.to.y);
          break;
        case Kind::line:
          cairo_line_to(cairo_, s.to.x, s.to.y);
          break;
        case Kind::curve:
          cairo_curve_to(cairo_, s.p1.x, s.p1.y, s.p2.x, s.p2.y, s.to.x, s.to.y);
          break;
        case Kind::close:
          cairo_close_path(cairo_);
          break;
      }
    }
    fill_and_stroke(shape.fill, shape.stroke);
  }

  void operator()(const CircleShape& circle) const {
    cairo_new_path(cairo_);
    cairo_arc(cairo_, circle.centre.x, circle.centre.y, circle.radius_mm, 0.0, 2.0 * std::numbers::pi);
    cairo_close_path(cairo_);
    fill_and_stroke(circle.fill, circle.stroke);
  }

  void operator()(const TextRun& run) const {
    const std::string text = drawable(run.text);
    if (text.empty() || run.style.cap_mm <= 0.0) return;
    const double width = type_.width(text, run.style);
    const LayoutHandle layout = type_.fonts().layout(text, run.style.bold, type_.font_size_pt(run.style));
    cairo_save(cairo_);
    set_paint(run.paint);
    cairo_translate(cairo_, run.at.x, run.at.y);
    cairo_rotate(cairo_, run.turn_degrees * std::numbers::pi / 180.0);
    cairo_translate(cairo_, -anchor_shift(run, width), 0.0);
    if (run.underlined) {
      cairo_rectangle(cairo_, 0.0, underline_drop(run.style), width, underline_thickness(run.style));
      cairo_fill(cairo_);
    }
    cairo_scale(cairo_, kMmPerPt, kMmPerPt);
    cairo_move_to(cairo_, 0.0, -static_cast<double>(pango_layout_get_baseline(layout.get())) / PANGO_SCALE);
    pango_cairo_show_layout(cairo_, layout.get());
    cairo_restore(cairo_);
  }

  void operator()(const GroupBegin&) const {}
  void operator()(const GroupEnd&) const {}
  void operator()(const LinkArea&) const {}
  void operator()(const Destination&) const {}

 private:
  void set_paint(const Paint& paint) const { cairo_set_source_rgb(cairo_, paint.r, paint.g, paint.b); }

  void fill_and_stroke(const std::optional<Paint>& fill, const std::optional<Stroke>& stroke) const {
    if (fill) {
      set_paint(*fill);
      cairo_fill_preserve(cairo_);
    }
    if (stroke) {
      set_paint(stroke->paint);
      cairo_set_line_width(cairo_, stroke->width_mm);
      cairo_set_dash(cairo_, stroke->dash_mm.data(), static_cast<int>(stroke->dash_mm.size()), 0.0);
      cairo_set_line_cap(cairo_, stroke->round ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
      cairo_set_line_join(cairo_, stroke->round ? CAIRO_LINE_JOIN_ROUND : CAIRO_LINE_JOIN_MITER);
      cairo_stroke_preserve(cairo_);
    }
    cairo_new_path(cairo_);
  }

  cairo_t* cairo_;
  const TextMeasure& type_;
};

}  // namespace

double anchor_shift(const TextRun& run, double width_mm) {
  switch (run.anchor) {
    case TextRun::Anchor::start:
      return 0.0;
    case TextRun::Anchor::middle:
      return width_mm / 2.0;
    case TextRun::Anchor::end:
      return width_mm;
  }
  return 0.0;
}

void paint_page(cairo_t* cairo, const Page& page, const TextMeasure& type) {
  const Painter painter(cairo, type);
  for (const DrawingItem& item : page.items) std::visit(painter, item);
}

void expect_sound(cairo_status_t status) {
  if (status != CAIRO_STATUS_SUCCESS)
    throw std::runtime_error(std::string("drawing failed: ") + cairo_status_to_string(status));
}

cairo_status_t append_bytes(void* bytes, const unsigned char* data, unsigned int length) {
  static_cast<std::string*>(bytes)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

}  // namespace loomleaf
