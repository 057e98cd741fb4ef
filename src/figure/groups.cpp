// Final circuits as groups; the first group holds what serves several of them or none.
#include <algorithm>

#include "parts.h"

namespace loomleaf {

void find_groups(FigureMaking& making) {
  const Plan& plan = making.plan;
  std::vector<const FinalCircuit*> circuits;
  for (const FinalCircuit& circuit : making.study.circuits)
    if (!circuit.loads.empty()) circuits.push_back(&circuit);
  std::sort(circuits.begin(), circuits.end(), [&](const FinalCircuit* a, const FinalCircuit* b) {
    return natural_less(plan.items[a->device].id, plan.items[b->device].id);
  });
  making.figure.groups.push_back({"", "Distribution"});
  making.circuit_of = IndexedList<ConductorOf, std::size_t>(plan.conductors.size(), std::size_t{0});
  for (const FinalCircuit* circuit : circuits) {
    const Item& device = plan.items[circuit->device];
    making.figure.groups.push_back({device.id, device.description});
    for (BranchId branch : circuit->branches)
      if (const auto conductor = making.circuit.branches[branch].conductor;
          conductor && making.circuit_of[*conductor] == 0)
        making.circuit_of[*conductor] = making.figure.groups.size() - 1;
  }
}

namespace {

// The final device or the loads of a circuit stand in its group whatever else they touch.
std::vector<std::size_t> groups_by_item(const FigureMaking& making) {
  std::vector<std::size_t> group(making.plan.items.size(), 0);
  for (const FinalCircuit& circuit : making.study.circuits) {
    const std::string& id = making.plan.items[circuit.device].id;
    const auto found = std::find_if(making.figure.groups.begin() + 1, making.figure.groups.end(),
                                    [&](const FigureGroup& g) { return g.id == id; });
    if (found == making.figure.groups.end()) continue;
    const auto index = static_cast<std::size_t>(found - making.figure.groups.begin());
    group[circuit.device.value] = index;
    for (ItemId load : circuit.loads)
      if (group[load.value] == 0 || index < group[load.value]) group[load.value] = index;
  }
  return group;
}

// A line between groups is drawn with the circuit, of two circuits with the one further out.
void draw_in(WiringFigure& figure) {
  for (FigureLine& line : figure.lines) {
    const std::size_t left = figure.pieces[line.left.piece].group, right = figure.pieces[line.right.piece].group;
    line.group = right != 0 ? right : left;
  }
}

}  // namespace

void assign_groups(FigureMaking& making) {
  WiringFigure& figure = making.figure;
  const std::vector<std::size_t> by_item = groups_by_item(making);
  constexpr std::size_t none = static_cast<std::size_t>(-1);
  IndexedList<PieceOf, std::size_t> met(figure.pieces.size(), none);
  for (const FigureLine& line : figure.lines) {
    if (!line.conductor) continue;
    const Run& run = making.plan.runs[making.plan.conductors[*line.conductor].run];
    if (run.signal || run.bond) continue;
    const std::size_t circuit = making.circuit_of[*line.conductor];
    for (PieceId piece : {line.left.piece, line.right.piece})
      met[piece] = met[piece] == none || met[piece] == circuit ? circuit : 0;
  }
  for (PieceId id : figure.pieces.ids()) {
    Piece& piece = figure.pieces[id];
    if (by_item[piece.item.value] > 0)
      piece.group = by_item[piece.item.value];
    else if (met[id] != none)
      piece.group = met[id];
  }
  // What only signals, bonds or `on` join goes where its first neighbour is.
  for (const FigureLine& line : figure.lines) {
    Piece& left = figure.pieces[line.left.piece];
    Piece& right = figure.pieces[line.right.piece];
    if (right.group == 0 && met[line.right.piece] == none && by_item[right.item.value] == 0 && line.conductor)
      right.group = left.group;
    else if (left.group == 0 && met[line.left.piece] == none && by_item[left.item.value] == 0 && line.conductor)
      left.group = right.group;
  }
  draw_in(figure);
  // What serves several circuits in name alone (a single circuit's battery) stands with that circuit.
  for (bool moved = true; moved;) {
    moved = false;
    IndexedList<PieceOf, std::optional<std::size_t>> all(figure.pieces.size());
    for (const FigureLine& line : figure.lines)
      for (PieceId piece : {line.left.piece, line.right.piece}) {
        if (!all[piece])
          all[piece] = line.group;
        else if (*all[piece] != line.group)
          all[piece] = 0;
      }
    for (PieceId id : figure.pieces.ids())
      if (figure.pieces[id].group == 0 && all[id].value_or(0) > 0) {
        figure.pieces[id].group = *all[id];
        moved = true;
      }
    if (moved) draw_in(figure);
  }
}

}  // namespace loomleaf
