#include "loomleaf/command/papers.h"

#include <nlohmann/json.hpp>

#include "loomleaf/sheets/diagram_sheets.h"
#include "loomleaf/sheets/fuse_sheets.h"
#include "loomleaf/takeoff/fuse_schedule.h"
#include "loomleaf/takeoff/table.h"
#include "paper_files.h"

namespace loomleaf {

namespace {

nlohmann::ordered_json placement_json(const std::vector<PlacedSheet>& placement) {
  using json = nlohmann::ordered_json;
  json sheets = json::array();
  for (const PlacedSheet& sheet : placement) {
    json items = json::array(), wires = json::array(), texts = json::array();
    for (const PlacedItem& item : sheet.items) {
      items.push_back({{"id", item.id}, {"x", item.box.x}, {"y", item.box.y}, {"w", item.box.w}, {"h", item.box.h}});
    }
    for (const PlacedWire& wire : sheet.wires) {
      json points = json::array();
      for (const Point& point : wire.points) points.push_back({point.x, point.y});
      wires.push_back({{"id", wire.id}, {"points", points}, {"width_mm", wire.width_mm}});
    }
    for (const PlacedText& text : sheet.texts) {
      texts.push_back({{"of", text.of},
                       {"x", text.box.x},
                       {"y", text.box.y},
                       {"w", text.box.w},
                       {"h", text.box.h},
                       {"cap_mm", text.cap_mm},
                       {"text", text.text},
                       {"leads_to", text.leads_to}});
    }
    sheets.push_back({{"width_mm", sheet.width_mm},
                      {"height_mm", sheet.height_mm},
                      {"items", items},
                      {"wires", wires},
                      {"texts", texts}});
  }
  return {{"format", "loomleaf-placement/1"}, {"sheets", sheets}};
}

// Landscape or portrait, whichever takes fewer sheets.
DiagramSheets draw_diagram_either_way(const PaperJob& job, const TitleFields& title) {
  const Examination& seen = job.examination;
  DiagramSheets best;
  for (const Orientation orientation : {Orientation::landscape, Orientation::portrait}) {
    const Loaded<SheetFormat> format = load_sheet_format(job.folders, job.options.paper, orientation);
    if (!format.errors.empty()) {
      best.template_errors = format.errors;
      return best;
    }
    DiagramSheets sheets = draw_diagram(seen.plan, seen.routes, seen.circuit, seen.study, seen.stock, job.folders,
                                        format.value, title, job.type);
    if (!sheets.template_errors.empty()) return sheets;
    if (best.pages.empty() || sheets.pages.size() < best.pages.size()) best = std::move(sheets);
    if (best.pages.size() == 1) break;
  }
  return best;
}

Paper make_diagram(const PaperJob& job) {
  Paper paper;
  TitleFields title = job.title;
  title.sheet_name = "Wiring diagram";
  title.cautions = {"Disconnect the battery before work. Fuse before battery.",
                    "Local codes and a qualified person have the last word."};
  DiagramSheets sheets = draw_diagram_either_way(job, title);
  paper.template_errors = sheets.template_errors;
  if (!paper.template_errors.empty()) return paper;
  if (job.options.as == "json") {
    paper.files.push_back({"diagram.json", placement_json(sheets.placement).dump(1) + "\n"});
    return paper;
  }
  Drawing drawing = drawing_of(job, title.sheet_name);
  drawing.pages = std::move(sheets.pages);
  drawing.outline = std::move(sheets.outline);
  add_pages(paper, job, "diagram", drawing);
  return paper;
}

Table fuse_table(const std::vector<FuseRow>& rows) {
  Table table{"fuses", {"id", "feeds", "rating", "family", "colour", "wire", "current"}, {}};
  for (const FuseRow& row : rows)
    table.rows.push_back({row.id, row.feeds, row.rating, row.family, row.colour, row.wire, row.current});
  return table;
}

Paper make_fuses(const PaperJob& job) {
  Paper paper;
  const Examination& seen = job.examination;
  const Loaded<FuseColours> colours = load_fuse_colours(job.folders);
  paper.template_errors = colours.errors;
  if (!paper.template_errors.empty()) return paper;
  const std::vector<FuseRow> rows = list_fuses(seen.plan, seen.circuit, seen.study, colours.value);
  if (wants_table(job)) {
    add_table(paper, job, fuse_table(rows));
    return paper;
  }
  const Loaded<SheetFormat> format = load_sheet_format(job.folders, job.options.paper, Orientation::portrait);
  paper.template_errors = format.errors;
  if (!paper.template_errors.empty()) return paper;

  TitleFields title = job.title;
  title.sheet_name = "Fuses";
  title.cautions = {
      "Disconnect the battery before work. Replace a fuse only by one of the same rating and kind, once the "
      "reason is found.",
      "Local codes and a qualified person have the last word."};
  Drawing drawing = drawing_of(job, title.sheet_name);
  drawing.pages = draw_fuse_sheets(rows, format.value, title, job.type);
  add_pages(paper, job, "fuses", drawing);
  return paper;
}

}  // namespace

std::span<const PaperKind> paper_kinds() {
  static const std::vector<PaperKind> kinds = {
      {"diagram", {"pdf", "svg", "png", "json"}, make_diagram, false},
      {"labels", {"pdf", "svg", "png", "csv", "json"}, make_labels, false},
      {"fuses", {"pdf", "svg", "png", "csv", "json"}, make_fuses, false},
      {"calibration", {"pdf", "svg", "png"}, make_calibration, true},
  };
  return kinds;
}

}  // namespace loomleaf
