// The order of pieces from the supplies outwards, by which lines run from left to right.
#include <algorithm>
#include <deque>

#include "parts.h"

namespace loomleaf {
namespace {

constexpr double unmet = -1.0;
constexpr double after_batteries = 1e-6;  // and before all else

class Ranking {
 public:
  explicit Ranking(FigureMaking& making)
      : making_(making),
        rank_(making.figure.pieces.size(), unmet),
        met_by_(making.figure.pieces.size()),
        lines_(making.figure.pieces.size()) {
    making.return_line = IndexedList<PieceOf, std::optional<LineId>>(making.figure.pieces.size());
    for (LineId id : making_.figure.lines.ids()) {
      const FigureLine& line = making_.figure.lines[id];
      lines_[line.left.piece].push_back(id);
      if (line.right.piece != line.left.piece) lines_[line.right.piece].push_back(id);
    }
  }

  // Feed first, from the supplies' +; then what only a return reaches, close behind the supply (or the dimmer,
  // converter or pole) it hangs on; then the rest, from what is known outwards.
  void run() {
    const auto feeds = [&](const FigureLine& line) { return is_feed(line.left) || is_feed(line.right); };
    std::deque<PieceId> reached, limited;
    for (PieceId id : making_.figure.pieces.ids())
      if (is_source(id)) is_battery(id) ? meet(id, 0.0, reached) : follow_chain(id, limited);
    spread(reached, 1.0, feeds);
    spread(limited, 1.0, feeds);
    spread_returns();
    for (PieceId id : making_.figure.pieces.ids())
      if (rank_[id] != unmet) reached.push_back(id);
    sort_by_rank(reached);
    spread(reached, 1.0, [](const FigureLine&) { return true; });
    double beyond = static_cast<double>(rank_.size());
    for (PieceId id : making_.figure.pieces.ids()) {
      if (rank_[id] != unmet) continue;
      meet(id, beyond, reached);
      spread(reached, 1.0, [](const FigureLine&) { return true; });
    }
    number();
  }

 private:
  // Not one of an item's further terminals.
  bool is_main(PieceId id) const { return making_.figure.pieces[id].form != PieceForm::bar; }

  bool is_source(PieceId id) const {
    return is_main(id) && making_.plan.items[making_.figure.pieces[id].item].is<Source>();
  }

  bool is_battery(PieceId id) const {
    return !making_.plan.items[making_.figure.pieces[id].item].as<Source>()->is_limited();
  }

  // What a charger feeds through alone, up to the first joint, stands to the left with it.
  void follow_chain(PieceId source, std::deque<PieceId>& reached) {
    meet(source, after_batteries, reached);
    for (std::optional<PieceId> at = source; at;) {
      std::optional<PieceId> next;
      for (LineId id : lines_[*at]) {
        const FigureLine& line = making_.figure.lines[id];
        const PieceId other = line.left.piece == *at ? line.right.piece : line.left.piece;
        const bool goes_on = making_.figure.pieces[other].form == PieceForm::along && lines_[other].size() == 2;
        if (rank_[other] == unmet && goes_on && (is_feed(line.left) || is_feed(line.right))) next = other;
      }
      if (next) meet(*next, rank_[*at] + after_batteries, reached);
      at = next;
    }
  }

  NodeId node(const LineEnd& end) const {
    return making_.circuit.node_of[*making_.figure.pieces[end.piece].terminals[end.terminal].terminal];
  }
  bool is_feed(const LineEnd& end) const { return is_feed_node(making_, node(end)); }

  void meet(PieceId id, double rank, std::deque<PieceId>& reached) {
    rank_[id] = rank;
    reached.push_back(id);
  }

  template <class Passes>
  void spread(std::deque<PieceId>& reached, double step, Passes passes) {
    while (!reached.empty()) {
      const PieceId at = reached.front();
      reached.pop_front();
      for (LineId id : lines_[at]) {
        const FigureLine& line = making_.figure.lines[id];
        if (!passes(line)) continue;
        const PieceId other = line.left.piece == at ? line.right.piece : line.left.piece;
        if (rank_[other] != unmet) continue;
        meet(other, rank_[at] + step, reached);
        met_by_[other] = id;
      }
    }
  }

  void sort_by_rank(std::deque<PieceId>& pieces) const {
    std::stable_sort(pieces.begin(), pieces.end(), [&](PieceId a, PieceId b) { return rank_[a] < rank_[b]; });
  }

  void spread_returns() {
    std::deque<PieceId> roots;
    for (PieceId id : making_.figure.pieces.ids()) {
      const PieceForm form = making_.figure.pieces[id].form;
      const bool passes_returns = form == PieceForm::through || form == PieceForm::along || is_source(id);
      if (rank_[id] != unmet && passes_returns) roots.push_back(id);
    }
    sort_by_rank(roots);
    std::vector<PieceId> before;
    for (PieceId root : roots) {
      std::deque<PieceId> reached{root};
      const std::vector<double> known(rank_.begin(), rank_.end());
      spread(reached, 0.001,
             [&](const FigureLine& line) { return !is_feed(line.left) && is_return_node(making_, node(line.left)); });
      for (PieceId id : making_.figure.pieces.ids())
        if (known[id.value] == unmet && rank_[id] != unmet) {
          making_.figure.pieces[id].on_return = true;
          making_.return_line[id] = met_by_[id];
        }
    }
  }

  void number() {
    std::deque<PieceId> all;
    for (PieceId id : making_.figure.pieces.ids()) all.push_back(id);
    sort_by_rank(all);
    for (std::size_t i = 0; i < all.size(); ++i) making_.figure.pieces[all[i]].order = i;
  }

  FigureMaking& making_;
  IndexedList<PieceOf, double> rank_;
  IndexedList<PieceOf, LineId> met_by_;
  IndexedList<PieceOf, std::vector<LineId>> lines_;
};

// A symbol whose lines mostly come from the wrong side is drawn mirrored.
void turn_symbols(WiringFigure& figure) {
  IndexedList<PieceOf, int> votes(figure.pieces.size(), 0);
  for (const FigureLine& line : figure.lines) {
    const Piece& left = figure.pieces[line.left.piece];
    const Piece& right = figure.pieces[line.right.piece];
    const TerminalSide leaves = left.terminals[line.left.terminal].side;
    const TerminalSide arrives = right.terminals[line.right.terminal].side;
    votes[line.left.piece] += leaves == TerminalSide::right ? 1 : leaves == TerminalSide::left ? -1 : 0;
    votes[line.right.piece] += arrives == TerminalSide::left ? 1 : arrives == TerminalSide::right ? -1 : 0;
  }
  for (PieceId id : figure.pieces.ids()) figure.pieces[id].turned = votes[id] < 0;
}

}  // namespace

void order_pieces(FigureMaking& making) {
  Ranking(making).run();
  WiringFigure& figure = making.figure;
  for (FigureLine& line : figure.lines)
    if (figure.pieces[line.right.piece].order < figure.pieces[line.left.piece].order) std::swap(line.left, line.right);
  turn_symbols(figure);
}

}  // namespace loomleaf
