#include "diagram_box.h"

#include <algorithm>

#include "loomleaf/type/wrap.h"

namespace loomleaf {
namespace {

constexpr double kTextGap = 0.9;      // from a text to a symbol or line
constexpr double kJointWidth = 22.0;  // at a joint, whose column would get wide for more
constexpr double kZoneGap = 1.2;
constexpr double kMarkGap = 0.7;  // from a terminal's mark to its line
constexpr const char* kWidestZone = "88/H8";
constexpr std::size_t kReferenceRows = 30;
constexpr std::size_t kWordyColumns = 2;  // where there are more, the names have to do
constexpr double kReferenceWidth = 28.0;  // of what a reference says, at least

struct LabelLine {
  std::string text;
  TextStyle style;
};

// The lines beside a piece: its large texts on one line as far as they go, the others broken.
std::vector<LabelLine> label_lines(const BlockSource& source, const Piece& piece) {
  std::vector<LabelLine> lines;
  const double width = piece.symbol == "splice" ? kJointWidth : source.text_width;
  for (const FigureText& text : piece.texts) {
    if (!text.large) {
      for (const std::string& part : wrapped(source.type, text.text, kSmallText, width, 3))
        lines.push_back({part, kSmallText});
      continue;
    }
    if (!lines.empty() && source.type.width(lines.back().text + "  " + text.text, kLargeText) <= source.text_width)
      lines.back().text += "  " + text.text;
    else
      lines.push_back({text.text, kLargeText});
  }
  return lines;
}

double width_of(const BlockSource& source, const std::vector<LabelLine>& lines) {
  double width = 0.0;
  for (const LabelLine& line : lines) width = std::max(width, source.type.width(line.text, line.style));
  return width;
}

double height_of(const BlockSource& source, const std::vector<LabelLine>& lines) {
  double height = 0.0;
  for (const LabelLine& line : lines) height += text_height(source.type, line.style);
  return height;
}

enum class Align { left, middle, right };

// Writes lines below `top` into a strip of `width` from `left`.
void put_lines(const BlockSource& source, BlockBox& box, const std::vector<LabelLine>& lines, double left, double width,
               double top, Align align) {
  for (const LabelLine& line : lines) {
    const double spare = width - source.type.width(line.text, line.style);
    const double x = left + (align == Align::left ? 0.0 : align == Align::middle ? spare / 2.0 : spare);
    box.texts.push_back({{x, top + source.type.ascent(line.style)}, line.text, line.style, std::nullopt});
    top += text_height(source.type, line.style);
  }
}

int rows_of(const Piece& piece) {
  int rows = 1;
  for (const PieceTerminal& terminal : piece.terminals) rows = std::max(rows, terminal.row + 1);
  return rows;
}

Point port_of(const Piece& piece, const Symbol& symbol, std::size_t terminal) {
  const PieceTerminal& t = piece.terminals[terminal];
  const bool repeats = piece.form == PieceForm::selector || piece.form == PieceForm::along;
  const std::string name = piece.form == PieceForm::selector && t.port != "in" ? "out" : t.port;
  Point at = symbol.ports.at(name);
  if (repeats) at.y += t.row * kRailPitch;
  if (piece.turned) at.x = symbol.box.x + symbol.box.right() - at.x;
  return at;
}

class PieceMeasure {
 public:
  PieceMeasure(const BlockSource& source, PieceId id, bool from_left, bool to_right)
      : source_(source),
        piece_(source.figure.pieces[id]),
        symbol_(source.symbols.at(piece_.symbol)),
        from_left_(from_left),
        to_right_(to_right) {
    made_.box.piece = id;
    made_.box.symbol = &symbol_;
  }

  MeasuredBox run() {
    lines_ = label_lines(source_, piece_);
    if (piece_.form == PieceForm::bar) return bar();
    top_ = symbol_.box.y;
    bottom_ = symbol_.box.bottom() + (piece_.form == PieceForm::selector || piece_.form == PieceForm::along
                                          ? (rows_of(piece_) - 1) * kRailPitch
                                          : 0.0);
    bottom_ = std::max(bottom_, 0.5);
    if (piece_.form == PieceForm::across && !(from_left_ && to_right_))
      beside();
    else
      above_and_below();
    add_marks();
    for (std::size_t i = 0; i < piece_.terminals.size(); ++i) {
      const Point port = port_of(piece_, symbol_, i);
      made_.size.ports.push_back({made_.box.symbol_at.x + port.x, port.y});
    }
    const Item& item = source_.plan.items[piece_.item];
    made_.size.lean = item.is<Source>()  ? LayoutBox::Lean::left
                      : piece_.on_return ? LayoutBox::Lean::right
                                         : LayoutBox::Lean::none;
    return std::move(made_);
  }

 private:
  MeasuredBox bar() {
    made_.size.is_bar = true;
    made_.size.label_below = piece_.on_return;
    const double own = std::max(-symbol_.box.y, symbol_.box.bottom()), label = height_of(source_, lines_);
    made_.size.width = width_of(source_, lines_);
    made_.size.above = made_.size.below = own;
    if (piece_.on_return)
      made_.size.below = own + kTextGap + label;
    else
      made_.size.above = own + kTextGap + label;
    put_lines(source_, made_.box, lines_, 0.0, made_.size.width,
              piece_.on_return ? own + kTextGap : -own - kTextGap - label, Align::left);
    made_.size.ports.push_back({});
    made_.size.lean = piece_.on_return ? LayoutBox::Lean::right : LayoutBox::Lean::none;
    return std::move(made_);
  }

  // At the end of a line: right of what has lines from the left, left of what has lines to the right.
  void beside() {
    const double label = width_of(source_, lines_), height = height_of(source_, lines_);
    const bool left = to_right_;
    made_.size.width = symbol_.box.w + kTextGap + label;
    made_.box.symbol_at.x = (left ? label + kTextGap : 0.0) - symbol_.box.x;
    const double middle = (top_ + bottom_) / 2.0;
    put_lines(source_, made_.box, lines_, left ? 0.0 : symbol_.box.w + kTextGap, label, middle - height / 2.0,
              left ? Align::right : Align::left);
    made_.size.above = std::max(-top_, height / 2.0 - middle);
    made_.size.below = std::max(bottom_, height / 2.0 + middle);
  }

  // What sits in a single rail has all its text on one side of it, so that the other rail of the pair can pass close
  // by.
  void above_and_below() {
    std::vector<LabelLine> above, below;
    for (const LabelLine& line : lines_) {
      const bool single = piece_.form == PieceForm::along || piece_.form == PieceForm::selector;
      const bool goes_below = single ? piece_.on_return : line.style == kSmallText;
      (goes_below ? below : above).push_back(line);
    }
    const double width = std::max({symbol_.box.w, width_of(source_, above), width_of(source_, below)});
    const double above_height = height_of(source_, above), below_height = height_of(source_, below);
    made_.size.width = width;
    made_.box.symbol_at.x = (width - symbol_.box.w) / 2.0 - symbol_.box.x;
    const bool marked = std::any_of(piece_.terminals.begin(), piece_.terminals.end(),
                                    [](const PieceTerminal& t) { return !t.mark.empty(); });
    const double top = marked ? std::min(top_, -kMarkGap - text_height(source_.type, kSmallText)) : top_;
    put_lines(source_, made_.box, above, 0.0, width, top - kTextGap - above_height, Align::middle);
    put_lines(source_, made_.box, below, 0.0, width, bottom_ + kTextGap, Align::middle);
    made_.size.above = above.empty() ? -top : -top + kTextGap + above_height;
    made_.size.below = below.empty() ? bottom_ : bottom_ + kTextGap + below_height;
  }

  // Terminal marks stand outside the symbol, above their line; the box gets wider to hold them.
  void add_marks() {
    const TextMeasure& type = source_.type;
    double left = 0.0, right = 0.0;
    for (std::size_t i = 0; i < piece_.terminals.size(); ++i) {
      const double width = type.width(piece_.terminals[i].mark, kSmallText);
      if (piece_.terminals[i].mark.empty()) continue;
      (is_left(i) ? left : right) = std::max(is_left(i) ? left : right, width + 1.2);
    }
    if (left + right == 0.0) return;
    const double symbol_left = made_.box.symbol_at.x + symbol_.box.x;
    const double spare_left = std::max(0.0, left - symbol_left);
    for (BlockText& text : made_.box.texts) text.at.x += spare_left;
    made_.box.symbol_at.x += spare_left;
    const double symbol_right = made_.box.symbol_at.x + symbol_.box.right();
    made_.size.width = std::max(made_.size.width + spare_left, symbol_right + right);
    for (std::size_t i = 0; i < piece_.terminals.size(); ++i) {
      const std::string& mark = piece_.terminals[i].mark;
      if (mark.empty()) continue;
      const double y = port_of(piece_, symbol_, i).y - kMarkGap - type.descent(kSmallText);
      const double x =
          is_left(i) ? made_.box.symbol_at.x + symbol_.box.x - 0.6 - type.width(mark, kSmallText) : symbol_right + 0.6;
      made_.box.texts.push_back({{x, y}, mark, kSmallText, std::nullopt});
      made_.size.above = std::max(made_.size.above, -(y - type.ascent(kSmallText)));
    }
  }

  bool is_left(std::size_t terminal) const {
    const TerminalSide side = side_of(piece_, terminal);
    return side == TerminalSide::left || (side == TerminalSide::either && (from_left_ || !to_right_));
  }

  const BlockSource& source_;
  const Piece& piece_;
  const Symbol& symbol_;
  bool from_left_, to_right_;
  std::vector<LabelLine> lines_;
  double top_ = 0.0, bottom_ = 0.0;
  MeasuredBox made_;
};

}  // namespace

TerminalSide side_of(const Piece& piece, std::size_t terminal) {
  const TerminalSide side = piece.terminals[terminal].side;
  if (!piece.turned || side == TerminalSide::either) return side;
  return side == TerminalSide::left ? TerminalSide::right : TerminalSide::left;
}

MeasuredBox measure_piece(const BlockSource& source, PieceId id, bool from_left, bool to_right) {
  return PieceMeasure(source, id, from_left, to_right).run();
}

MeasuredBox measure_repeated(const BlockSource& source, PieceId id, std::size_t terminal, bool at_left) {
  const Piece& piece = source.figure.pieces[id];
  const TextMeasure& type = source.type;
  const std::string name =
      piece.form == PieceForm::bar ? piece.short_name : terminal_text(source.plan, *piece.terminals[terminal].terminal);
  const Symbol& symbol =
      source.symbols.at(piece.symbol == "bus" || piece.symbol == "chassis" ? piece.symbol : "terminal");
  const double name_width = type.width(name, kLargeText), zone_width = type.width(kWidestZone, kSmallText);
  const double text = std::max(name_width, zone_width);
  MeasuredBox made;
  made.box.kind = BlockBox::Kind::repeated;
  made.box.piece = id;
  made.box.terminal = terminal;
  made.box.symbol = &symbol;
  made.box.symbol_at.x = at_left ? text + kTextGap - symbol.box.x : -symbol.box.x;
  // The name on one half, its zone below it, both beside the symbol.
  const double text_x = at_left ? 0.0 : symbol.box.w + kTextGap, spare = at_left ? text - name_width : 0.0;
  const double zone_spare = at_left ? text - zone_width : 0.0;
  const double height = text_height(type, kLargeText) + text_height(type, kSmallText);
  const double top = -text_height(type, kLargeText) / 2.0 - 0.6;
  made.box.texts = {{{text_x + spare, top + type.ascent(kLargeText)}, name, kLargeText, std::nullopt},
                    {{text_x + zone_spare, top + text_height(type, kLargeText) + type.ascent(kSmallText)},
                     "",
                     kSmallText,
                     Reference{id, std::nullopt}}};
  made.size.width = text + kTextGap + symbol.box.w;
  made.size.above = std::max(-top, -symbol.box.y);
  made.size.below = std::max(height + top, symbol.box.bottom());
  // A line ends in the middle of a bar, at the edge of a small circle.
  const double edge =
      symbol.name == "terminal" ? (at_left ? symbol.box.right() : symbol.box.x) : symbol.ports.at("node").x;
  made.size.ports = {{made.box.symbol_at.x + edge, 0.0}};
  return made;
}

MeasuredBox measure_references(const BlockSource& source, PieceId id, std::size_t terminal, bool at_left,
                               const std::vector<ReferenceEntry>& entries) {
  const TextMeasure& type = source.type;
  const double pitch = text_height(type, kLargeText), zone_width = type.width(kWidestZone, kSmallText);
  const std::size_t columns = (entries.size() + kReferenceRows - 1) / kReferenceRows;
  const std::size_t rows = (entries.size() + columns - 1) / columns;
  MeasuredBox made;
  made.box.kind = BlockBox::Kind::references;
  made.box.piece = id;
  made.box.terminal = terminal;
  double x = at_left ? 0.0 : 1.0;
  const double top = -pitch * static_cast<double>(rows) / 2.0;
  for (std::size_t first = 0; first < entries.size(); first += rows) {
    double name_width = 0.0, what_width = 0.0;
    const std::size_t end = std::min(entries.size(), first + rows);
    std::vector<std::string> whats;
    for (std::size_t i = first; i < end; ++i) {
      name_width = std::max(name_width, type.width(entries[i].name, kLargeText));
      whats.push_back(columns > kWordyColumns
                          ? ""
                          : type.fitted(entries[i].what, kSmallText, std::max(source.text_width, kReferenceWidth)));
      what_width = std::max(what_width, type.width(whats.back(), kSmallText));
    }
    const double zone_x = x + name_width + kZoneGap;
    const double what_x = name_width > 0.0 ? zone_x + zone_width + kZoneGap : x;
    for (std::size_t i = first; i < end; ++i) {
      const double y = top + pitch * static_cast<double>(i - first) + type.ascent(kLargeText);
      if (!entries[i].name.empty()) made.box.texts.push_back({{x, y}, entries[i].name, kLargeText, std::nullopt});
      if (entries[i].target) made.box.texts.push_back({{zone_x, y}, "", kSmallText, entries[i].target});
      if (!whats[i - first].empty())
        made.box.texts.push_back(
            {{entries[i].name.empty() ? x : what_x, y}, whats[i - first], kSmallText, std::nullopt});
    }
    x = what_width > 0.0 ? what_x + what_width + 3.0 : zone_x + zone_width + 3.0;
  }
  made.size.width = x - 2.0;
  made.size.above = made.size.below = -top;
  made.size.ports = {{at_left ? made.size.width : 0.0, 0.0}};
  return made;
}

}  // namespace loomleaf
