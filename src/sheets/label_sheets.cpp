#include "loomleaf/sheets/label_sheets.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <iterator>
#include <span>
#include <string_view>

#include "label_face.h"

namespace loomleaf {
namespace {

constexpr double kRulerMm = 50.0;
constexpr Stroke kTick{0.25, {}, {}, false};
constexpr TextStyle kSmall{2.0, false};

Point corner(const LabelStock& stock, int cell) {
  return {stock.first_x_mm + stock.pitch_x_mm * (cell % stock.columns),
          stock.first_y_mm + stock.pitch_y_mm * (cell / stock.columns)};
}

double right_edge(const LabelStock& stock) {
  return stock.first_x_mm + stock.pitch_x_mm * (stock.columns - 1) + stock.label_width_mm;
}

double bottom_edge(const LabelStock& stock) {
  return stock.first_y_mm + stock.pitch_y_mm * (stock.rows - 1) + stock.label_height_mm;
}

TextRun small_text(Point at, std::string text) {
  return {at, std::move(text), kSmall, TextRun::Anchor::start, {}, 0.0, false};
}

// Where the labels of a sheet are to be stuck on, since one works at a place: "at LOCKER, ROOF".
std::string places_text(std::span<const Label> labels) {
  std::vector<std::string_view> places;
  for (const Label& label : labels)
    if (!label.place.empty() && std::find(places.begin(), places.end(), label.place) == places.end())
      places.push_back(label.place);
  return places.empty() ? "" : fmt::format(", for ends at {}", fmt::join(places, ", "));
}

// Plan, revision, date, sheet and stock above the labels; the notice at the right.
void draw_sheet_title(Page& page, const LabelStock& stock, const TitleFields& fields, int sheet, int sheets,
                      std::span<const Label> labels, const TextMeasure& type) {
  double right = right_edge(stock);
  const double top = stock.first_y_mm - 11.0;
  if (!fields.cleared) right = draw_not_cleared(page, right, top, 6.5, type).x - 3.0;
  const double width = right - stock.first_x_mm;
  const TextStyle title_style{2.5, true};
  std::string revision = fields.revision.empty() ? "" : "revision " + fields.revision;
  if (!fields.date.empty()) revision += (revision.empty() ? "" : "   ") + fields.date;
  const std::string title =
      type.fitted(fields.title, title_style, std::max(0.0, width - type.width(revision, kSmall) - 4.0));
  page.items.push_back(
      TextRun{{stock.first_x_mm, top + 2.5}, title, title_style, TextRun::Anchor::start, {}, 0.0, false});
  const double after_title = stock.first_x_mm + type.width(title, title_style) + (title.empty() ? 0.0 : 4.0);
  page.items.push_back(small_text({after_title, top + 2.5}, type.fitted(revision, kSmall, right - after_title)));
  const std::string second =
      fmt::format("{}, sheet {} of {}, {}{}", fields.sheet_name.empty() ? "Wire labels" : fields.sheet_name, sheet,
                  sheets, stock.title.empty() ? stock.name : stock.title, places_text(labels));
  page.items.push_back(small_text({stock.first_x_mm, top + 6.5}, type.fitted(second, kSmall, width)));
}

// A ruler to hold a real one against, since printers like to scale.
void draw_ruler(Page& page, const LabelStock& stock, const TextMeasure& type) {
  const double x = stock.first_x_mm, y = bottom_edge(stock) + 7.0;
  page.items.push_back(line({x, y}, {x + kRulerMm, y}, kTick));
  for (int tick = 0; tick <= 5; ++tick) {
    const double at = x + kRulerMm * tick / 5.0;
    page.items.push_back(line({at, y - (tick % 5 == 0 ? 3.0 : 1.5)}, {at, y}, kTick));
  }
  const double left = x + kRulerMm + 3.0, width = right_edge(stock) - left;
  const auto say = [&](double baseline, const std::string& text) {
    page.items.push_back(small_text({left, baseline}, type.fitted(text, kSmall, width)));
  };
  say(y - 1.0, "50 mm: check with a ruler, and print at 100 %, not fitted to the page");
  if (stock.kind == LabelStock::Kind::sleeve)
    // It goes on where its supplied bore is a fifth over the wire or more (common practice).
    say(y + 2.5, fmt::format("For {:.1f} to {:.1f} mm over the insulation. Letters become lower as it shrinks",
                             stock.recovered_bore_mm, stock.supplied_bore_mm / 1.2));
}

// Short ticks beside each row, to hold a trial print against the carrier sheet: the sleeves themselves stay clean.
void draw_row_ticks(Page& page, const LabelStock& stock, int rows) {
  for (int row = 0; row < rows; ++row)
    for (const double edge : {0.0, stock.label_height_mm}) {
      const double y = stock.first_y_mm + stock.pitch_y_mm * row + edge;
      page.items.push_back(line({stock.first_x_mm - 5.0, y}, {stock.first_x_mm - 2.0, y}, kTick));
      page.items.push_back(line({right_edge(stock) + 2.0, y}, {right_edge(stock) + 5.0, y}, kTick));
    }
}

}  // namespace

LabelSheets draw_label_sheets(const std::vector<Label>& labels, const LabelStock& stock, const TitleFields& fields,
                              const TextMeasure& type) {
  LabelSheets sheets;
  const auto per_sheet = static_cast<std::size_t>(stock.columns * stock.rows);
  const std::size_t count = std::max<std::size_t>(1, (labels.size() + per_sheet - 1) / per_sheet);
  for (std::size_t number = 0; number < count; ++number) {
    Page page{stock.page_width_mm, stock.page_height_mm, fmt::format("labels-{}", number + 1), {}};
    const std::size_t first = number * per_sheet, end = std::min(labels.size(), first + per_sheet);
    draw_sheet_title(page, stock, fields, static_cast<int>(number) + 1, static_cast<int>(count),
                     std::span(labels).subspan(first, end - first), type);
    for (std::size_t i = first; i < end; ++i) {
      const Point at = corner(stock, static_cast<int>(i - first));
      if (stock.kind == LabelStock::Kind::plain)
        page.items.push_back(rectangle({at.x, at.y, stock.label_width_mm, stock.label_height_mm},
                                       Stroke{0.15, {0.5, 0.5, 0.5}, {}, false}));
      const std::string end_name = labels[i].at_from_end ? "from" : "to";
      page.items.push_back(GroupBegin{fmt::format("{}-{}", labels[i].id, end_name),
                                      fmt::format("label of {}, {} end", labels[i].id, end_name)});
      LabelFace face =
          lay_out_label(labels[i], stock.printed_width_mm, stock.printed_height_mm, stock.least_cap_mm, type);
      for (TextRun& run : face.runs) {
        run.at.x += at.x + stock.printed_x_mm;
        run.at.y += at.y + stock.printed_y_mm;
        page.items.push_back(std::move(run));
      }
      page.items.push_back(GroupEnd{});
      std::move(face.could_not_fit.begin(), face.could_not_fit.end(), std::back_inserter(sheets.could_not_fit));
    }
    if (labels.empty())
      page.items.push_back(
          small_text({stock.first_x_mm, stock.first_y_mm + 10.0}, "There is no wire to label in this plan."));
    if (stock.kind == LabelStock::Kind::sleeve)
      draw_row_ticks(page, stock,
                     static_cast<int>((end - first + static_cast<std::size_t>(stock.columns) - 1) /
                                      static_cast<std::size_t>(stock.columns)));
    draw_ruler(page, stock, type);
    sheets.pages.push_back(std::move(page));
  }
  return sheets;
}

}  // namespace loomleaf
