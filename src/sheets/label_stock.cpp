#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <sstream>

#include "../stock/template_file.h"
#include "loomleaf/sheets/label_sheets.h"

namespace loomleaf {
namespace {

constexpr double kTolerance = 1e-6;

bool names_paper(std::string_view papers, std::string_view wanted) {
  std::istringstream words{std::string(papers)};
  for (std::string word; words >> word;)
    if (word == wanted) return true;
  return false;
}

void read_label(TemplateFile& file, pugi::xml_node root, LabelStock& stock) {
  if (const auto label = file.single(root, "label")) {
    file.only_attributes(*label, {"width", "height"});
    stock.label_width_mm = file.number(*label, "width", {5, 300}).value_or(stock.label_width_mm);
    stock.label_height_mm = file.number(*label, "height", {3, 200}).value_or(stock.label_height_mm);
  }
  if (const auto face = file.single(root, "face")) {
    file.only_attributes(*face, {"x", "y", "width", "height", "least-capital"});
    stock.printed_x_mm = file.number(*face, "x", {0, 300}).value_or(stock.printed_x_mm);
    stock.printed_y_mm = file.number(*face, "y", {0, 200}).value_or(stock.printed_y_mm);
    stock.printed_width_mm = file.number(*face, "width", {5, 300}).value_or(stock.printed_width_mm);
    stock.printed_height_mm = file.number(*face, "height", {3, 200}).value_or(stock.printed_height_mm);
    stock.least_cap_mm = file.number(*face, "least-capital", {1, 20}).value_or(stock.least_cap_mm);
    if (stock.printed_x_mm + stock.printed_width_mm > stock.label_width_mm + kTolerance ||
        stock.printed_y_mm + stock.printed_height_mm > stock.label_height_mm + kTolerance)
      file.complain(*face, "the printed face reaches over the edge of the label");
  }
  if (stock.kind != LabelStock::Kind::sleeve) return;
  if (const auto sleeve = file.single(root, "sleeve")) {
    file.only_attributes(*sleeve, {"supplied-bore", "recovered-bore", "source", "known"});
    stock.supplied_bore_mm = file.number(*sleeve, "supplied-bore", {0.5, 200}).value_or(0.0);
    stock.recovered_bore_mm = file.number(*sleeve, "recovered-bore", {0.1, 200}).value_or(0.0);
    file.provenance(*sleeve);
    if (stock.recovered_bore_mm >= stock.supplied_bore_mm)
      file.complain(*sleeve, "a sleeve's recovered bore must be less than its supplied bore");
  }
}

// Whether the labels lie apart, on the paper, with room for the sheet's title and ruler.
void check_layout(TemplateFile& file, pugi::xml_node layout, const LabelStock& stock) {
  if ((stock.columns > 1 && stock.pitch_x_mm < stock.label_width_mm - kTolerance) ||
      (stock.rows > 1 && stock.pitch_y_mm < stock.label_height_mm - kTolerance))
    file.complain(layout, "the labels lie over each other: the pitch is less than the label");
  const double right = stock.first_x_mm + (stock.columns - 1) * stock.pitch_x_mm + stock.label_width_mm;
  const double bottom = stock.first_y_mm + (stock.rows - 1) * stock.pitch_y_mm + stock.label_height_mm;
  if (right > stock.page_width_mm + kTolerance)
    file.complain(layout,
                  fmt::format("the last column ends at {:.1f} mm, the paper at {:.1f} mm", right, stock.page_width_mm));
  if (bottom > stock.page_height_mm - kLabelFootRoomMm + kTolerance)
    file.complain(layout,
                  fmt::format("the last row ends at {:.1f} mm; {:.0f} mm must stay free below for the ruler, so "
                              "{:.1f} mm is the most",
                              bottom, kLabelFootRoomMm, stock.page_height_mm - kLabelFootRoomMm));
  if (stock.first_y_mm < kLabelHeadRoomMm)
    file.complain(layout, fmt::format("first-y must be at least {:.0f} mm, to leave room for the sheet's title",
                                      kLabelHeadRoomMm));
}

void read_layout(TemplateFile& file, pugi::xml_node layout, LabelStock& stock) {
  stock.page_width_mm = file.number(layout, "width", {50, 2000}).value_or(stock.page_width_mm);
  stock.page_height_mm = file.number(layout, "height", {50, 2000}).value_or(stock.page_height_mm);
  stock.first_x_mm = file.number(layout, "first-x", {0, 2000}).value_or(stock.first_x_mm);
  stock.first_y_mm = file.number(layout, "first-y", {0, 2000}).value_or(stock.first_y_mm);
  stock.pitch_x_mm = file.number(layout, "pitch-x", {1, 2000}).value_or(stock.pitch_x_mm);
  stock.pitch_y_mm = file.number(layout, "pitch-y", {1, 2000}).value_or(stock.pitch_y_mm);
  stock.columns = file.whole(layout, "columns", {1, 100}).value_or(1);
  stock.rows = file.whole(layout, "rows", {1, 100}).value_or(1);
}

}  // namespace

Loaded<LabelStock> load_label_stock(const TemplateFolders& folders, std::string_view name, std::string_view paper) {
  Loaded<LabelStock> loaded;
  LabelStock& stock = loaded.value;
  const std::filesystem::path path = folders.find("labels", std::string(name) + ".xml");
  if (path.empty()) {
    loaded.errors.push_back(
        {fmt::format("labels/{}.xml", name), 0,
         fmt::format("there is no such label stock; there are: {}", fmt::join(folders.list("labels"), ", "))});
    return loaded;
  }
  TemplateFile file(path, "label-stock");
  if (const pugi::xml_node root = file.root()) {
    file.only_attributes(root, {"format", "kind", "title"});
    const std::string kind = file.text(root, "kind").value_or("plain");
    if (kind != "plain" && kind != "sleeve") file.complain(root, "kind must be \"plain\" or \"sleeve\"");
    stock.kind = kind == "sleeve" ? LabelStock::Kind::sleeve : LabelStock::Kind::plain;
    stock.name = name;
    stock.title = file.text(root, "title").value_or("");
    if (stock.kind == LabelStock::Kind::sleeve)
      file.children(root, {"label", "face", "sleeve", "layout"});
    else
      file.children(root, {"label", "face", "layout"});
    read_label(file, root, stock);

    std::string known_papers;
    bool found = false;
    for (const pugi::xml_node layout : file.named(root, "layout")) {
      file.only_attributes(
          layout, {"papers", "width", "height", "first-x", "first-y", "pitch-x", "pitch-y", "columns", "rows"});
      const std::string papers = file.text(layout, "papers").value_or("");
      known_papers += (known_papers.empty() ? "" : " ") + papers;
      // Every layout is checked, so that a fault shows before its paper is asked for.
      LabelStock laid_out = stock;
      read_layout(file, layout, laid_out);
      check_layout(file, layout, laid_out);
      if (!found && names_paper(papers, paper)) {
        stock = laid_out;
        found = true;
      }
    }
    if (!found)
      file.complain(root,
                    fmt::format("there is no layout for the paper `{}`; there is one for: {}", paper, known_papers));
  }
  loaded.errors = file.take_errors();
  return loaded;
}

}  // namespace loomleaf
