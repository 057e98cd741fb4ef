#include "loomleaf/sheets/diagram_sheets.h"

#include <algorithm>
#include <map>

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
      contents_.push_back({std::nullopt, tables_.size(), {table.width + 2.0, table.height + 1.0, false, true}});
      tables_.push_back(std::move(table));
    }
  }
  void add_blocks(bool distribution) {
    for (std::size_t i = 0; i < blocks_.size(); ++i)
      if ((blocks_[i].group == 0) == distribution)
        contents_.push_back({i,
                             std::nullopt,
                             {blocks_[i].placement.width + 2.0 * frame_.side,
                              blocks_[i].placement.height + frame_.above + frame_.below, false, false}});
  }

  void collect() {
    add_blocks(true);
    first_circuit_ = contents_.size();
    add_blocks(false);
    add_tables(fuse_schedule(tables_from_));
    add_tables(where_to_find(tables_from_));
    add_tables(behind_covers(tables_from_));
    add_tables(legend(tables_from_));
  }

  std::vector<PackItem> sizes() const {
    std::vector<PackItem> items;
    for (const Content& content : contents_) items.push_back(content.size);
    return items;
  }

  // One sheet where all fits; else the distribution has sheets of its own.
  void place() {
    places_ = pack(sizes(), area_);
    if (sheet_count() == 1) return;
    if (first_circuit_ > 0 && first_circuit_ < contents_.size()) contents_[first_circuit_].size.starts_page = true;
    places_ = pack(sizes(), area_);
  }

  std::size_t sheet_count() const {
    std::size_t last = 0;
    for (const PackedAt& place : places_) last = std::max(last, place.page);
    return last + 1;
  }

  void note_anchors() {
    for (std::size_t i = 0; i < contents_.size(); ++i) {
      if (!contents_[i].block) continue;
      const Block& block = blocks_[*contents_[i].block];
      for (std::size_t edge = 0; edge < block.graph.edges.size(); ++edge)
        if (block.line_of_edge[edge])
          line_at_[*block.line_of_edge[edge]] = {places_[i].page, line_anchor(block, edge, places_[i].at, frame_)};
      for (std::size_t box = 0; box < block.boxes.size(); ++box)
        if (block.boxes[box].kind == BlockBox::Kind::piece)
          piece_at_[block.boxes[box].piece] = {places_[i].page, box_anchor(block, box, places_[i].at, frame_)};
    }
  }

  std::string resolve(const Reference& reference) const {
    const Anchor* anchor = nullptr;
    if (reference.line) {
      if (const auto found = line_at_.find(*reference.line); found != line_at_.end()) anchor = &found->second;
    } else if (reference.piece) {
      if (const auto found = piece_at_.find(*reference.piece); found != piece_at_.end()) anchor = &found->second;
    }
    if (!anchor) return "";
    const std::string zone = format_.zone(anchor->at);
    return sheet_count() > 1 ? std::to_string(anchor->sheet + 1) + "/" + zone : zone;
  }

  std::string sheet_name(std::size_t sheet) const {
    if (sheet_count() == 1) return fields_.sheet_name;
    std::string first, last;
    for (std::size_t i = 0; i < contents_.size(); ++i) {
      if (places_[i].page != sheet || !contents_[i].block || blocks_[*contents_[i].block].group == 0) continue;
      const std::string& id = source_.figure.groups[blocks_[*contents_[i].block].group].id;
      if (first.empty()) first = id;
      last = id;
    }
    const bool drawing = std::any_of(contents_.begin(), contents_.end(), [&](const Content& content) {
      return content.block && places_[static_cast<std::size_t>(&content - contents_.data())].page == sheet;
    });
    if (!drawing) return fields_.sheet_name + ": where to find";
    if (first.empty()) return fields_.sheet_name + ": distribution";
    return fields_.sheet_name + ": " + (first == last ? "circuit " + first : "circuits " + first + " to " + last);
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
      DiagramPage drawing(page, placed, source_.type);
      for (std::size_t i = 0; i < contents_.size(); ++i) {
        if (places_[i].page != sheet) continue;
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
  std::size_t first_circuit_ = 0;
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
