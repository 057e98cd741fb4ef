#include "loomleaf/sheets/fuse_sheets.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

namespace loomleaf {
namespace {

constexpr TextStyle kHeading{2.0, false}, kPlain{2.5, false}, kLarge{3.5, true};
constexpr double kRowMm = 9.0, kHeadingMm = 7.0;
constexpr double kEdge = 3.0, kGap = 3.0;  // beside the table, and between two columns

struct Column {
  const char* heading;
  std::string FuseRow::*text;
  TextStyle style;
};

// In the order that one reads them before a blown fuse. The second takes what room the others leave.
constexpr std::size_t kFeeds = 1;
constexpr double kFeedsShare = 0.25;  // at least
const std::array<Column, 7>& columns() {
  static const std::array<Column, 7> all = {{{"", &FuseRow::id, kLarge},
                                             {"feeds", &FuseRow::feeds, kPlain},
                                             {"rating", &FuseRow::rating, kLarge},
                                             {"kind", &FuseRow::family, kPlain},
                                             {"colour", &FuseRow::colour, kPlain},
                                             {"wire", &FuseRow::wire, kPlain},
                                             {"in use", &FuseRow::current, kPlain}}};
  return all;
}

// Where each column begins, and the room it has: as wide as its widest text, together no more than their share.
std::array<Box, 7> column_boxes(const std::vector<FuseRow>& rows, const Box& area, const TextMeasure& type) {
  std::array<double, 7> widths{};
  const double room = area.w - kGap * static_cast<double>(columns().size() - 1);
  double wanted = 0.0;
  for (std::size_t i = 0; i < columns().size(); ++i) {
    if (i == kFeeds) continue;
    const Column& column = columns()[i];
    widths[i] = type.width(column.heading, kHeading);
    for (const FuseRow& row : rows) widths[i] = std::max(widths[i], type.width(row.*column.text, column.style));
    wanted += widths[i];
  }
  const double given = std::min(wanted, room * (1.0 - kFeedsShare));
  for (double& width : widths) width *= given / wanted;
  widths[kFeeds] = room - given;
  std::array<Box, 7> boxes;
  double x = area.x;
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    boxes[i] = {x, area.y, widths[i], area.h};
    x += widths[i] + kGap;
  }
  return boxes;
}

void put(Page& page, double x, double baseline, std::string text, TextStyle style) {
  if (!text.empty())
    page.items.push_back(TextRun{{x, baseline}, std::move(text), style, TextRun::Anchor::start, {}, 0.0, false});
}

}  // namespace

std::vector<Page> draw_fuse_sheets(const std::vector<FuseRow>& rows, const SheetFormat& format,
                                   const TitleFields& fields, const TextMeasure& type) {
  const Box inner = format.inner();
  const Box area{inner.x + kEdge, inner.y, inner.w - 2.0 * kEdge, format.title_block().y - 2.0 - inner.y};
  const auto per_sheet = static_cast<std::size_t>(std::max(1.0, (area.h - kHeadingMm) / kRowMm));
  const std::size_t count = std::max<std::size_t>(1, (rows.size() + per_sheet - 1) / per_sheet);
  const std::array<Box, 7> boxes = column_boxes(rows, area, type);
  const auto rule = [&](double y, double width) {
    return line({area.x, y}, {area.right(), y}, Stroke{width, {}, {}, false});
  };

  std::vector<Page> pages;
  for (std::size_t sheet = 0; sheet < count; ++sheet) {
    Page page = blank_page(format, fmt::format("fuses-{}", sheet + 1));
    double y = area.y + kHeadingMm;
    for (std::size_t i = 0; i < boxes.size(); ++i) put(page, boxes[i].x, y - 2.0, columns()[i].heading, kHeading);
    page.items.push_back(rule(y, 0.5));
    for (std::size_t r = sheet * per_sheet; r < std::min(rows.size(), (sheet + 1) * per_sheet); ++r) {
      const double baseline = y + (kRowMm + kLarge.cap_mm) / 2.0;  // one for all heights, so that a row reads as one
      page.items.push_back(GroupBegin{rows[r].id, rows[r].feeds});
      for (std::size_t i = 0; i < boxes.size(); ++i)
        put(page, boxes[i].x, baseline, type.fitted(rows[r].*columns()[i].text, columns()[i].style, boxes[i].w),
            columns()[i].style);
      page.items.push_back(GroupEnd{});
      y += kRowMm;
      page.items.push_back(rule(y, 0.25));
    }
    if (rows.empty()) put(page, area.x, y + kRowMm, "There is no fuse or breaker in this plan.", kPlain);
    draw_frame(page, format, fields, static_cast<int>(sheet) + 1, static_cast<int>(count), type);
    pages.push_back(std::move(page));
  }
  return pages;
}

}  // namespace loomleaf
