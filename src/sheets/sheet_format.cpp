#include <fmt/format.h>
#include <fmt/ranges.h>

#include <utility>

#include "../stock/template_file.h"
#include "loomleaf/sheets/sheet_frame.h"

namespace loomleaf {

Loaded<SheetFormat> load_sheet_format(const TemplateFolders& folders, std::string_view paper, Orientation orientation) {
  Loaded<SheetFormat> loaded;
  SheetFormat& format = loaded.value;
  const std::filesystem::path path = folders.find("sheets", std::string(paper) + ".xml");
  if (path.empty()) {
    loaded.errors.push_back(
        {fmt::format("sheets/{}.xml", paper), 0,
         fmt::format("there is no such paper; there are: {}", fmt::join(folders.list("sheets"), ", "))});
    return loaded;
  }
  TemplateFile file(path, "sheet");
  const pugi::xml_node sheet = file.root();
  if (sheet) {
    file.only_attributes(sheet, {"format"});
    file.children(sheet, {"paper", "frame", "zones", "title"});
    if (const auto size = file.single(sheet, "paper")) {
      file.only_attributes(*size, {"short", "long"});
      format.width_mm = file.number(*size, "long", {100, 2000}).value_or(format.width_mm);
      format.height_mm = file.number(*size, "short", {100, 2000}).value_or(format.height_mm);
    }
    if (const auto frame = file.single(sheet, "frame")) {
      file.only_attributes(*frame, {"margin", "band", "head"});
      format.margin_mm = file.number(*frame, "margin", {0, 30}).value_or(format.margin_mm);
      format.frame_band_mm = file.number(*frame, "band", {2.5, 10}).value_or(format.frame_band_mm);
      format.head_mm = file.number(*frame, "head", {6, 30}).value_or(format.head_mm);
    }
    if (const auto zones = file.single(sheet, "zones")) {
      file.only_attributes(*zones, {"short", "long"});
      format.zone_columns = file.whole(*zones, "long", {1, 24}).value_or(format.zone_columns);
      format.zone_rows = file.whole(*zones, "short", {1, 24}).value_or(format.zone_rows);
    }
    if (const auto title = file.single(sheet, "title")) {
      file.only_attributes(*title, {"width", "height"});
      format.title_width_mm = file.number(*title, "width", {80, 300}).value_or(format.title_width_mm);
      format.title_height_mm = file.number(*title, "height", {30, 100}).value_or(format.title_height_mm);
    }
  }
  format.name = paper;
  if (orientation == Orientation::portrait) {
    std::swap(format.width_mm, format.height_mm);
    std::swap(format.zone_columns, format.zone_rows);
  }
  loaded.errors = file.take_errors();
  const Box block = format.title_block(), drawing = format.inner();
  if (loaded.errors.empty() && (block.x < drawing.x || block.y < drawing.y))
    loaded.errors.push_back({path.string(), 0, "the title block is larger than the paper inside its frame"});
  return loaded;
}

}  // namespace loomleaf
