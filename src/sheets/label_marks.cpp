#include "label_marks.h"

#include <fmt/format.h>

#include <algorithm>

namespace loomleaf {
namespace {

constexpr double kRulerMm = 50.0;
constexpr Stroke kTick{0.25, {}, {}, false};
constexpr TextStyle kSmall{2.0, false};
constexpr double kAdviceStep = 3.4;
constexpr double kPageMargin = 10.0;

TextRun small_text(Point at, std::string text) {
  return {at, std::move(text), kSmall, TextRun::Anchor::start, {}, 0.0, false};
}

}  // namespace

Box LabelSide::box_of(int cell, const Box& part) const {
  const Point corner = size.corner(cell);
  const double y = corner.y + part.y;
  return {corner.x + part.x, is_back ? size.page_height_mm - y - part.h : y, part.w, part.h};
}

void draw_label_title(Page& page, const LabelSide& side, const TitleFields& fields, const LabelSheetNote& note,
                      const TextMeasure& type) {
  const double left = side.size.first_x_mm, top = side.top() - 11.0;
  double right = side.size.right_edge();
  if (!fields.cleared) right = draw_not_cleared(page, right, top, 6.5, type).x - 3.0;
  const double width = right - left;
  const TextStyle title_style{2.5, true};
  std::string revision = fields.revision.empty() ? "" : "revision " + fields.revision;
  if (!fields.date.empty()) revision += (revision.empty() ? "" : "   ") + fields.date;
  const std::string title =
      type.fitted(fields.title, title_style, std::max(0.0, width - type.width(revision, kSmall) - 4.0));
  page.items.push_back(TextRun{{left, top + 2.5}, title, title_style, TextRun::Anchor::start, {}, 0.0, false});
  const double after_title = left + type.width(title, title_style) + (title.empty() ? 0.0 : 4.0);
  page.items.push_back(small_text({after_title, top + 2.5}, type.fitted(revision, kSmall, right - after_title)));
  const std::string second =
      fmt::format("{}, {}sheet {} of {}, {}{}", fields.sheet_name, side.is_back ? "BACK of " : "", note.sheet,
                  note.sheets, note.stock, note.places.empty() ? "" : ", " + note.places);
  page.items.push_back(small_text({left, top + 6.5}, type.fitted(second, kSmall, width)));
}

void draw_check_ruler(Page& page, const LabelSide& side, const std::vector<std::string>& advice,
                      const TextMeasure& type) {
  const double x = side.size.first_x_mm, y = side.bottom() + 7.0;
  page.items.push_back(line({x, y}, {x + kRulerMm, y}, kTick));
  for (int tick = 0; tick <= 5; ++tick) {
    const double at = x + kRulerMm * tick / 5.0;
    page.items.push_back(line({at, y - (tick % 5 == 0 ? 3.0 : 1.5)}, {at, y}, kTick));
  }
  const double left = x + kRulerMm + 3.0, width = side.size.page_width_mm - kPageMargin - left;
  double baseline = y - 2.0;
  const auto say = [&](const std::string& text) {
    page.items.push_back(small_text({left, baseline}, type.fitted(text, kSmall, width)));
    baseline += kAdviceStep;
  };
  say("50 mm: check with a ruler, and print at 100 %, not fitted to the page");
  for (const std::string& text : advice) say(text);
}

void draw_row_ticks(Page& page, const LabelSide& side, int rows) {
  const LabelSize& size = side.size;
  for (int row = 0; row < rows; ++row) {
    const Box label = side.box_of(row * size.columns, {0.0, 0.0, size.label_width_mm, size.label_height_mm});
    for (const double y : {label.y, label.bottom()}) {
      page.items.push_back(line({size.first_x_mm - 5.0, y}, {size.first_x_mm - 2.0, y}, kTick));
      page.items.push_back(line({size.right_edge() + 2.0, y}, {size.right_edge() + 5.0, y}, kTick));
    }
  }
}

void draw_cut_line(Page& page, const Box& label) { page.items.push_back(rectangle(label, Stroke{0.1, {}, {}, false})); }

}  // namespace loomleaf
