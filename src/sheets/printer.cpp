#include "loomleaf/sheets/printer.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "../stock/template_file.h"

namespace loomleaf {
namespace {

constexpr double kMostScaleOff = 0.05;
constexpr double kMostShiftMm = 10.0;

struct MeasureRow {
  const char* name;
  double PrinterMeasures::*value;
  double meant_mm, most_off_mm;
};
constexpr MeasureRow kMeasures[] = {
    {"across", &PrinterMeasures::across_mm, kAcrossMm, kAcrossMm* kMostScaleOff},
    {"down", &PrinterMeasures::down_mm, kDownMm, kDownMm* kMostScaleOff},
    {"left", &PrinterMeasures::left_mm, kCrossMm, kMostShiftMm},
    {"top", &PrinterMeasures::top_mm, kCrossMm, kMostShiftMm},
};

std::vector<std::string> words_of(std::string_view line) {
  std::vector<std::string> words;
  std::string word;
  for (const char c : line.substr(0, line.find('#'))) {
    if (c != ' ' && c != '\t' && c != '\r') {
      word += c;
    } else if (!word.empty()) {
      words.push_back(std::move(word));
      word.clear();
    }
  }
  if (!word.empty()) words.push_back(std::move(word));
  return words;
}

// Empty: the line is good.
std::string read_line(const std::vector<std::string>& words, PrinterMeasures& measures,
                      std::vector<std::string>& seen) {
  const auto row = std::find_if(std::begin(kMeasures), std::end(kMeasures),
                                [&](const MeasureRow& known) { return known.name == words.front(); });
  if (row == std::end(kMeasures)) return "a line begins with across, down, left or top";
  if (std::find(seen.begin(), seen.end(), words.front()) != seen.end())
    return fmt::format("`{}` stands in an earlier line as well: leave one out", row->name);
  seen.push_back(words.front());
  const auto value = words.size() == 3 && words[2] == "mm" ? read_number(words[1]) : std::nullopt;
  if (!value)
    return fmt::format("write `{} {} mm`: the measure as a number with a point for decimals", row->name, row->meant_mm);
  if (std::fabs(*value - row->meant_mm) > row->most_off_mm)
    return fmt::format(
        "`{}` should be between {} and {} mm: print the calibration sheet at 100 %, not fitted to the page", row->name,
        row->meant_mm - row->most_off_mm, row->meant_mm + row->most_off_mm);
  measures.*(row->value) = *value;
  return "";
}

}  // namespace

Loaded<PrinterMeasures> read_printer_measures(std::string_view file, std::string_view text) {
  Loaded<PrinterMeasures> loaded;
  std::vector<std::string> seen;
  int number = 0;
  constexpr std::size_t kMostErrors = 20;
  if (text.substr(0, 3) == "\xEF\xBB\xBF") text.remove_prefix(3);
  while (!text.empty() && loaded.errors.size() < kMostErrors) {
    const std::string_view line = text.substr(0, text.find('\n'));
    text.remove_prefix(std::min(line.size() + 1, text.size()));
    ++number;
    const std::vector<std::string> words = words_of(line);
    if (words.empty()) continue;
    if (std::string trouble = read_line(words, loaded.value, seen); !trouble.empty())
      loaded.errors.push_back({std::string(file), number, std::move(trouble)});
  }
  return loaded;
}

void correct_for_printer(Page& page, const PrinterMeasures& measures) {
  const double scale_x = measures.across_mm / kAcrossMm, scale_y = measures.down_mm / kDownMm;
  // What is meant for x comes out at shift + scale x.
  const double shift_x = measures.left_mm - scale_x * kCrossMm, shift_y = measures.top_mm - scale_y * kCrossMm;
  const auto move = [&](Point& p) { p = {(p.x - shift_x) / scale_x, (p.y - shift_y) / scale_y}; };
  for (DrawingItem& item : page.items) {
    if (auto* shape = std::get_if<PathShape>(&item)) {
      for (PathShape::Segment& segment : shape->segments)
        for (Point* point : {&segment.p1, &segment.p2, &segment.to}) move(*point);
    } else if (auto* text = std::get_if<TextRun>(&item)) {
      move(text->at);
      text->style.cap_mm /= scale_x;
    } else if (auto* circle = std::get_if<CircleShape>(&item)) {
      move(circle->centre);
      circle->radius_mm /= scale_x;
    }
  }
}

}  // namespace loomleaf
