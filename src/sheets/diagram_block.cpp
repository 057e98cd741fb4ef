#include "diagram_block.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "diagram_graph.h"

namespace loomleaf {
namespace {

constexpr std::size_t kMostPieces = 60;            // placed at once
constexpr std::size_t kMostLinesAtHome = 12;       // of one piece; what it has more is drawn at the other end
constexpr double kNarrowerTexts[] = {27.0, 22.0};  // mm

// Cuts the figure until every block fits.
class BlockMaker {
 public:
  BlockMaker(const BlockSource& source, const BlockLimits& limits)
      : source_(source),
        limits_(limits),
        member_(source.figure.pieces.size(), -1),
        lines_of_(source.figure.pieces.size()) {
    for (LineId id : source_.figure.lines.ids()) {
      const FigureLine& line = source_.figure.lines[id];
      lines_of_[line.left.piece.value].push_back(id);
      if (line.right.piece != line.left.piece) lines_of_[line.right.piece.value].push_back(id);
    }
  }

  std::vector<Block> run() {
    std::vector<std::vector<PieceId>> groups(source_.figure.groups.size());
    for (PieceId id : source_.figure.pieces.ids())
      if (!only_repeated(id)) groups[source_.figure.pieces[id].group].push_back(id);
    for (std::size_t group = 0; group < groups.size(); ++group) {
      for (PieceId id : groups[group]) member_[id] = -2 - static_cast<int>(group);
      for (auto& part : connected(groups[group])) cut(group, std::move(part));
    }
    std::vector<Block> blocks;
    std::set<std::size_t> begun;
    for (std::size_t number = 0; number < parts_.size(); ++number) {
      Block block = make(number);
      block.continued = !begun.insert(block.group).second;
      blocks.push_back(std::move(block));
    }
    return blocks;
  }

 private:
  struct Part {
    std::size_t group;
    std::vector<PieceId> pieces;
    double text_width;
  };

  // Metalwork to which all lines are drawn elsewhere needs no place of its own.
  bool only_repeated(PieceId id) const {
    if (!source_.plan.items[source_.figure.pieces[id].item].is<Chassis>()) return false;
    return !lines_of_[id.value].empty();
  }

  // Lines that are drawn from piece to piece.
  bool joins(const FigureLine& line) const { return !line.left_repeated && !line.right_repeated; }

  // Pieces that hang together, each part in the order of its first piece.
  std::vector<std::vector<PieceId>> connected(std::vector<PieceId> pieces) const {
    std::sort(pieces.begin(), pieces.end(),
              [&](PieceId a, PieceId b) { return source_.figure.pieces[a].order < source_.figure.pieces[b].order; });
    const std::set<PieceId> among(pieces.begin(), pieces.end());
    std::set<PieceId> met;
    std::vector<std::vector<PieceId>> parts;
    for (PieceId first : pieces) {
      if (!met.insert(first).second) continue;
      parts.emplace_back();
      std::vector<PieceId> stack{first};
      while (!stack.empty()) {
        const PieceId at = stack.back();
        stack.pop_back();
        parts.back().push_back(at);
        const auto& lines = lines_of_[at.value];
        for (auto line = lines.rbegin(); line != lines.rend(); ++line) {
          const FigureLine& l = source_.figure.lines[*line];
          if (!joins(l)) continue;
          const PieceId other = l.left.piece == at ? l.right.piece : l.left.piece;
          if (among.count(other) > 0 && met.insert(other).second) stack.push_back(other);
        }
      }
    }
    return parts;
  }

  int take(std::size_t group, const std::vector<PieceId>& pieces) {
    const int number = static_cast<int>(parts_.size());
    for (PieceId id : pieces) member_[id] = number;
    parts_.push_back({group, pieces, source_.text_width});
    return number;
  }

  Block make(std::size_t number) const {
    Block block;
    block.group = parts_[number].group;
    block.pieces = parts_[number].pieces;
    std::sort(block.pieces.begin(), block.pieces.end(),
              [&](PieceId a, PieceId b) { return source_.figure.pieces[a].order < source_.figure.pieces[b].order; });
    BlockSource source = source_;
    source.text_width = parts_[number].text_width;
    make_graph(source, member_, lines_of_, block);
    block.placement = place_layered(block.graph);
    return block;
  }

  bool fits(const Block& block) const {
    return block.placement.width <= limits_.width && block.placement.height <= limits_.height;
  }

  // With narrower texts, where that makes it fit.
  bool fits_when_narrower(std::size_t number) {
    for (const double width : kNarrowerTexts) {
      parts_[number].text_width = width;
      if (fits(make(number))) return true;
    }
    parts_[number].text_width = source_.text_width;
    return false;
  }

  // Places what hangs together; what sticks out to the right or below goes to blocks of its own.
  void cut(std::size_t group, std::vector<PieceId> pieces) {
    std::vector<PieceId> rest;
    if (pieces.size() > kMostPieces) {
      rest.assign(pieces.begin() + static_cast<std::ptrdiff_t>(kMostPieces), pieces.end());
      pieces.resize(kMostPieces);
    }
    const auto number = static_cast<std::size_t>(take(group, pieces));
    for (PieceId id : rest) member_[id] = -1;
    while (parts_[number].pieces.size() > 1) {
      const Block block = make(number);
      if (fits(block) || fits_when_narrower(number)) break;
      std::vector<PieceId> out = sticking_out(block);
      if (out.empty()) break;
      std::vector<PieceId>& kept = parts_[number].pieces;
      for (PieceId id : out) {
        member_[id] = -1;
        kept.erase(std::find(kept.begin(), kept.end(), id));
      }
      rest.insert(rest.begin(), out.begin(), out.end());
    }
    for (auto& part : connected(rest)) cut(group, std::move(part));
  }

  // The pieces beyond the limits, never all of them; where only texts stick out, the last piece.
  std::vector<PieceId> sticking_out(const Block& block) const {
    std::vector<PieceId> out;
    for (std::size_t box = 0; box < block.boxes.size(); ++box) {
      if (block.boxes[box].kind != BlockBox::Kind::piece) continue;
      const LayoutBox& size = block.graph.boxes[box];
      const Point at = block.placement.boxes[box];
      const auto& bar = block.placement.bars[box];
      const double bottom = bar ? bar->top + 1.0 : at.y + size.below;
      if (at.x + size.width > limits_.width || bottom > limits_.height) out.push_back(block.boxes[box].piece);
    }
    if (out.empty()) out.push_back(block.pieces.back());
    if (out.size() == block.pieces.size()) out.erase(std::find(out.begin(), out.end(), block.pieces.front()));
    return out;
  }

  const BlockSource& source_;
  const BlockLimits& limits_;
  Membership member_;
  std::vector<std::vector<LineId>> lines_of_;
  std::vector<Part> parts_;
};

}  // namespace

PieceId home_of(const WiringFigure& figure, const FigureLine& line) {
  if (line.left_repeated) return line.right.piece;
  if (line.right_repeated) return line.left.piece;
  // What is `on` a bus has a piece of it beside it.
  const bool left_is_bar = figure.pieces[line.left.piece].form == PieceForm::bar;
  const bool right_is_bar = figure.pieces[line.right.piece].form == PieceForm::bar;
  if (!line.conductor && left_is_bar != right_is_bar) return left_is_bar ? line.right.piece : line.left.piece;
  const bool right_first = figure.pieces[line.right.piece].group == line.group;
  const PieceId home = right_first ? line.right.piece : line.left.piece;
  const PieceId other = right_first ? line.left.piece : line.right.piece;
  const bool is_crowded = figure.pieces[home].lines > kMostLinesAtHome;
  return is_crowded && figure.pieces[other].lines < figure.pieces[home].lines ? other : home;
}

double line_width(const Plan& plan, const FigureLine& line) {
  if (!line.conductor) return 0.5;
  const Run& run = plan.runs[plan.conductors[*line.conductor].run];
  const double area = run.size ? nominal_area(*run.size).in(square_millimetres) : 0.5;
  return std::clamp(0.2 + 0.17 * std::sqrt(area), 0.3, 1.5);
}

double text_height(const TextMeasure& type, TextStyle style) { return type.ascent(style) + type.descent(style); }

std::vector<Block> make_blocks(const BlockSource& source, const BlockLimits& limits) {
  return BlockMaker(source, limits).run();
}

}  // namespace loomleaf
