#include <fmt/format.h>

#include "loomleaf/sheets/printer.h"

namespace loomleaf {
namespace {

constexpr Stroke kFine{0.15, {}, {}, false};
constexpr double kLineLeft = kCrossMm, kLineTop = kCrossMm;

void say(Page& page, Point at, std::string text, double cap = 2.5, bool bold = false) {
  page.items.push_back(TextRun{at, std::move(text), {cap, bold}, TextRun::Anchor::start, {}, 0.0, false});
}

// A line with a tick each centimetre, its length between the outermost ticks.
void draw_measured_line(Page& page, Point from, double length, bool down) {
  const auto at = [&](double along, double beside) {
    return down ? Point{from.x + beside, from.y + along} : Point{from.x + along, from.y + beside};
  };
  page.items.push_back(line(at(0.0, 0.0), at(length, 0.0), kFine));
  for (double along = 0.0; along <= length + 1e-9; along += 10.0) {
    const bool is_end = along < 1e-9 || along > length - 1e-9;
    page.items.push_back(line(at(along, is_end ? -4.0 : -1.5), at(along, is_end ? 4.0 : 1.5), kFine));
  }
}

}  // namespace

Page draw_calibration_sheet(const SheetFormat& format) {
  Page page{format.width_mm, format.height_mm, "calibration", {}};
  // The cross is where both lines begin.
  draw_measured_line(page, {kLineLeft, kLineTop}, kAcrossMm, false);
  draw_measured_line(page, {kLineLeft, kLineTop}, kDownMm, true);
  page.items.push_back(line({kLineLeft - 15.0, kLineTop}, {kLineLeft, kLineTop}, kFine));
  page.items.push_back(line({kLineLeft, kLineTop - 15.0}, {kLineLeft, kLineTop}, kFine));

  const double x = kLineLeft + 12.0;
  double y = kLineTop + 18.0;
  const auto next = [&](std::string text, bool bold = false, double cap = 2.5) {
    say(page, {x, y}, std::move(text), cap, bold);
    y += 2.6 * cap;
  };
  next("Printer calibration", true, 4.0);
  next("Print this sheet at 100 % (\"actual size\"), on the printer and from the tray that the labels will use.");
  next("Measure with a steel ruler, to a fifth of a millimetre, and write what it says:");
  y += 3.0;
  next(fmt::format("across ______ mm    the line across, between its outer ticks; meant: {}", kAcrossMm), true);
  next(fmt::format("down   ______ mm    the line down, between its outer ticks; meant: {}", kDownMm), true);
  next(fmt::format("left   ______ mm    from the paper's left edge to the line down; meant: {}", kCrossMm), true);
  next(fmt::format("top    ______ mm    from the paper's top edge to the line across; meant: {}", kCrossMm), true);
  y += 3.0;
  next("Put these four lines, as they stand but with your figures, into a text file printer.txt beside");
  next("the plan. Labels are then drawn so that this printer puts them where they belong.");
  next("Print once more onto plain paper, and hold it against the label sheet before a window.");
  return page;
}

}  // namespace loomleaf
