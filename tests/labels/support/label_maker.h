// Labels of our own making, and the sheets they make.
#pragma once

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "loomleaf/render/render.h"
#include "loomleaf/sheets/label_sheets.h"
#include "support/installed_templates.h"

namespace loomleaf::test {

inline const TextMeasure& type() {
  static const TextMeasure measure(LOOMLEAF_ROOT "/fonts");
  return measure;
}

inline LabelStock label_stock(std::string_view name, std::string_view paper = "a4") {
  const Loaded<LabelStock> loaded = load_label_stock(installed_templates(), name, paper);
  EXPECT_TRUE(loaded.errors.empty()) << loaded.errors.front().message;
  return loaded.value;
}

inline Label wire_label(std::string id, bool from_end = true, double diameter_mm = 3.0) {
  Label made;
  made.id = std::move(id);
  made.at_from_end = from_end;
  made.lands_at = from_end ? "F1.out" : "LA2+";
  made.far_end = from_end ? "LA2+" : "F1.out";
  made.fuse = "F1 5 A";
  made.size = "18 AWG RD";
  made.outside = Outside{millimetres(diameter_mm), millimetres(diameter_mm)};
  return made;
}

inline std::vector<Label> pairs(int wires, double diameter_mm = 3.0) {
  std::vector<Label> labels;
  for (int i = 1; i <= wires; ++i)
    for (const bool from_end : {true, false})
      labels.push_back(wire_label("W" + std::to_string(i), from_end, diameter_mm));
  return labels;
}

// A thickness of wire that a size is for.
inline double wire_for(const LabelSize& size) {
  return std::isinf(size.most_width_mm) ? std::max(6.0, size.face.h / 2.0) : size.most_width_mm;
}

inline TitleFields title_fields(bool cleared = true) {
  TitleFields fields;
  fields.title = "Weather hut";
  fields.revision = "C";
  fields.date = "2026-03-14";
  fields.sheet_name = "Wire labels";
  fields.cleared = cleared;
  return fields;
}

inline LabelSheets sheets_of(const std::vector<Label>& labels, const LabelStock& on, const LabelWishes& wishes = {},
                             bool cleared = true) {
  // Sheets keep nothing of the texts, which may go.
  return draw_label_sheets(texts_of(labels, on), on, wishes, title_fields(cleared), type());
}

// The IDs on the labels of pages, in the order they are drawn.
inline std::vector<std::string> underlined_in(const std::vector<Page>& pages) {
  std::vector<std::string> texts;
  for (const Page& page : pages)
    for (const DrawingItem& item : page.items)
      if (const auto* run = std::get_if<TextRun>(&item); run && run->underlined) texts.push_back(run->text);
  return texts;
}

inline std::string pdf_of(std::vector<Page> pages) {
  Drawing drawing;
  drawing.pages = std::move(pages);
  return to_pdf(drawing, type());
}

// The printed face of the nth label of a sheet, worked out from the stock's measures alone; on the back of a sheet that
// was turned over top to bottom.
inline Box face_of(const LabelSize& on, int n, bool back = false) {
  const double x = on.first_x_mm + on.pitch_x_mm * (n % on.columns) + on.face.x;
  const double y = on.first_y_mm + on.pitch_y_mm * (n / on.columns) + on.face.y;
  return {x, back ? on.page_height_mm - y - on.face.h : y, on.face.w, on.face.h};
}

// Negative `margin` lets a box stand out of the face by so much.
inline bool inside(const Box& box, const Box& face, double margin) {
  return box.x >= face.x + margin && box.right() <= face.right() - margin && box.y >= face.y + margin &&
         box.bottom() <= face.bottom() - margin;
}

}  // namespace loomleaf::test
