#include "loomleaf/sheets/diagram_sheets.h"

#include <algorithm>
#include <map>
#include <set>

#include "diagram_tables.h"
#include "loomleaf/layout/pack.h"

namespace loomleaf {
namespace {

constexpr double kInset = 2.0;  // from the sheet's frame
constexpr double kBlockGap = 3.0;

struct Loading {
  SymbolSet symbols;
  std::vector<TemplateError> errors;
};

// The symbols that this figure uses, and the ones that stand where lines end at a repeated piece.
Loading load_symbols(const TemplateFolders& folders, const WiringFigure& figure) {
  std::map<std::string, std::vector<std::string>> ports{{"terminal", {"node"}}, {"bus", {"node"}}};
  for (const Piece& piece : figure.pieces) {
    auto& wanted = ports[piece.symbol];
    if (!wanted.empty()) continue;
    for (const PieceTerminal& terminal : piece.terminals)
      wanted.push_back(piece.form == PieceForm::selector && terminal.port != "in" ? "out" : terminal.port);
  }
  Loading loading;
  for (const auto& [name, names] : ports) {
    Loaded<Symbol> loaded = load_symbol(folders, name, names);
    loading.errors.insert(loading.errors.end(), loaded.errors.begin(), loaded.errors.end());
    loading.symbols[name] = std::move(loaded.value);
  }
  return loading;
}

// Where a thing stands: sheet from 0, and a point on it.
struct Anchor {
  std::size_t sheet = 0;
  Point at;
  std::string id, destination;
};

class DiagramMaker {
 public:
  DiagramMaker(const BlockSource& source, const Routes& routes, const Circuit& circuit, const Study& study,
               const SheetFormat& format, const TitleFields& fields)
      : source_(source), format_(format), fields_(fields), tables_from_{source, routes, circuit, study, {}} {}

  DiagramSheets run() {
    const Box inner = format_.inner();
    area_ = {{inner.x + kInset, inner.y + kInset, inner.w - 2.0 * kInset, inner.h - 2.0 * kInset},
             format_.title_block(),
             kBlockGap};
    // A block may stand beside or above the title block, so it must fit above it.
    const double free_height = area_.area.h - format_.title_block().h - kBlockGap;
    const BlockLimits limits{area_.area.w - 2.0 * frame_.side, free_height - frame_.above - frame_.below};
    blocks_ = make_blocks(source_, limits);
    tables_from_.limits = {area_.area.w, free_height};
    collect();
    place();
    note_anchors();
    draw();
    return std::move(sheets_);
  }

 private:
  // What is put on paper, in reading order.
  struct Content {
    std::optional<std::size_t> block, table;
    PackItem size;
  };

  void add_tables(std::vector<TableBlock> tables) {
    for (TableBlock& table : tables) {
      contents_.push_back({std::nullopt, tables_.size(), {table.width + 2.0, table.height + 1.0, 0, 2, false}});
      tables_.push_back(std::move(table));
    }
  }
  bool is_distribution(std::size_t group) const { return group == 0 || source_.figure.groups[group].charges; }

  void add_blocks(bool distribution) {
    for (std::size_t i = 0; i < blocks_.size(); ++i)
      if (is_distribution(blocks_[i].group) == distribution)
        contents_.push_back(
            {i,
             std::nullopt,
             {blocks_[i].placement.width + 2.0 * frame_.side, blocks_[i].placement.height + frame_.above + frame_.below,
              0, distribution ? 0 : 1, blocks_[i].continued}});
  }

  void collect() {
    add_blocks(true);
    first_circuit_ = contents_.size();
    add_blocks(false);
    first_table_ = contents_.size();
    add_tables(fuse_schedule(tables_from_));
    add_tables(where_to_find_items(tables_from_));
    add_tables(where_to_find_wires(tables_from_));
    add_tables(behind_covers(tables_from_));
    add_tables(legend(tables_from_));
  }

  std::vector<PackItem> sizes() const {
    std::vector<PackItem> items;
    for (const Content& content : contents_) items.push_back(content.size);
    return items;
  }

  // One sheet where all fits; else the distribution has sheets of its own, which tables may fill up.
  void place() {
    places_ = pack(sizes(), area_);
    if (sheet_count() == 1 || first_circuit_ == 0) return;
    std::vector<PackItem> distribution = sizes();
    distribution.resize(first_circuit_);
    places_ = pack(distribution, area_);
    const std::size_t sheets = sheet_count();
    for (std::size_t i = first_circuit_; i < first_table_; ++i) contents_[i].size.first_page = sheets;
    places_ = pack(sizes(), area_);
  }

  std::size_t sheet_count() const {
    std::size_t last = 0;
    for (const PackedAt& place : places_) last = std::max(last, place.page);
    return last + 1;
  }

  void note_anchors() {
    for (std::size_t i = 0; i < first_table_; ++i) {
      const Block& block = blocks_[*contents_[i].block];
      for (std::size_t edge = 0; edge < block.graph.edges.size(); ++edge)
        if (const auto line = block.line_of_edge[edge])
          line_at_[*line] = {places_[i].page, line_anchor(block, edge, places_[i].at, frame_),
                             source_.figure.lines[*line].id, "line-" + std::to_string(line->value)};
      for (std::size_t box = 0; box < block.boxes.size(); ++box)
        if (const PieceId piece = block.boxes[box].piece; block.boxes[box].kind == BlockBox::Kind::piece)
          piece_at_[piece] = {places_[i].page, box_anchor(block, box, places_[i].at, frame_),
                              source_.plan.items[source_.figure.pieces[piece].item].id,
                              "piece-" + std::to_string(piece.value)};
    }
  }

  template <class Id>
  static const Anchor* find(const std::map<Id, Anchor>& anchors, const std::optional<Id>& id) {
    if (!id) return nullptr;
    const auto found = anchors.find(*id);
    return found == anchors.end() ? nullptr : &found->second;
  }

  Target resolve(const Reference& reference) const {
    std::optional<LineId> line = reference.line;
    std::optional<PieceId> piece = reference.piece;
    if (line && !source_.figure.lines[*line].conductor) {  // what is `on` something is found by itself
      piece = home_of(source_.figure, source_.figure.lines[*line]);
      line.reset();
    }
    const Anchor* anchor = line ? find(line_at_, line) : find(piece_at_, piece);
    if (!anchor) return {};
    const std::string zone = format_.zone(anchor->at);
    return {sheet_count() > 1 ? std::to_string(anchor->sheet + 1) + "/" + zone : zone, anchor->id, anchor->destination};
  }

  template <class Id>
  void add_destinations(Page& page, std::size_t sheet, const std::map<Id, Anchor>& anchors) const {
    for (const auto& [id, anchor] : anchors)
      if (anchor.sheet == sheet) page.items.push_back(Destination{anchor.at, anchor.destination});
  }

  // "circuits F1, F3 to F6": in the order of all circuits.
  std::string sheet_name(std::size_t sheet) const {
    if (sheet_count() == 1) return fields_.sheet_name;
    std::set<std::size_t> groups;
    bool distribution = false;
    for (std::size_t i = 0; i < first_table_; ++i) {
      if (places_[i].page != sheet) continue;
      const std::size_t group = blocks_[*contents_[i].block].group;
      is_distribution(group) ? void(distribution = true) : void(groups.insert(group));
    }
    if (groups.empty()) return fields_.sheet_name + (distribution ? ": distribution" : ": where to find");
    std::string names;
    for (auto first = groups.begin(); first != groups.end();) {
      auto last = first;
      while (std::next(last) != groups.end() && *std::next(last) == *last + 1) ++last;
      names += (names.empty() ? "" : ", ") + source_.figure.groups[*first].id;
      if (first != last) names += (*last == *first + 1 ? ", " : " to ") + source_.figure.groups[*last].id;
      first = std::next(last);
    }
    return fields_.sheet_name + (groups.size() == 1 ? ": circuit " : ": circuits ") + names;
  }

  // Each circuit by name, where it begins.
  void note_in_outline(Page& page, std::size_t number, Point at) {
    const Block& block = blocks_[number];
    if (block.group == 0 || block.continued) return;
    const FigureGroup& group = source_.figure.groups[block.group];
    const std::string destination = "circuit-" + std::to_string(block.group);
    page.items.push_back(Destination{at, destination});
    sheets_.outline.push_back({group.title.empty() ? group.id : group.id + " " + group.title, destination, 1});
  }

  void draw() {
    const Resolve resolver = [&](const Reference& reference) { return resolve(reference); };
    for (std::size_t sheet = 0; sheet < sheet_count(); ++sheet) {
      Page page = blank_page(format_, "diagram-" + std::to_string(sheet + 1));
      PlacedSheet placed;
      placed.width_mm = page.width_mm;
      placed.height_mm = page.height_mm;
      TitleFields fields = fields_;
      fields.sheet_name = sheet_name(sheet);
      draw_frame(page, format_, fields, static_cast<int>(sheet + 1), static_cast<int>(sheet_count()), source_.type);
      const std::string destination = "diagram-" + std::to_string(sheet + 1);
      page.items.push_back(Destination{{format_.inner().x, format_.inner().y}, destination});
      sheets_.outline.push_back({fields.sheet_name, destination, 0});
      add_destinations(page, sheet, line_at_);
      add_destinations(page, sheet, piece_at_);
      DiagramPage drawing(page, placed, source_.type);
      for (std::size_t i = 0; i < contents_.size(); ++i) {
        if (places_[i].page != sheet) continue;
        if (contents_[i].block) note_in_outline(page, *contents_[i].block, places_[i].at);
        if (contents_[i].block)
          draw_block(drawing, blocks_[*contents_[i].block], places_[i].at, source_, frame_, resolver);
        else
          draw_table(drawing, tables_[*contents_[i].table], places_[i].at, resolver);
      }
      sheets_.pages.push_back(std::move(page));
      sheets_.placement.push_back(std::move(placed));
    }
  }

  const BlockSource& source_;
  const SheetFormat& format_;
  const TitleFields& fields_;
  TableSource tables_from_;
  BlockFrame frame_;
  PackArea area_;
  std::vector<Block> blocks_;
  std::vector<TableBlock> tables_;
  std::vector<Content> contents_;
  std::vector<PackedAt> places_;
  std::size_t first_circuit_ = 0, first_table_ = 0;
  std::map<LineId, Anchor> line_at_;
  std::map<PieceId, Anchor> piece_at_;
  DiagramSheets sheets_;
};

}  // namespace

DiagramSheets draw_diagram(const Plan& plan, const Routes& routes, const Circuit& circuit, const Study& study,
                           const Stock&, const TemplateFolders& folders, const SheetFormat& format,
                           const TitleFields& fields, const TextMeasure& type) {
  DiagramSheets sheets;
  Loaded<LoadWords> words = load_words(folders);
  sheets.template_errors = words.errors;
  if (!sheets.template_errors.empty()) return sheets;
  const WiringFigure figure = make_figure(plan, routes, circuit, study, words.value);
  const Loading loading = load_symbols(folders, figure);
  if (!loading.errors.empty()) {
    sheets.template_errors = loading.errors;
    return sheets;
  }
  const BlockSource source{figure, plan, loading.symbols, type};
  return DiagramMaker(source, routes, circuit, study, format, fields).run();
}

}  // namespace loomleaf
