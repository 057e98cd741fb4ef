#include "diagram_tables.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "loomleaf/takeoff/fuse_schedule.h"
#include "loomleaf/type/wrap.h"
#include "loomleaf/units/format.h"

namespace loomleaf {
namespace {

constexpr TextStyle kHeading{3.0, true};
constexpr double kColumnGap = 3.0;
constexpr const char* kWidestZone = "88/H8";
constexpr double kIndexWidth = 130.0;
constexpr double kLegendScale = 0.6;

// A cell of a table before it has a place.
struct Entry {
  std::string text;
  TextStyle style = kSmallText;
  std::optional<Reference> reference = std::nullopt;
};

double width_of(const TextMeasure& type, const Entry& entry) {
  return type.width(entry.reference ? kWidestZone : entry.text, entry.style);
}

class TableMaker {
 public:
  explicit TableMaker(const TextMeasure& type) : type_(type) {}

  double row_height() const { return text_height(type_, kLargeText) + 0.6; }
  double heading_height() const { return text_height(type_, kHeading) + 1.0; }

  void heading(TableBlock& table, const std::string& text) const {
    put(table, {0.0, type_.ascent(kHeading)}, {text, kHeading, std::nullopt});
    table.height = heading_height();
  }

  void put(TableBlock& table, Point at, const Entry& entry) const {
    table.cells.push_back({at, entry.text, entry.style, entry.reference});
    table.width = std::max(table.width, at.x + width_of(type_, entry));
  }

  // Rows of entries below what the table holds; each column is as wide as its widest entry.
  void rows(TableBlock& table, const std::vector<std::vector<Entry>>& rows, bool ruled) const {
    std::vector<double> left{0.0};
    for (std::size_t column = 0; !rows.empty() && column < rows.front().size(); ++column) {
      double width = 0.0;
      for (const auto& row : rows) width = std::max(width, width_of(type_, row[column]));
      left.push_back(left.back() + width + kColumnGap);
    }
    for (const auto& row : rows) {
      for (std::size_t column = 0; column < row.size(); ++column)
        if (!row[column].text.empty() || row[column].reference)
          put(table, {left[column], table.height + type_.ascent(kLargeText)}, row[column]);
      table.height += row_height();
      if (ruled) table.rules.push_back({{0.0, table.height - 0.3}, {left.back() - kColumnGap, table.height - 0.3}});
    }
    table.width = std::max(table.width, left.back() - kColumnGap);
  }

 private:
  const TextMeasure& type_;
};

std::size_t rows_that_fit(const TableMaker& maker, double height) {
  return static_cast<std::size_t>(std::max(1.0, std::floor((height - maker.heading_height()) / maker.row_height())));
}

std::vector<ItemId> sorted_items(const Plan& plan) {
  std::vector<ItemId> items;
  for (ItemId id : plan.items.ids()) items.push_back(id);
  std::sort(items.begin(), items.end(),
            [&](ItemId a, ItemId b) { return natural_less(plan.items[a].id, plan.items[b].id); });
  return items;
}

std::map<ItemId, PieceId> first_pieces(const WiringFigure& figure) {
  std::map<ItemId, PieceId> pieces;
  for (PieceId id : figure.pieces.ids()) pieces.emplace(figure.pieces[id].item, id);
  return pieces;
}

}  // namespace

std::vector<TableBlock> fuse_schedule(const TableSource& source) {
  const Plan& plan = source.blocks.plan;
  const TableMaker maker(source.blocks.type);
  const auto pieces = first_pieces(source.blocks.figure);
  std::map<std::string, FuseRow> fuses;  // the same figures as on the fuse card, whose colours have no place here
  for (FuseRow& row : list_fuses(plan, source.circuit, source.study, {})) fuses.emplace(row.id, std::move(row));
  const auto known = [](const std::string& text) { return text.empty() ? std::string("-") : text; };
  std::vector<std::vector<Entry>> rows;
  for (ItemId id : sorted_items(plan)) {
    const Item& item = plan.items[id];
    if (!item.is<Device>()) continue;
    const FuseRow& fuse = fuses.at(item.id);
    rows.push_back({{item.id, kLargeText},
                    {fuse.rating, kLargeText},
                    {fuse.family, kSmallText},
                    {source.blocks.type.fitted(fuse.feeds, kSmallText, 40.0), kSmallText},
                    {known(fuse.wire), kSmallText},
                    {known(fuse.current), kSmallText},
                    {"", kSmallText, Reference{pieces.at(id), std::nullopt}}});
  }
  std::vector<TableBlock> tables;
  const std::size_t at_once = rows_that_fit(maker, source.limits.height) - 1;
  for (std::size_t first = 0; first < rows.size(); first += at_once) {
    TableBlock table;
    maker.heading(table, "Fuses and breakers");
    std::vector<std::vector<Entry>> part{{{"", {}},
                                          {"rating", kSmallText},
                                          {"family", kSmallText},
                                          {"protects", kSmallText},
                                          {"thinnest wire", kSmallText},
                                          {"works at", kSmallText},
                                          {"zone", kSmallText}}};
    part.insert(part.end(), rows.begin() + static_cast<std::ptrdiff_t>(first),
                rows.begin() + static_cast<std::ptrdiff_t>(std::min(rows.size(), first + at_once)));
    maker.rows(table, part, true);
    tables.push_back(std::move(table));
  }
  return tables;
}

namespace {

// Entries of a few cells each, read down one column after the other.
std::vector<TableBlock> index_tables(const TableSource& source, const std::string& heading,
                                     const std::vector<std::vector<Entry>>& entries) {
  const TextMeasure& type = source.blocks.type;
  const TableMaker maker(type);
  if (entries.empty()) return {};
  const std::size_t cells = entries.front().size();
  double column = 0.0;
  for (std::size_t cell = 0; cell < cells; ++cell) {
    double width = 0.0;
    for (const auto& entry : entries) width = std::max(width, width_of(type, entry[cell]));
    column += width + kColumnGap;
  }
  const auto columns =
      static_cast<std::size_t>(std::max(1.0, std::floor(std::min(source.limits.width, kIndexWidth) / column)));
  const std::size_t at_once = rows_that_fit(maker, source.limits.height) * columns;
  std::vector<TableBlock> tables;
  for (std::size_t first = 0; first < entries.size(); first += at_once) {
    const std::size_t count = std::min(entries.size() - first, at_once);
    const std::size_t height = (count + columns - 1) / columns;
    std::vector<std::vector<Entry>> rows(height);
    for (std::size_t i = 0; i < (count + height - 1) / height * height; ++i) {
      const std::vector<Entry> entry = i < count ? entries[first + i] : std::vector<Entry>(cells);
      rows[i % height].insert(rows[i % height].end(), entry.begin(), entry.end());
    }
    TableBlock table;
    maker.heading(table, heading);
    maker.rows(table, rows, false);
    tables.push_back(std::move(table));
  }
  return tables;
}

}  // namespace

std::vector<TableBlock> where_to_find_wires(const TableSource& source) {
  const WiringFigure& figure = source.blocks.figure;
  const Plan& plan = source.blocks.plan;
  std::map<RunId, LineId> first_line;
  for (LineId id : figure.lines.ids())
    if (figure.lines[id].conductor) first_line.emplace(plan.conductors[*figure.lines[id].conductor].run, id);
  std::vector<std::pair<RunId, LineId>> runs(first_line.begin(), first_line.end());
  std::sort(runs.begin(), runs.end(), [](const auto& a, const auto& b) { return a.second < b.second; });
  std::vector<std::vector<Entry>> entries;
  for (const auto& [run, line] : runs)
    entries.push_back({{plan.runs[run].id, kLargeText}, {"", kSmallText, Reference{std::nullopt, line}}});
  return index_tables(source, "Where to find each wire", entries);
}

// Fuses have a table of their own; metalwork stands wherever something is joined to it.
std::vector<TableBlock> where_to_find_items(const TableSource& source) {
  const WiringFigure& figure = source.blocks.figure;
  const Plan& plan = source.blocks.plan;
  const auto pieces = first_pieces(figure);
  std::vector<std::vector<Entry>> entries;
  for (ItemId id : sorted_items(plan)) {
    const Item& item = plan.items[id];
    if (item.is<Device>() || item.is<Chassis>()) continue;
    const PieceId piece = pieces.at(id);
    entries.push_back({{item.id, kLargeText},
                       {figure.groups[figure.pieces[piece].group].id, kSmallText},
                       {"", kSmallText, Reference{piece, std::nullopt}}});
  }
  return index_tables(source, "Where to find each item, and its fuse", entries);
}

std::vector<TableBlock> behind_covers(const TableSource& source) {
  const Plan& plan = source.blocks.plan;
  const TextMeasure& type = source.blocks.type;
  std::vector<PlaceId> places;
  for (PlaceId id : plan.places.ids())
    if (!plan.places[id].cover.empty()) places.push_back(id);
  std::sort(places.begin(), places.end(),
            [&](PlaceId a, PlaceId b) { return natural_less(plan.places[a].id, plan.places[b].id); });
  const double width = std::min(source.limits.width, 90.0), step = text_height(type, kSmallText);
  TableMaker maker(type);
  std::vector<TableBlock> tables;
  for (PlaceId id : places) {
    const Place& place = plan.places[id];
    std::vector<std::string> names;
    for (RunId run : plan.runs.ids()) {
      if (run.value >= source.routes.runs.size()) continue;
      const auto& touched = source.routes.runs[run].places;
      if (std::find(touched.begin(), touched.end(), id) != touched.end()) names.push_back(plan.runs[run].id);
    }
    std::sort(names.begin(), names.end(), natural_less);
    std::vector<std::string> items;
    for (ItemId item : sorted_items(plan))
      if (plan.items[item].standing && plan.items[item].standing->place == id) items.push_back(plan.items[item].id);
    names.insert(names.end(), items.begin(), items.end());
    if (names.empty()) continue;
    std::string list;
    for (const std::string& name : names) list += (list.empty() ? "" : " ") + name;
    TableBlock table;
    const std::string title = "Behind \"" + place.cover + "\"" + (place.removable ? "" : ", a fixed cover");
    maker.put(table, {0.0, type.ascent(kLargeText)}, {type.fitted(title, kLargeText, width), kLargeText});
    table.height = text_height(type, kLargeText) + 0.4;
    for (const std::string& part : wrapped(type, list, kSmallText, width, 40)) {
      maker.put(table, {0.0, table.height + type.ascent(kSmallText)}, {part, kSmallText});
      table.height += step;
    }
    tables.push_back(std::move(table));
  }
  return tables;
}

std::vector<TableBlock> legend(const TableSource& source) {
  const WiringFigure& figure = source.blocks.figure;
  const TextMeasure& type = source.blocks.type;
  std::set<std::string> used;
  bool later = false, cables = false;
  for (const Piece& piece : figure.pieces) {
    used.insert(piece.symbol);
    later = later || piece.later;
  }
  std::set<Colour> colours;
  for (const FigureLine& line : figure.lines) {
    later = later || line.later;
    cables = cables || line.cable.has_value();
    if (!line.conductor) continue;
    if (const auto& colour = source.blocks.plan.conductors[*line.conductor].colour) {
      colours.insert(colour->base);
      if (colour->tracer) colours.insert(*colour->tracer);
    }
  }
  std::vector<const Symbol*> symbols;
  for (const std::string& name : used) symbols.push_back(&source.blocks.symbols.at(name));
  std::stable_sort(symbols.begin(), symbols.end(),
                   [](const Symbol* a, const Symbol* b) { return a->box.h < b->box.h; });

  TableMaker maker(type);
  TableBlock table;
  maker.heading(table, "Signs");
  constexpr double column = 42.0, text_left = 11.0;
  const auto columns = static_cast<std::size_t>(std::clamp(std::floor(source.limits.width / column), 1.0, 3.0));
  for (std::size_t first = 0; first < symbols.size(); first += columns) {
    double height = 3.4;
    const std::size_t end = std::min(symbols.size(), first + columns);
    for (std::size_t i = first; i < end; ++i) height = std::max(height, symbols[i]->box.h * kLegendScale);
    for (std::size_t i = first; i < end; ++i) {
      const Box& box = symbols[i]->box;
      const double x = static_cast<double>(i - first) * column, middle = table.height + height / 2.0;
      table.symbols.push_back({{x + text_left / 2.0 - 0.5 - (box.x + box.w / 2.0) * kLegendScale,
                                middle - (box.y + box.h / 2.0) * kLegendScale},
                               symbols[i]});
      maker.put(table, {x + text_left, middle + kSmallText.cap_mm / 2.0},
                {type.fitted(symbols[i]->title, kSmallText, column - text_left - 1.0), kSmallText});
    }
    table.height += height + 0.9;
  }
  std::string codes;
  for (Colour colour : colours)
    codes += (codes.empty() ? "" : "   ") + std::string(code_of(colour)) + " " + std::string(name_of(colour));
  std::vector<std::string> notes;
  if (!codes.empty()) notes.push_back("Colours: " + codes);
  notes.emplace_back("Lines that meet at a dot are joined; lines that cross without one are not.");
  notes.emplace_back(
      "C4 is the zone, 2/C4 the zone on sheet 2. A bar or small circle with a name is the item that stands in the zone "
      "beside it.");
  if (cables) notes.emplace_back("A ring ties the cores of one cable.");
  if (later) notes.emplace_back("Dashed: planned for later, not fitted.");
  const double width = static_cast<double>(columns) * column;
  for (const std::string& note : notes)
    for (const std::string& part : wrapped(type, note, kSmallText, width, 4)) {
      maker.put(table, {0.0, table.height + type.ascent(kSmallText)}, {part, kSmallText});
      table.height += text_height(type, kSmallText);
    }
  return {table};
}

void draw_table(DiagramPage& page, const TableBlock& table, Point corner, const Resolve& resolve) {
  for (const TableRule& rule : table.rules)
    page.add(line({corner.x + rule.from.x, corner.y + rule.from.y}, {corner.x + rule.to.x, corner.y + rule.to.y},
                  {0.15, {}, {}, false}));
  for (const TableSymbol& symbol : table.symbols)
    page.symbol(*symbol.symbol, {corner.x + symbol.at.x, corner.y + symbol.at.y}, {false, 1, 1, false, kLegendScale});
  for (const TableCell& cell : table.cells) {
    const Point at{corner.x + cell.at.x, corner.y + cell.at.y};
    if (cell.reference)
      page.reference(at, resolve(*cell.reference), cell.style, "");
    else
      page.text(at, cell.text, cell.style, "");
  }
}

}  // namespace loomleaf
