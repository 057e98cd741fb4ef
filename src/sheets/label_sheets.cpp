#include "loomleaf/sheets/label_sheets.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <string_view>

#include "label_marks.h"
#include "label_setting.h"
#include "loomleaf/units/format.h"

namespace loomleaf {
namespace {

bool has_cut_lines(LabelKind kind) {
  return kind == LabelKind::strip || kind == LabelKind::panel || kind == LabelKind::fuses;
}

// One label on one side of a sheet.
struct Laid {
  int cell = 0;
  const SetLabel* label = nullptr;
};

std::string places_text(const LabelStock& stock, const std::vector<Laid>& labels) {
  std::vector<std::string_view> places;
  for (const Laid& laid : labels)
    if (const std::string& place = laid.label->text->place;
        !place.empty() && std::find(places.begin(), places.end(), place) == places.end())
      places.push_back(place);
  return places.empty() ? "" : fmt::format("{} {}", stock.for_wires() ? "for ends at" : "at", fmt::join(places, ", "));
}

std::vector<std::string> advice_for(const LabelStock& stock, const LabelSize& size) {
  std::vector<std::string> advice;
  if (stock.kind == LabelKind::sleeve || stock.kind == LabelKind::wrap)
    advice.push_back(fmt::format("For wires of {} to {} mm{}", to_text(size.least_girth_mm, 2),
                                 to_text(size.most_width_mm, 2),
                                 stock.kind == LabelKind::sleeve ? ". It goes on before the terminal" : ""));
  if (stock.goes_round()) advice.push_back("The arrow points along the wire to its far end");
  if (stock.sides == 2) advice.push_back("Print the other side as well, with the paper turned over top to bottom");
  if (stock.kind == LabelKind::flag) advice.push_back("Fold it round the wire and stick the two ends together");
  return advice;
}

class SheetMaker {
 public:
  SheetMaker(const LabelStock& stock, const TitleFields& fields, const TextMeasure& type)
      : stock_(stock), fields_(fields), type_(type) {}

  // All pages of one size; the labels as often as there are copies, behind those that are gone from the first sheet.
  void add(const LabelSize& size, const std::vector<SetLabel>& labels, int copies, int used, LabelSheets& sheets) {
    const int each = size.on_a_sheet();
    const int all = static_cast<int>(labels.size()) * copies;
    const int count = std::max(1, (used + all + each - 1) / each);
    for (int sheet = 0; sheet < count; ++sheet) {
      std::vector<Laid> laid;
      for (int cell = sheet == 0 ? used : 0; cell < each; ++cell) {
        const int at = sheet * each + cell - used;
        if (at >= all) break;
        laid.push_back({cell, &labels[static_cast<std::size_t>(at) % labels.size()]});
      }
      const LabelSheetNote note{sheet + 1, count, stock_.title + (stock_.sizes.size() > 1 ? ", size " + size.name : ""),
                                places_text(stock_, laid)};
      for (int side = 0; side < stock_.sides; ++side) sheets.pages.push_back(draw(size, side, laid, note, sheets));
    }
    if (all > 0)
      sheets.counts.push_back(
          fmt::format("{} of size {}, on {} sheet{}", all, size.name, count, count == 1 ? "" : "s"));
  }

 private:
  Page draw(const LabelSize& size, int side_number, const std::vector<Laid>& labels, const LabelSheetNote& note,
            const LabelSheets& sheets) const {
    const LabelSide side{size, side_number == 1};
    Page page{size.page_width_mm, size.page_height_mm, fmt::format("labels-{}", sheets.pages.size() + 1), {}};
    draw_label_title(page, side, fields_, note, type_);
    for (const Laid& laid : labels) draw_label(page, side, laid);
    if (labels.empty())
      page.items.push_back(TextRun{{size.first_x_mm, side.top() + 10.0},
                                   "There is nothing to label in this plan.",
                                   {2.0, false},
                                   TextRun::Anchor::start,
                                   {},
                                   0.0,
                                   false});
    if (!has_cut_lines(stock_.kind) && !labels.empty())
      draw_row_ticks(page, side, labels.back().cell / size.columns + 1);
    draw_check_ruler(page, side, advice_for(stock_, size), type_);
    return page;
  }

  void draw_label(Page& page, const LabelSide& side, const Laid& laid) const {
    const LabelText& text = *laid.label->text;
    if (has_cut_lines(stock_.kind))
      draw_cut_line(page, side.box_of(laid.cell, {0.0, 0.0, side.size.label_width_mm, laid.label->height_mm}));
    page.items.push_back(
        GroupBegin{text.end.empty() ? text.id : text.id + "-" + text.end,
                   text.end.empty() ? "legend of " + text.id : fmt::format("label of {}, {} end", text.id, text.end)});
    const Box face = side.box_of(laid.cell, side.size.face);
    std::vector<double> shifts{0.0};
    if (stock_.kind == LabelKind::flag) shifts.push_back(side.size.second_x_mm - side.size.face.x);
    for (const double shift : shifts)
      for (TextRun run : laid.label->face.sides[side.is_back ? 1 : 0]) {
        run.at.x += face.x + kFaceMarginMm + shift;
        run.at.y += face.y + kFaceMarginMm;
        page.items.push_back(std::move(run));
      }
    page.items.push_back(GroupEnd{});
  }

  const LabelStock& stock_;
  const TitleFields& fields_;
  const TextMeasure& type_;
};

// How many are gone from the first sheet of each size; or why that cannot be told.
struct Used {
  std::vector<int> by_size;
  std::string trouble;
};

Used find_used(const LabelStock& stock, const LabelWishes& wishes, const LabelSetting& set) {
  Used used{std::vector<int>(stock.sizes.size(), 0), ""};
  std::vector<std::size_t> needed;
  for (std::size_t i = 0; i < stock.sizes.size(); ++i)
    if (!set.by_size[i].empty()) needed.push_back(i);
  for (const UsedLabels& wish : wishes.used) {
    const LabelSize* size =
        wish.size.empty() && needed.size() == 1 ? &stock.sizes[needed.front()] : stock.find(wish.size);
    if (!size && wish.size.empty() && needed.empty()) continue;
    if (!size) {
      std::vector<std::string> names;
      for (const std::size_t i : needed) names.push_back(fmt::format("{}={}", stock.sizes[i].name, wish.count));
      used.trouble = wish.size.empty() ? fmt::format("which size is part used? write one of: --used {}",
                                                     fmt::join(names, ", --used "))
                                       : fmt::format("{} has no size {}", stock.name, wish.size);
      return used;
    }
    if (wish.count >= size->on_a_sheet()) {
      used.trouble = fmt::format("a sheet of size {} has {} labels: --used can be {} at most", size->name,
                                 size->on_a_sheet(), size->on_a_sheet() - 1);
      return used;
    }
    used.by_size[static_cast<std::size_t>(size - stock.sizes.data())] = wish.count;
  }
  return used;
}

}  // namespace

LabelSheets draw_label_sheets(const std::vector<LabelText>& texts, const LabelStock& stock, const LabelWishes& wishes,
                              const TitleFields& fields, const TextMeasure& type) {
  LabelSheets sheets;
  if (!wishes.size.empty() && !stock.find(wishes.size)) {
    std::vector<std::string> names;
    for (const LabelSize& size : stock.sizes) names.push_back(size.name);
    sheets.trouble = fmt::format("{} has no size {}; it has: {}", stock.name, wishes.size, fmt::join(names, ", "));
    return sheets;
  }
  LabelSetting set = set_labels(texts, stock, wishes, type);
  const Used used = find_used(stock, wishes, set);
  sheets.trouble = used.trouble;
  if (!sheets.trouble.empty()) return sheets;
  SheetMaker maker(stock, fields, type);
  for (std::size_t i = 0; i < stock.sizes.size(); ++i)
    if (!set.by_size[i].empty()) maker.add(stock.sizes[i], set.by_size[i], wishes.copies, used.by_size[i], sheets);
  if (sheets.pages.empty()) {
    const LabelSize* fixed = stock.find(wishes.size);
    maker.add(fixed ? *fixed : stock.sizes.front(), {}, 1, 0, sheets);
  }
  sheets.size_of = std::move(set.size_of);
  sheets.could_not_fit = std::move(set.remarks);
  return sheets;
}

}  // namespace loomleaf
