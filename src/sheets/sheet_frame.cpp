#include "loomleaf/sheets/sheet_frame.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "loomleaf/type/wrap.h"

namespace loomleaf {
namespace {

constexpr double kFrameLine = 0.5, kThinLine = 0.25;
constexpr double kPadding = 2.0;    // from a line to the text beside it
constexpr double kSmallCap = 1.8;   // the least that the sheets use
constexpr double kLineStep = 1.75;  // from baseline to baseline, in heights of a capital

struct Writer {
  Page& page;
  const TextMeasure& type;

  void put(Point at, const std::string& text, TextStyle style, TextRun::Anchor anchor = TextRun::Anchor::start) const {
    page.items.push_back(TextRun{at, text, style, anchor, {}, 0.0, false});
  }
  void rule(Point a, Point b, double width) const { page.items.push_back(line(a, b, {width, {}, {}, false})); }
  void box(const Box& b, double width) const { page.items.push_back(rectangle(b, Stroke{width, {}, {}, false})); }
};

char zone_letter(int row) {  // I and O are left out (ISO 5457), for they read as 1 and 0
  constexpr std::string_view kLetters = "ABCDEFGHJKLMNPQRSTUVWXYZ";
  return kLetters[static_cast<std::size_t>(row) % kLetters.size()];
}

void draw_zones(const Writer& writer, const SheetFormat& format) {
  const Box outer = format.outer_frame(), inner = format.inner_frame();
  const TextStyle style{kSmallCap, false};
  const double centre = (format.frame_band_mm + style.cap_mm) / 2.0;  // baseline from the band's upper edge
  for (int column = 0; column < format.zone_columns; ++column) {
    const double pitch = inner.w / format.zone_columns, x = inner.x + pitch * column;
    const std::string figure = std::to_string(column + 1);
    for (const double top : {outer.y, inner.bottom()}) {
      writer.put({x + pitch / 2.0, top + centre}, figure, style, TextRun::Anchor::middle);
      if (column > 0) writer.rule({x, top}, {x, top + format.frame_band_mm}, kThinLine);
    }
  }
  for (int row = 0; row < format.zone_rows; ++row) {
    const double pitch = inner.h / format.zone_rows, y = inner.y + pitch * row;
    const std::string letter(1, zone_letter(row));
    for (const double left : {outer.x, inner.right()}) {
      writer.put({left + format.frame_band_mm / 2.0, y + (pitch + style.cap_mm) / 2.0}, letter, style,
                 TextRun::Anchor::middle);
      if (row > 0) writer.rule({left, y}, {left + format.frame_band_mm, y}, kThinLine);
    }
  }
}

void draw_head(const Writer& writer, const SheetFormat& format, const TitleFields& fields) {
  const Box head = format.head();
  const TextStyle name_style{3.5, true}, note_style{kSmallCap, false};
  const double baseline = head.y + (head.h + name_style.cap_mm) / 2.0;
  double right = head.right() - kPadding;
  if (!fields.cleared)
    right = draw_not_cleared(writer.page, head.right() - 1.0, head.y + 1.0, head.h - 2.0, writer.type).x - kPadding;
  const double left = head.x + kPadding;
  const std::string name = writer.type.fitted(fields.sheet_name, name_style, right - left);
  writer.put({left, baseline}, name, name_style);
  const double note_left = left + writer.type.width(name, name_style) + 6.0;
  if (!fields.sheet_note.empty() && note_left < right)
    writer.put({note_left, baseline}, writer.type.fitted(fields.sheet_note, note_style, right - note_left), note_style);
}

// A cell's lines of small text from its upper left, as many as it holds; each text has one at least.
void write_lines(const Writer& writer, const Box& cell, const std::vector<std::string>& texts) {
  const TextStyle style{kSmallCap, false};
  const double step = style.cap_mm * kLineStep;
  const int room = static_cast<int>((cell.h - 2.0 * kPadding + step - style.cap_mm) / step + 1e-6);
  int used = 0, still_to_come = static_cast<int>(texts.size());
  for (const std::string& text : texts) {
    const int lines = room - used - --still_to_come;
    for (const std::string& part : wrapped(writer.type, text, style, cell.w - 2.0 * kPadding, std::max(lines, 0)))
      writer.put({cell.x + kPadding, cell.y + kPadding + style.cap_mm + step * used++}, part, style);
  }
}

// "Revision" small, and what it is behind it, larger.
void write_field(const Writer& writer, const Box& cell, double baseline, const std::string& label,
                 const std::string& value) {
  const double value_left = cell.x + 16.0, room = cell.right() - kPadding - value_left;
  const TextStyle large{2.5, true}, small{kSmallCap, true};
  const TextStyle style = writer.type.width(value, large) <= room ? large : small;
  writer.put({cell.x + kPadding, baseline}, label, {kSmallCap, false});
  writer.put({value_left, baseline}, writer.type.fitted(value, style, room), style);
}

std::vector<std::string> status_lines(const TitleFields& fields) {
  std::vector<std::string> lines;
  if (!fields.rules.empty()) lines.push_back("rules: " + fields.rules);
  if (!fields.check_status.empty()) lines.push_back(fields.check_status);
  if (fields.checks_not_done == 1) lines.push_back("1 check not done");
  if (fields.checks_not_done > 1) lines.push_back(fmt::format("{} checks not done", fields.checks_not_done));
  return lines;
}

void draw_title_block(const Writer& writer, const SheetFormat& format, const TitleFields& fields, int sheet,
                      int sheets) {
  const Box block = format.title_block();
  const double right_width = std::min(40.0, block.w / 2.0);
  const double title_bottom = block.y + 8.5;
  const double middle = title_bottom + 2.0 * kPadding + kSmallCap * (1.0 + 2.0 * kLineStep);  // three lines of status
  const double split = block.right() - right_width;
  writer.page.items.push_back(rectangle(block, Stroke{kFrameLine, {}, {}, false}, Paint{1.0, 1.0, 1.0}));
  writer.rule({block.x, title_bottom}, {block.right(), title_bottom}, kThinLine);
  writer.rule({block.x, middle}, {split, middle}, kThinLine);
  writer.rule({split, title_bottom}, {split, block.bottom()}, kThinLine);

  const TextStyle title_style{3.5, true};
  writer.put({block.x + kPadding, title_bottom - 2.5},
             writer.type.fitted(fields.title, title_style, block.w - 2.0 * kPadding), title_style);
  write_lines(writer, {block.x, title_bottom, split - block.x, middle - title_bottom}, status_lines(fields));
  write_lines(writer, {block.x, middle, split - block.x, block.bottom() - middle}, fields.cautions);

  const Box right{split, title_bottom, right_width, block.bottom() - title_bottom};
  const std::pair<const char*, std::string> rows[] = {{"revision", fields.revision},
                                                      {"date", fields.date},
                                                      {"by", fields.by},
                                                      {"sheet", fmt::format("{} of {}", sheet, sheets)}};
  const double step = right.h / static_cast<double>(std::size(rows));
  double baseline = right.y + (step + 2.5) / 2.0;
  for (const auto& [label, value] : rows) {
    write_field(writer, right, baseline, label, value.empty() ? "-" : value);
    baseline += step;
  }
}

}  // namespace

Box SheetFormat::outer_frame() const {
  return {margin_mm, margin_mm, width_mm - 2.0 * margin_mm, height_mm - 2.0 * margin_mm};
}

Box SheetFormat::inner_frame() const {
  const double edge = margin_mm + frame_band_mm;
  return {edge, edge, width_mm - 2.0 * edge, height_mm - 2.0 * edge};
}

Box SheetFormat::head() const {
  const Box frame = inner_frame();
  return {frame.x, frame.y, frame.w, head_mm};
}

Box SheetFormat::inner() const {
  const Box frame = inner_frame();
  return {frame.x, frame.y + head_mm, frame.w, frame.h - head_mm};
}

Box SheetFormat::title_block() const {
  const Box frame = inner_frame();
  return {frame.right() - title_width_mm, frame.bottom() - title_height_mm, title_width_mm, title_height_mm};
}

std::string SheetFormat::zone(Point at) const {
  const Box frame = inner_frame();
  const auto step = [](double along, double whole, int count) {
    return std::clamp(static_cast<int>(std::floor(along / whole * count)), 0, count - 1);
  };
  return zone_letter(step(at.y - frame.y, frame.h, zone_rows)) +
         std::to_string(step(at.x - frame.x, frame.w, zone_columns) + 1);
}

Page blank_page(const SheetFormat& format, std::string name) {
  return {format.width_mm, format.height_mm, std::move(name), {}};
}

Box draw_not_cleared(Page& page, double right, double top, double height_mm, const TextMeasure& type) {
  const TextStyle style{0.55 * height_mm, true};
  const double width = type.width(kNotCleared, style) + 2.0 * style.cap_mm;
  const Box bar{right - width, top, width, height_mm};
  page.items.push_back(rectangle(bar, std::nullopt, Paint{}));
  page.items.push_back(TextRun{{bar.x + bar.w / 2.0, top + (height_mm + style.cap_mm) / 2.0},
                               kNotCleared,
                               style,
                               TextRun::Anchor::middle,
                               Paint{1.0, 1.0, 1.0},
                               0.0,
                               false});
  return bar;
}

void draw_frame(Page& page, const SheetFormat& format, const TitleFields& fields, int sheet, int sheets,
                const TextMeasure& type) {
  const Writer writer{page, type};
  writer.box(format.outer_frame(), kThinLine);
  writer.box(format.inner_frame(), kFrameLine);
  draw_zones(writer, format);
  draw_head(writer, format, fields);
  draw_title_block(writer, format, fields, sheet, sheets);
}

}  // namespace loomleaf
