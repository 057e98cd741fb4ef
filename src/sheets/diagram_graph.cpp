#include "diagram_graph.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "diagram_box.h"
#include "diagram_tag.h"

namespace loomleaf {
namespace {

// One end of a line at a piece of this block.
struct Meeting {
  std::size_t edge = 0;
  bool arrives = false;  // from the left
};

// Makes the graph of one block.
class GraphMaker {
 public:
  GraphMaker(const BlockSource& source, const Membership& member, const std::vector<std::vector<LineId>>& lines_of,
             Block& block)
      : source_(source), member_(member), lines_of_(lines_of), block_(block) {}

  void run() {
    sort_lines();
    for (PieceId id : block_.pieces)
      for (std::size_t t = 0; t < source_.figure.pieces[id].terminals.size(); ++t) meetings_[{id, t}];
    for (LineId line : own_lines_) add_line(line);
    for (auto& [end, entries] : references_) add_references(end.first, end.second, entries);
    for (PieceId id : block_.pieces) add_piece(id);
    for (std::size_t edge = 0; edge < block_.graph.edges.size(); ++edge) add_tag(edge);
  }

 private:
  using End = std::pair<PieceId, std::size_t>;

  bool is_here(PieceId id) const { return member_[id] == member_[block_.pieces.front()]; }

  // What is drawn here, and for the rest where it goes on.
  void sort_lines() {
    std::set<LineId> seen;
    for (PieceId id : block_.pieces)
      for (LineId line_id : lines_of_[id.value]) {
        const FigureLine& line = source_.figure.lines[line_id];
        if (!seen.insert(line_id).second) continue;
        const bool drawn_here = is_here(home_of(source_.figure, line));
        if (drawn_here) own_lines_.push_back(line_id);
        refer(line_id, line.left, line.left_repeated || !drawn_here);
        refer(line_id, line.right, line.right_repeated || !drawn_here || line.left.piece == line.right.piece);
      }
    std::sort(own_lines_.begin(), own_lines_.end());
  }

  void refer(LineId id, const LineEnd& end, bool elsewhere) {
    const FigureLine& line = source_.figure.lines[id];
    if (!elsewhere || !is_here(end.piece) || source_.plan.items[source_.figure.pieces[end.piece].item].is<Chassis>())
      return;
    const FigureGroup& group = source_.figure.groups[line.group];
    ReferenceEntry entry;
    const bool feeds_circuit = line.group != 0 && line.group != block_.group;
    const PieceId other = line.left.piece == end.piece ? line.right.piece : line.left.piece;
    entry.name = feeds_circuit ? group.id : line.conductor ? line.id : source_.figure.pieces[other].short_name;
    if (feeds_circuit && !source_.figure.pieces[end.piece].on_return) entry.what = group.title;
    entry.target = Reference{std::nullopt, id};
    entry.is_circuit = feeds_circuit;
    auto& entries = references_[{end.piece, end.terminal}];
    if (std::none_of(entries.begin(), entries.end(), [&](const ReferenceEntry& e) { return e.name == entry.name; }))
      entries.push_back(std::move(entry));
  }

  // Returns of many circuits are said in one line; each circuit names its bus where it ends.
  void gather_returns(PieceId piece, std::vector<ReferenceEntry>& entries) const {
    const auto circuits =
        std::count_if(entries.begin(), entries.end(), [](const ReferenceEntry& e) { return e.is_circuit; });
    if (!source_.figure.pieces[piece].on_return || circuits <= 3) return;
    entries.erase(std::remove_if(entries.begin(), entries.end(), [](const ReferenceEntry& e) { return e.is_circuit; }),
                  entries.end());
    entries.push_back({"", fmt::format("returns of {} circuits", circuits), std::nullopt, false});
  }

  std::size_t add_box(MeasuredBox made) {
    block_.boxes.push_back(std::move(made.box));
    block_.graph.boxes.push_back(std::move(made.size));
    return block_.boxes.size() - 1;
  }

  // The box and port of an edge's end at a piece are set when the piece is.
  void add_edge(std::optional<LineId> line, std::optional<std::size_t> from, std::optional<std::size_t> to) {
    LayoutEdge edge;
    edge.from = from.value_or(0);
    edge.to = to.value_or(0);
    block_.graph.edges.push_back(edge);
    block_.line_of_edge.push_back(line);
  }

  bool stands_here(const LineEnd& end, bool repeated) const { return is_here(end.piece) && !repeated; }

  void add_line(LineId id) {
    const FigureLine& line = source_.figure.lines[id];
    const bool to_itself = line.left.piece == line.right.piece;
    const bool left_here = stands_here(line.left, line.left_repeated);
    const bool right_here = stands_here(line.right, line.right_repeated || to_itself);
    const std::size_t edge = block_.graph.edges.size();
    if (left_here && right_here) {
      add_edge(id, {}, {});
      meetings_[{line.left.piece, line.left.terminal}].push_back({edge, false});
      meetings_[{line.right.piece, line.right.terminal}].push_back({edge, true});
      return;
    }
    // A repeated piece stands on the side where its line can come to the other end without turning back.
    const LineEnd& here = left_here ? line.left : line.right;
    const LineEnd& there = left_here ? line.right : line.left;
    const TerminalSide side = side_of(source_.figure.pieces[here.piece], here.terminal);
    const bool at_left = side == TerminalSide::left || (side == TerminalSide::either && !left_here);
    const std::size_t repeated = add_box(measure_repeated(source_, there.piece, there.terminal, at_left));
    if (at_left)
      add_edge(id, repeated, {});
    else
      add_edge(id, {}, repeated);
    meetings_[{here.piece, here.terminal}].push_back({edge, at_left});
  }

  void add_references(PieceId piece, std::size_t terminal, std::vector<ReferenceEntry>& entries) {
    gather_returns(piece, entries);
    std::sort(entries.begin(), entries.end(),
              [](const ReferenceEntry& a, const ReferenceEntry& b) { return natural_less(a.name, b.name); });
    const bool at_left = side_of(source_.figure.pieces[piece], terminal) == TerminalSide::left;
    const std::size_t box = add_box(measure_references(source_, piece, terminal, at_left, entries));
    meetings_[{piece, terminal}].push_back({block_.graph.edges.size(), at_left});
    if (at_left)
      add_edge({}, box, {});
    else
      add_edge({}, {}, box);
  }

  void join(const Meeting& meeting, std::size_t box, std::size_t port) {
    LayoutEdge& edge = block_.graph.edges[meeting.edge];
    (meeting.arrives ? edge.to : edge.from) = box;
    (meeting.arrives ? edge.to_port : edge.from_port) = port;
  }

  void add_piece(PieceId id) {
    const Piece& piece = source_.figure.pieces[id];
    bool from_left = false, to_right = false;
    for (std::size_t t = 0; t < piece.terminals.size(); ++t)
      for (const Meeting& meeting : meetings_[{id, t}]) {
        const TerminalSide side = side_of(piece, t);
        const bool arrives = side == TerminalSide::either ? meeting.arrives : side == TerminalSide::left;
        (arrives ? from_left : to_right) = true;
      }
    const std::size_t box = add_box(measure_piece(source_, id, from_left, to_right));
    for (std::size_t t = 0; t < piece.terminals.size(); ++t) {
      const std::vector<Meeting>& meetings = meetings_[{id, t}];
      if (piece.form == PieceForm::bar) {
        for (const Meeting& meeting : meetings) join(meeting, box, 0);
        continue;
      }
      const TerminalSide side = side_of(piece, t);
      std::vector<Meeting> arriving, leaving;
      for (const Meeting& meeting : meetings) (meeting.arrives ? arriving : leaving).push_back(meeting);
      if (side == TerminalSide::either) {
        lead(id, t, box, arriving, {}, true);
        lead(id, t, box, {}, leaving, false);
      } else {
        lead(id, t, box, arriving, leaving, side == TerminalSide::left);
      }
    }
  }

  // Brings lines to a terminal: one as it is, several (or one that would have to turn back) by a point where they part.
  void lead(PieceId id, std::size_t terminal, std::size_t box, const std::vector<Meeting>& arriving,
            const std::vector<Meeting>& leaving, bool at_left) {
    const std::size_t right_way = at_left ? arriving.size() : leaving.size();
    const std::size_t wrong_way = at_left ? leaving.size() : arriving.size();
    if (right_way + wrong_way == 0) return;
    if (right_way == 1 && wrong_way == 0) return join(at_left ? arriving.front() : leaving.front(), box, terminal);
    BlockBox fan;
    fan.kind = BlockBox::Kind::fan;
    fan.piece = id;
    fan.terminal = terminal;
    LayoutBox size;
    size.is_bar = true;
    size.ports.push_back({});
    size.above = size.below = 0.8;
    const std::size_t at = add_box({fan, size});
    for (const Meeting& meeting : arriving) join(meeting, at, 0);
    for (const Meeting& meeting : leaving) join(meeting, at, 0);
    const std::size_t link = block_.graph.edges.size();
    add_edge({}, at_left ? at : box, at_left ? box : at);
    (at_left ? block_.graph.edges[link].to_port : block_.graph.edges[link].from_port) = terminal;
  }

  void add_tag(std::size_t edge) {
    if (!block_.line_of_edge[edge]) return;
    const FigureLine& line = source_.figure.lines[*block_.line_of_edge[edge]];
    if (!line.conductor) return;
    LayoutEdge& drawn = block_.graph.edges[edge];
    const LineTag tag = tag_of(source_, line, true);
    drawn.tag_width = tag.width;
    drawn.tag_height = tag.height;
    if (line.cable) drawn.bundle = static_cast<int>(line.cable->value);
  }

  const BlockSource& source_;
  const Membership& member_;
  const std::vector<std::vector<LineId>>& lines_of_;
  Block& block_;
  std::vector<LineId> own_lines_;
  std::map<End, std::vector<Meeting>> meetings_;
  std::map<End, std::vector<ReferenceEntry>> references_;
};

}  // namespace

void make_graph(const BlockSource& source, const Membership& member, const std::vector<std::vector<LineId>>& lines_of,
                Block& block) {
  GraphMaker(source, member, lines_of, block).run();
}

}  // namespace loomleaf
