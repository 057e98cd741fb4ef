#include "loomleaf/sheets/label_stock.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <numbers>
#include <sstream>

#include "../stock/template_file.h"

namespace loomleaf {
namespace {

constexpr double kTolerance = 1e-6;

struct KindRow {
  const char* name;
  LabelKind kind;
  const char* part;  // the element that only this kind has; empty: none
};
constexpr KindRow kKinds[] = {{"sleeve", LabelKind::sleeve, "sleeve"}, {"wrap", LabelKind::wrap, ""},
                              {"flag", LabelKind::flag, "second"},     {"strip", LabelKind::strip, ""},
                              {"panel", LabelKind::panel, ""},         {"fuses", LabelKind::fuses, ""}};

const KindRow& row_of(LabelKind kind) {
  return *std::find_if(std::begin(kKinds), std::end(kKinds), [&](const KindRow& row) { return row.kind == kind; });
}

bool names_paper(std::string_view papers, std::string_view wanted) {
  std::istringstream words{std::string(papers)};
  for (std::string word; words >> word;)
    if (word == wanted) return true;
  return false;
}

void read_sleeve(TemplateFile& file, pugi::xml_node node, LabelSize& size) {
  const auto sleeve = file.single(node, "sleeve");
  if (!sleeve) return;
  file.only_attributes(*sleeve, {"supplied-bore", "recovered-bore", "recovered-wall", "source", "known"});
  size.supplied_bore_mm = file.number(*sleeve, "supplied-bore", {0.5, 200}).value_or(2.0);
  size.recovered_bore_mm = file.number(*sleeve, "recovered-bore", {0.1, 200}).value_or(1.0);
  size.recovered_wall_mm = file.number(*sleeve, "recovered-wall", {0, 10}).value_or(0.0);
  file.provenance(*sleeve);
  if (size.recovered_bore_mm >= size.supplied_bore_mm)
    file.complain(*sleeve, "a sleeve's recovered bore must be less than its supplied bore");
  size.least_girth_mm = size.recovered_bore_mm;
  size.most_width_mm = size.supplied_bore_mm / kSleeveRoom;
}

void read_second_face(TemplateFile& file, pugi::xml_node node, LabelSize& size) {
  const auto second = file.single(node, "second");
  if (!second) return;
  file.only_attributes(*second, {"x"});
  size.second_x_mm = file.number(*second, "x", {0, 300}).value_or(size.face.right());
  const double between = size.second_x_mm - size.face.right();
  if (between < 0.0)
    file.complain(*second, "the second face must begin behind the first: what is between them goes round the wire");
  if (size.second_x_mm + size.face.w > size.label_width_mm + kTolerance)
    file.complain(*second, "the second face reaches over the edge of the label");
  size.most_width_mm = between / std::numbers::pi;
}

// The label, its face, and what else its kind has.
LabelSize read_measures(TemplateFile& file, pugi::xml_node node, LabelKind kind) {
  LabelSize size;
  size.name = file.text(node, "name").value_or("");
  if (const auto label = file.single(node, "label")) {
    file.only_attributes(*label, {"width", "height"});
    size.label_width_mm = file.number(*label, "width", {5, 300}).value_or(size.label_width_mm);
    size.label_height_mm = file.number(*label, "height", {3, 200}).value_or(size.label_height_mm);
  }
  if (const auto face = file.single(node, "face")) {
    file.only_attributes(*face, {"x", "y", "width", "height"});
    size.face = {file.number(*face, "x", {0, 300}).value_or(0.0), file.number(*face, "y", {0, 200}).value_or(0.0),
                 file.number(*face, "width", {5, 300}).value_or(5.0),
                 file.number(*face, "height", {3, 200}).value_or(3.0)};
    if (size.face.right() > size.label_width_mm + kTolerance || size.face.bottom() > size.label_height_mm + kTolerance)
      file.complain(*face, "the printed face reaches over the edge of the label");
  }
  if (kind == LabelKind::sleeve) read_sleeve(file, node, size);
  if (kind == LabelKind::flag) read_second_face(file, node, size);
  // A strip is cut to go once round at most, and should go round half at least.
  if (kind == LabelKind::strip) size.most_width_mm = 2.0 * size.face.h / std::numbers::pi;
  if (kind == LabelKind::wrap) {
    // Its face must not lie over its own beginning, and the tail must go round once more.
    size.least_girth_mm = size.face.h / std::numbers::pi;
    size.most_width_mm = (size.label_height_mm - size.face.bottom()) / std::numbers::pi;
    if (size.most_width_mm < size.least_girth_mm)
      file.complain(node, "the clear tail below the printed face must be as high as the face or higher, to cover it");
  }
  return size;
}

// Whether the labels lie apart, on the paper, with room for the sheet's title and ruler.
void check_layout(TemplateFile& file, pugi::xml_node layout, const LabelSize& size) {
  if ((size.columns > 1 && size.pitch_x_mm < size.label_width_mm - kTolerance) ||
      (size.rows > 1 && size.pitch_y_mm < size.label_height_mm - kTolerance))
    file.complain(layout, "the labels lie over each other: the pitch is less than the label");
  if (size.right_edge() > size.page_width_mm + kTolerance)
    file.complain(layout, fmt::format("the last column ends at {:.1f} mm, the paper at {:.1f} mm", size.right_edge(),
                                      size.page_width_mm));
  if (size.bottom_edge() > size.page_height_mm - kLabelFootRoomMm + kTolerance)
    file.complain(layout,
                  fmt::format("the last row ends at {:.1f} mm; {:.0f} mm must stay free below for the ruler, so "
                              "{:.1f} mm is the most",
                              size.bottom_edge(), kLabelFootRoomMm, size.page_height_mm - kLabelFootRoomMm));
  if (size.first_y_mm < kLabelHeadRoomMm)
    file.complain(layout, fmt::format("first-y must be at least {:.0f} mm, to leave room for the sheet's title",
                                      kLabelHeadRoomMm));
}

void read_layout(TemplateFile& file, pugi::xml_node layout, LabelSize& size) {
  size.page_width_mm = file.number(layout, "width", {50, 2000}).value_or(size.page_width_mm);
  size.page_height_mm = file.number(layout, "height", {50, 2000}).value_or(size.page_height_mm);
  size.first_x_mm = file.number(layout, "first-x", {0, 2000}).value_or(size.first_x_mm);
  size.first_y_mm = file.number(layout, "first-y", {0, 2000}).value_or(size.first_y_mm);
  size.pitch_x_mm = file.number(layout, "pitch-x", {1, 2000}).value_or(size.pitch_x_mm);
  size.pitch_y_mm = file.number(layout, "pitch-y", {1, 2000}).value_or(size.pitch_y_mm);
  size.columns = file.whole(layout, "columns", {1, 100}).value_or(1);
  size.rows = file.whole(layout, "rows", {1, 100}).value_or(1);
}

// The size as it lies on this paper. Every layout is checked, so that a fault shows before its paper is asked for.
LabelSize read_size(TemplateFile& file, pugi::xml_node node, const LabelStock& stock, std::string_view paper) {
  file.only_attributes(node, {"name"});
  if (const char* part = row_of(stock.kind).part; *part != 0)
    file.children(node, {"label", "face", part, "layout"});
  else
    file.children(node, {"label", "face", "layout"});
  LabelSize size = read_measures(file, node, stock.kind);
  std::string known_papers;
  bool found = false;
  for (const pugi::xml_node layout : file.named(node, "layout")) {
    file.only_attributes(layout,
                         {"papers", "width", "height", "first-x", "first-y", "pitch-x", "pitch-y", "columns", "rows"});
    const std::string papers = file.text(layout, "papers").value_or("");
    known_papers += (known_papers.empty() ? "" : " ") + papers;
    LabelSize laid_out = size;
    read_layout(file, layout, laid_out);
    check_layout(file, layout, laid_out);
    if (found || !names_paper(papers, paper)) continue;
    size = laid_out;
    found = true;
  }
  if (!found)
    file.complain(node,
                  fmt::format("there is no layout for the paper `{}`; there is one for: {}", paper, known_papers));
  return size;
}

void read_root(TemplateFile& file, pugi::xml_node root, LabelStock& stock) {
  file.only_attributes(root, {"format", "kind", "title", "sides", "least-capital"});
  const std::string kind = file.text(root, "kind").value_or("strip");
  const auto row = std::find_if(std::begin(kKinds), std::end(kKinds), [&](const KindRow& k) { return k.name == kind; });
  if (row != std::end(kKinds)) {
    stock.kind = row->kind;
  } else {
    std::vector<const char*> names;
    for (const KindRow& known : kKinds) names.push_back(known.name);
    file.complain(root, fmt::format("kind must be one of: {}", fmt::join(names, ", ")));
  }
  stock.title = file.text(root, "title").value_or("");
  stock.least_cap_mm = file.number(root, "least-capital", {0.5, 20}).value_or(kLeastLegibleCapMm);
  if (stock.least_cap_mm < kLeastLegibleCapMm)
    file.complain(root, fmt::format("least-capital must be {} mm or more: lower letters cannot be read in the hand",
                                    kLeastLegibleCapMm));
  if (file.has(root, "sides")) stock.sides = file.whole(root, "sides", {1, 2}).value_or(1);
  if (stock.sides == 2 && stock.kind != LabelKind::sleeve)
    file.complain(root, "sides=\"2\" is for sleeves: other labels are printed on one side of their sheet");
}

void check_sizes(TemplateFile& file, const std::vector<pugi::xml_node>& nodes, LabelStock& stock) {
  if (stock.sizes.empty()) file.complain(file.root(), "there is no <size> in it: one at least is needed");
  for (std::size_t i = 0; i < stock.sizes.size(); ++i)
    for (std::size_t k = 0; k < i; ++k)
      if (stock.sizes[i].name == stock.sizes[k].name)
        file.complain(nodes[i], fmt::format("a second size called `{}`", stock.sizes[i].name));
  std::stable_sort(stock.sizes.begin(), stock.sizes.end(),
                   [](const LabelSize& a, const LabelSize& b) { return a.most_width_mm < b.most_width_mm; });
  if (stock.kind == LabelKind::strip && !stock.sizes.empty())
    stock.sizes.back().most_width_mm = std::numeric_limits<double>::infinity();
}

}  // namespace

Point LabelSize::corner(int cell) const {
  return {first_x_mm + pitch_x_mm * (cell % columns), first_y_mm + pitch_y_mm * (cell / columns)};
}

double LabelSize::right_edge() const { return first_x_mm + pitch_x_mm * (columns - 1) + label_width_mm; }

double LabelSize::bottom_edge() const { return first_y_mm + pitch_y_mm * (rows - 1) + label_height_mm; }

const LabelSize* LabelStock::find(std::string_view size) const {
  const auto found = std::find_if(sizes.begin(), sizes.end(), [&](const LabelSize& s) { return s.name == size; });
  return found == sizes.end() ? nullptr : &*found;
}

Loaded<LabelStock> load_label_stock(const TemplateFolders& folders, std::string_view name, std::string_view paper) {
  Loaded<LabelStock> loaded;
  const std::filesystem::path path = folders.find("labels", std::string(name) + ".xml");
  if (path.empty()) {
    loaded.errors.push_back(
        {fmt::format("labels/{}.xml", name), 0,
         fmt::format("there is no such label stock; there are: {}", fmt::join(folders.list("labels"), ", "))});
    return loaded;
  }
  TemplateFile file(path, "label-stock");
  if (const pugi::xml_node root = file.root()) {
    LabelStock& stock = loaded.value;
    stock.name = name;
    read_root(file, root, stock);
    const std::vector<pugi::xml_node> sizes = file.children(root, {"size"});
    for (const pugi::xml_node node : sizes) stock.sizes.push_back(read_size(file, node, stock, paper));
    check_sizes(file, sizes, stock);
  }
  loaded.errors = file.take_errors();
  return loaded;
}

}  // namespace loomleaf
