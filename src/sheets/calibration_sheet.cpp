#include <fmt/format.h>

#include "loomleaf/sheets/printer.h"

namespace loomleaf {
namespace {

constexpr Stroke kFine{0.15, {}, {}, false};
constexpr double kLineLeft = kCrossMm, kLineTop = kCrossMm;
constexpr double kRow = 6.0;

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

  say(page, {kLineLeft + kAcrossMm - 15.0, kLineTop - 3.0}, "across");
  say(page, {kLineLeft + 3.0, kLineTop + kDownMm - 3.0}, "down");
  say(page, {kLineLeft - 15.0, kLineTop - 2.0}, "left");
  say(page, {kLineLeft + 2.0, kLineTop - 11.0}, "top");

  const double x = kLineLeft + 12.0;
  double y = kLineTop + 18.0;
  say(page, {x, y}, "Printer calibration", 4.0, true);
  y += 10.0;
  say(page, {x, y}, "Print this sheet at 100 % (\"actual size\"), from the tray that the labels will use.");
  y += kRow;
  say(page, {x, y}, "Measure it with a steel ruler, to a fifth of a millimetre:");
  y += 3.0 + kRow;
  const auto ask = [&](const char* name, double meant, const char* what) {
    say(page, {x, y}, name, 2.5, true);
    page.items.push_back(line({x + 16.0, y + 0.5}, {x + 34.0, y + 0.5}, kFine));
    say(page, {x + 36.0, y}, "mm", 2.5, true);
    say(page, {x + 48.0, y}, fmt::format("{}: meant to be {}", what, meant));
    y += kRow + 1.5;
  };
  ask("across", kAcrossMm, "from the cross to the far tick of the line across");
  ask("down", kDownMm, "from the cross to the far tick of the line down");
  ask("left", kCrossMm, "from the left edge of the paper to the cross");
  ask("top", kCrossMm, "from the top edge of the paper to the cross");
  y += 2.0;
  for (const char* text :
       {"Write these four lines (across 149.6 mm, ...) into a text file printer.txt beside the plan.",
        "Labels are then drawn so that this printer puts them where they belong.",
        "Print them on plain paper first, and hold that against the label sheet before a window."}) {
    say(page, {x, y}, text);
    y += kRow;
  }
  return page;
}

}  // namespace loomleaf
