// Conductors and `on` joints as lines, and which of their ends stand at a repeated piece.
#include <algorithm>
#include <map>

#include "loomleaf/units/format.h"
#include "parts.h"

namespace loomleaf {
namespace {

// A core without a colour is known by its number.
std::string code_of_line(const Conductor& conductor, const Run& run) {
  if (conductor.colour) return code_of(*conductor.colour);
  return run.is_cable && conductor.id.size() > run.id.size() ? conductor.id.substr(run.id.size() + 1) : "";
}

std::string details_of(const FigureMaking& making, ConductorId id) {
  const Conductor& conductor = making.plan.conductors[id];
  const Run& run = making.plan.runs[conductor.run];
  if (!run.conductors.empty() && run.conductors.front() != id) return "";
  std::vector<std::string> words;
  if (run.size) words.push_back(to_text(*run.size));
  if (!run.size && run.auto_size) words.push_back("auto");
  if (conductor.run.value < making.routes.runs.size())
    words.push_back(to_text(making.routes.runs[conductor.run].length));
  if (run.bond) words.push_back("bond");
  if (run.signal) words.push_back("signal");
  if (run.later) words.push_back("later");
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : " ") + word;
  return text;
}

}  // namespace

void make_lines(FigureMaking& making) {
  const Plan& plan = making.plan;
  std::vector<ConductorId> conductors;
  for (ConductorId id : plan.conductors.ids()) conductors.push_back(id);
  // Cores keep the order they have in their cable.
  std::stable_sort(conductors.begin(), conductors.end(), [&](ConductorId a, ConductorId b) {
    return natural_less(plan.runs[plan.conductors[a].run].id, plan.runs[plan.conductors[b].run].id);
  });
  for (ConductorId id : conductors) {
    const Conductor& conductor = plan.conductors[id];
    const Run& run = plan.runs[conductor.run];
    FigureLine line;
    line.conductor = id;
    line.left = making.end_of[conductor.from];
    line.right = making.end_of[conductor.to];
    line.id = conductor.id;
    line.name = run.id;
    line.code = code_of_line(conductor, run);
    line.details = details_of(making, id);
    if (run.is_cable) line.cable = conductor.run;
    line.later = run.later;
    making.figure.lines.add(std::move(line));
  }
  for (PieceId piece : making.figure.pieces.ids())
    for (std::size_t i = 0; i < making.figure.pieces[piece].terminals.size(); ++i) {
      const auto terminal = making.figure.pieces[piece].terminals[i].terminal;
      const Item& item = plan.items[making.figure.pieces[piece].item];
      if (!terminal || item.on_terminal != terminal || !item.on) continue;
      FigureLine line;
      line.left = making.end_of[*item.on];
      line.right = {piece, i};
      line.later = item.later;
      making.figure.lines.add(std::move(line));
    }
  for (const FigureLine& line : making.figure.lines)
    for (PieceId piece : {line.left.piece, line.right.piece}) ++making.figure.pieces[piece].lines;
}

namespace {

// The node of a line's end.
NodeId node_of(const FigureMaking& making, const LineEnd& end) {
  return making.circuit.node_of[*making.figure.pieces[end.piece].terminals[end.terminal].terminal];
}

}  // namespace

// Returns end at a short labelled piece of their bus, so that no lines run home across the sheet: all but those by
// which the bus itself hangs together with its supply and with further buses. Metalwork is repeated everywhere.
void choose_repeats(FigureMaking& making) {
  WiringFigure& figure = making.figure;
  std::map<std::pair<PieceId, std::size_t>, int> at_source;  // return lines that a source's terminal keeps
  auto repeats = [&](LineId id, const LineEnd& end, const LineEnd& other) {
    const Piece& far = figure.pieces[other.piece];
    const Item& item = making.plan.items[figure.pieces[end.piece].item];
    if (item.is<Chassis>()) return true;
    if (making.plan.items[far.item].is<Chassis>()) return false;
    const NodeId node = node_of(making, end);
    if (is_feed_node(making, node) || !is_return_node(making, node)) return false;
    if (item.is<Bus>()) return !far.on_return && making.return_line[end.piece] != id;
    return item.is<Source>() && !far.on_return && at_source[{end.piece, end.terminal}]++ > 0;
  };
  for (LineId id : figure.lines.ids()) {
    FigureLine& line = figure.lines[id];
    line.left_repeated = repeats(id, line.left, line.right);
    line.right_repeated = !line.left_repeated && repeats(id, line.right, line.left);
  }
  for (const FigureLine& line : figure.lines) {
    if (line.left_repeated) figure.pieces[line.left.piece].repeats = true;
    if (line.right_repeated) figure.pieces[line.right.piece].repeats = true;
  }
}

}  // namespace loomleaf
