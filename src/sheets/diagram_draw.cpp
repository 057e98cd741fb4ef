#include "diagram_draw.h"

#include <algorithm>
#include <cmath>

#include "diagram_tag.h"
#include "diagram_wire.h"

namespace loomleaf {
namespace {

constexpr double kBusWidth = 1.4, kBusOver = 2.2, kDot = 0.7, kLink = 0.5;
constexpr double kRingHalfWidth = 0.9, kRingOver = 1.3;
const Stroke kRingStroke{0.25, {}, {}, false};
const Stroke kFrameStroke{0.25, {}, {3.0, 1.5}, false};
const Stroke kTieStroke{0.2, {}, {0.5, 0.7}, false};

// An upright ellipse; 0.5523 makes a quarter of it from one curve.
PathShape ellipse(Point centre, double half_width, double half_height, Stroke stroke) {
  using Kind = PathShape::Segment::Kind;
  const double k = 0.5523;
  const auto at = [&](double x, double y) { return Point{centre.x + x * half_width, centre.y + y * half_height}; };
  PathShape path;
  path.segments = {{Kind::move, {}, {}, at(0, -1)},
                   {Kind::curve, at(k, -1), at(1, -k), at(1, 0)},
                   {Kind::curve, at(1, k), at(k, 1), at(0, 1)},
                   {Kind::curve, at(-k, 1), at(-1, k), at(-1, 0)},
                   {Kind::curve, at(-1, -k), at(-k, -1), at(0, -1)},
                   {Kind::close, {}, {}, at(0, -1)}};
  path.stroke = stroke;
  return path;
}

int rows_of(const Piece& piece) {
  int rows = 1;
  for (const PieceTerminal& terminal : piece.terminals) rows = std::max(rows, terminal.row + 1);
  return rows;
}

class BlockDrawing {
 public:
  BlockDrawing(DiagramPage& page, const Block& block, Point origin, const BlockSource& source, const Resolve& resolve)
      : page_(page), block_(block), origin_(origin), source_(source), resolve_(resolve) {}

  void run() {
    draw_wires();
    for (const PlacedTie& tie : block_.placement.ties) draw_tie(tie);
    for (std::size_t box = 0; box < block_.boxes.size(); ++box) draw_box(box);
    for (std::size_t edge = 0; edge < block_.graph.edges.size(); ++edge) draw_tag(edge);
  }

 private:
  Point moved(Point p) const { return {p.x + origin_.x, p.y + origin_.y}; }
  const Piece& piece_of(const BlockBox& box) const { return source_.figure.pieces[box.piece]; }
  const std::string& id_of(const BlockBox& box) const { return source_.plan.items[piece_of(box).item].id; }

  // "C1.red, F1 to D1, 16 AWG RD 2.7 m"
  std::string title_of(const FigureLine& line) const {
    const WiringFigure& figure = source_.figure;
    std::string title = line.id + ", " + figure.pieces[line.left.piece].short_name + " to " +
                        figure.pieces[line.right.piece].short_name;
    for (const std::string* part : {&line.details, &line.code})
      if (!part->empty()) title += (part == &line.details || line.details.empty() ? ", " : " ") + *part;
    return title;
  }

  // "F1, 5 A, Reading lamps left, blade"
  static std::string title_of(const Piece& piece) {
    std::string title;
    for (const FigureText& text : piece.texts) title += (title.empty() ? "" : ", ") + text.text;
    return title;
  }

  void draw_wires() {
    for (std::size_t edge = 0; edge < block_.graph.edges.size(); ++edge) {
      std::vector<Point> points;
      for (Point p : block_.placement.edges[edge].points) points.push_back(moved(p));
      const auto line_id = block_.line_of_edge[edge];
      if (!line_id || !source_.figure.lines[*line_id].conductor) {
        const bool later = line_id && source_.figure.lines[*line_id].later;
        page_.add(polyline(points, {kLink, {}, later ? std::vector<double>{1.5, 1.0} : std::vector<double>{}, false}));
        continue;
      }
      const FigureLine& line = source_.figure.lines[*line_id];
      page_.add(GroupBegin{line.id, title_of(line)});
      double width = 0.0;
      for (PathShape& shape : wire_shapes(points, source_.plan.conductors[*line.conductor].colour,
                                          line_width(source_.plan, line), line.later)) {
        width = std::max(width, shape.stroke->width_mm);
        page_.add(std::move(shape));
      }
      page_.add(GroupEnd{});
      page_.wire(line.id, points, width);
    }
  }

  // A core that a ring ties to the one that carries its cable's name need not repeat it.
  void draw_tag(std::size_t edge) {
    const auto& tag = block_.placement.edges[edge].tag;
    if (!tag || !block_.line_of_edge[edge]) return;
    const FigureLine& line = source_.figure.lines[*block_.line_of_edge[edge]];
    for (const BlockText& text : tag_of(source_, line, !is_tied_below_its_first(edge)).texts)
      page_.text(moved({tag->x + text.at.x, tag->y + text.at.y}), text.text, text.style, line.id);
  }

  bool is_tied_below_its_first(std::size_t edge) const {
    const FigureLine& line = source_.figure.lines[*block_.line_of_edge[edge]];
    if (!line.cable || !line.details.empty() || line.code.empty()) return false;
    const auto is_of_cable = [&](const PlacedTie& tie) { return tie.bundle == static_cast<int>(line.cable->value); };
    const auto& ties = block_.placement.ties;
    return std::any_of(ties.begin(), ties.end(), is_of_cable) &&
           std::all_of(ties.begin(), ties.end(), [&](const PlacedTie& tie) {
             return !is_of_cable(tie) || (tie.heights.size() == 2 && tie.neighbours.front());
           });
  }

  // One ring round cores that run next to each other; a dotted tie where something else passes between.
  void draw_tie(const PlacedTie& tie) {
    std::size_t first = 0;
    for (std::size_t i = 0; i < tie.heights.size(); ++i) {
      if (i + 1 < tie.heights.size() && tie.neighbours[i]) continue;
      const double top = tie.heights[first] - kRingOver, bottom = tie.heights[i] + kRingOver;
      page_.add(ellipse(moved({tie.x, (top + bottom) / 2.0}), kRingHalfWidth, (bottom - top) / 2.0, kRingStroke));
      if (i + 1 < tie.heights.size())
        page_.add(line(moved({tie.x, bottom}), moved({tie.x, tie.heights[i + 1] - kRingOver}), kTieStroke));
      first = i + 1;
    }
  }

  void draw_box(std::size_t index) {
    const BlockBox& box = block_.boxes[index];
    const Point at = moved(block_.placement.boxes[index]);
    if (block_.placement.bars[index])
      draw_bar(index);
    else if (box.symbol)
      draw_symbol(index, at);
    else if (box.kind == BlockBox::Kind::references)
      draw_bracket(index, at);
    for (const BlockText& text : box.texts) {
      const Point where{at.x + text.at.x, at.y + text.at.y};
      if (text.reference)
        page_.reference(where, resolve_(*text.reference), text.style, id_of(box));
      else
        page_.text(where, text.text, text.style, id_of(box));
    }
  }

  // Along a list of references, so that its line is not read as that of the one it ends beside.
  void draw_bracket(std::size_t index, Point at) {
    constexpr double inset = 0.8;
    const LayoutBox& size = block_.graph.boxes[index];
    const double x = at.x + size.ports.front().x;
    if (size.above + size.below > 2.0 * text_height(source_.type, kLargeText))
      page_.add(line({x, at.y - size.above + inset}, {x, at.y + size.below - inset}, kRingStroke));
  }

  void draw_symbol(std::size_t index, Point at) {
    const BlockBox& box = block_.boxes[index];
    const Piece& piece = piece_of(box);
    const bool whole = box.kind == BlockBox::Kind::piece;
    const Point origin{at.x + box.symbol_at.x, at.y};
    const int rows = whole ? rows_of(piece) : 1;
    const bool repeated_rows = piece.form == PieceForm::along || piece.form == PieceForm::selector;
    const Switch* contact = source_.plan.items[piece.item].as<Switch>();
    page_.add(GroupBegin{id_of(box), title_of(piece)});
    page_.symbol(*box.symbol, origin,
                 {whole && piece.turned, repeated_rows ? rows : 1, contact ? contact->drawn.way : 1, piece.later, 1.0});
    page_.add(GroupEnd{});
    Box placed{origin.x + box.symbol->box.x, origin.y + box.symbol->box.y, box.symbol->box.w, box.symbol->box.h};
    if (repeated_rows && whole) placed.h += (rows - 1) * kRailPitch;
    page_.item(id_of(box), placed);
    if (whole) draw_through_dots(index, origin);
  }

  // A dot where a line goes on from the terminal at which another ends.
  void draw_through_dots(std::size_t index, Point origin) {
    std::map<std::size_t, int> ends;
    for (const LayoutEdge& edge : block_.graph.edges) {
      if (edge.from == index) ++ends[edge.from_port];
      if (edge.to == index) ++ends[edge.to_port];
    }
    for (const auto& [port, count] : ends) {
      if (count < 2) continue;
      const Point p = block_.graph.boxes[index].ports[port];
      page_.add(
          CircleShape{{origin.x - block_.boxes[index].symbol_at.x + p.x, origin.y + p.y}, kDot, std::nullopt, Paint{}});
    }
  }

  std::vector<double> tap_heights(std::size_t index) const {
    std::vector<double> heights;
    for (std::size_t edge = 0; edge < block_.graph.edges.size(); ++edge) {
      if (block_.graph.edges[edge].from == index) heights.push_back(block_.placement.edges[edge].points.front().y);
      if (block_.graph.edges[edge].to == index) heights.push_back(block_.placement.edges[edge].points.back().y);
    }
    std::sort(heights.begin(), heights.end());
    heights.erase(std::unique(heights.begin(), heights.end()), heights.end());
    if (heights.empty()) heights.push_back(block_.placement.bars[index]->top);
    return heights;
  }

  void draw_bar(std::size_t index) {
    const BlockBox& box = block_.boxes[index];
    const PlacedBar& bar = *block_.placement.bars[index];
    const Point top = moved({bar.x, bar.top}), bottom = moved({bar.x, bar.bottom});
    const std::vector<double> taps = tap_heights(index);
    const bool later = box.kind == BlockBox::Kind::piece && piece_of(box).later;
    std::vector<double> dash;
    if (later) dash = {1.5, 1.0};
    page_.add(GroupBegin{id_of(box), title_of(piece_of(box))});
    if (box.symbol && box.symbol->name == "bus") {
      page_.add(line({top.x, top.y - kBusOver}, {bottom.x, bottom.y + kBusOver}, {kBusWidth, {}, dash, false}));
      page_.item(id_of(box), {top.x - kBusWidth / 2.0, top.y - kBusOver, kBusWidth, bottom.y - top.y + 2.0 * kBusOver});
    } else {
      if (taps.size() > 1) page_.add(line(top, bottom, {kLink, {}, dash, false}));
      const bool dots = !box.symbol || box.symbol->name == "splice" || taps.size() > 1;
      for (double y : taps) {
        const Point dot = moved({bar.x, y});
        if (dots) page_.add(CircleShape{dot, kDot, std::nullopt, Paint{}});
        page_.item(id_of(box), {dot.x - kDot, dot.y - kDot, 2.0 * kDot, 2.0 * kDot});
      }
      if (!dots) page_.symbol(*box.symbol, top, {false, 1, 1, later, 1.0});
    }
    page_.add(GroupEnd{});
  }

  DiagramPage& page_;
  const Block& block_;
  Point origin_;
  const BlockSource& source_;
  const Resolve& resolve_;
};

}  // namespace

void DiagramPage::reference(Point at, const Target& target, TextStyle style, const std::string& of) {
  if (target.zone.empty()) return;
  text(at, target.zone, style, of);
  placed_.texts.back().leads_to = target.id;
  page_.items.push_back(LinkArea{placed_.texts.back().box, target.destination});
}

void DiagramPage::text(Point at, const std::string& text, TextStyle style, const std::string& of) {
  if (text.empty()) return;
  page_.items.push_back(TextRun{at, text, style, TextRun::Anchor::start, {}, 0.0, false});
  placed_.texts.push_back({of,
                           text,
                           {at.x, at.y - type_.ascent(style), type_.width(text, style), text_height(type_, style)},
                           style.cap_mm,
                           ""});
}

void DiagramPage::symbol(const Symbol& symbol, Point origin, const SymbolLook& look) {
  const double mirror = symbol.box.x + symbol.box.right();
  const auto at = [&](Point p, double down) {
    return Point{origin.x + (look.turned ? mirror - p.x : p.x) * look.scale, origin.y + (p.y + down) * look.scale};
  };
  const auto dash = [&](std::optional<Stroke>& stroke) {
    if (look.dashed && stroke) stroke->dash_mm = {0.9, 0.7};
  };
  // `blade_down` moves the end of a contact's blade to the way it is drawn in.
  const auto put = [&](const SymbolPart& part, double down, double blade_down) {
    if (const CircleShape* circle = std::get_if<CircleShape>(&part.shape)) {
      CircleShape shape = *circle;
      shape.centre = at(circle->centre, down);
      shape.radius_mm *= look.scale;
      dash(shape.stroke);
      add(shape);
      return;
    }
    PathShape shape = std::get<PathShape>(part.shape);
    for (auto& segment : shape.segments) {
      const bool last = &segment == &shape.segments.back();
      segment.p1 = at(segment.p1, down);
      segment.p2 = at(segment.p2, down);
      segment.to = at(segment.to, down + (last ? blade_down : 0.0));
    }
    dash(shape.stroke);
    add(std::move(shape));
  };
  for (const SymbolPart& part : symbol.parts) {
    const int times = part.kind == SymbolPart::Kind::way ? look.rows : 1;
    const bool blade = part.kind == SymbolPart::Kind::blade;
    const double blade_down = blade ? (std::clamp(look.drawn_way, 1, look.rows) - 1) * kRailPitch : 0.0;
    for (int row = 0; row < times; ++row) put(part, row * kRailPitch, blade_down);
  }
}

std::string block_title(const WiringFigure& figure, const Block& block) {
  std::string title = figure.groups[block.group].title;
  if (block.continued && block.group > 0) title += ", continued";
  return title;
}

void draw_block(DiagramPage& page, const Block& block, Point corner, const BlockSource& source, const BlockFrame& frame,
                const Resolve& resolve) {
  const FigureGroup& group = source.figure.groups[block.group];
  const Box outline{corner.x, corner.y, block.placement.width + 2.0 * frame.side,
                    block.placement.height + frame.above + frame.below};
  page.add(rectangle(outline, kFrameStroke));
  double x = corner.x + 2.0;
  const double y = corner.y + 1.2 + page.type().ascent(kLargeText);
  if (!group.id.empty()) {
    page.text({x, y}, group.id, kLargeText, group.id);
    x += page.type().width(group.id, kLargeText) + 2.0;
  }
  const std::string title =
      page.type().fitted(block_title(source.figure, block), {2.5, false}, outline.right() - 2.0 - x);
  if (!title.empty()) page.text({x, y}, title, {2.5, false}, group.id);
  BlockDrawing(page, block, {corner.x + frame.side, corner.y + frame.above}, source, resolve).run();
}

Point line_anchor(const Block& block, std::size_t edge, Point corner, const BlockFrame& frame) {
  const PlacedEdge& placed = block.placement.edges[edge];
  const Point p = placed.tag ? *placed.tag : placed.points.front();
  return {p.x + corner.x + frame.side, p.y + corner.y + frame.above};
}

Point box_anchor(const Block& block, std::size_t box, Point corner, const BlockFrame& frame) {
  const auto& bar = block.placement.bars[box];
  const Point p = bar ? Point{bar->x, bar->top} : block.placement.boxes[box];
  return {p.x + block.boxes[box].symbol_at.x + corner.x + frame.side, p.y + corner.y + frame.above};
}

}  // namespace loomleaf
