// Final circuits as groups; the first group holds what serves several of them or none.
#include <algorithm>
#include <optional>
#include <set>

#include "parts.h"

namespace loomleaf {

namespace {

// What stands in a group whatever else it touches, and which conductors serve it alone.
struct Found {
  FigureGroup group;
  std::vector<ItemId> items;
  std::vector<ConductorId> conductors;
};

FigureGroup group_named_after(const Item& item) { return {item.id, item.description, false}; }

// The final device, the loads, converters and chargers.
Found found_circuit(const FigureMaking& making, const FinalCircuit& circuit) {
  const Plan& plan = making.plan;
  Found found{group_named_after(plan.items[circuit.device]), {circuit.device}, {}};
  found.items.insert(found.items.end(), circuit.loads.begin(), circuit.loads.end());
  found.group.charges = circuit.loads.empty();
  for (ItemId other : circuit.others) {
    if (!plan.items[other].is<Relay>()) found.items.push_back(other);
    found.group.charges = found.group.charges && plan.items[other].is<Source>();
  }
  for (BranchId branch : circuit.branches)
    if (const auto conductor = making.circuit.branches[branch].conductor) found.conductors.push_back(*conductor);
  return found;
}

// The device before a converter, along a run that serves it alone.
std::optional<ItemId> device_before(const Circuit& circuit, NodeId at) {
  std::optional<BranchId> from;
  for (std::size_t steps = 0; steps < circuit.branches.size(); ++steps) {
    if (circuit.at[at].size() > 2) return std::nullopt;
    const auto next =
        std::find_if(circuit.at[at].begin(), circuit.at[at].end(), [&](BranchId id) { return id != from; });
    if (next == circuit.at[at].end()) return std::nullopt;
    const Branch& branch = circuit.branches[*next];
    if (branch.kind == BranchKind::device) return branch.item;
    from = *next;
    at = branch.a == at ? branch.b : branch.a;
  }
  return std::nullopt;
}

// A converter behind which there are devices of their own is a group with the device before it and its own wires.
Found found_converter(const FigureMaking& making, const ConverterPorts& ports) {
  const auto device = device_before(making.circuit, ports.in_plus);
  Found found{group_named_after(making.plan.items[device.value_or(ports.item)]), {ports.item}, {}};
  if (device) found.items.push_back(*device);
  for (ConductorId id : making.plan.conductors.ids()) {
    const Conductor& conductor = making.plan.conductors[id];
    for (TerminalId end : {conductor.from, conductor.to})
      if (making.plan.terminals[end].item == ports.item) found.conductors.push_back(id);
  }
  return found;
}

}  // namespace

void find_groups(FigureMaking& making) {
  const Plan& plan = making.plan;
  std::vector<Found> all;
  std::set<ItemId> placed;
  for (const FinalCircuit& circuit : making.study.circuits) {
    if (circuit.loads.empty() && circuit.others.empty()) continue;
    all.push_back(found_circuit(making, circuit));
    placed.insert(all.back().items.begin(), all.back().items.end());
  }
  for (const ConverterPorts& ports : making.circuit.converters)
    if (placed.count(ports.item) == 0) all.push_back(found_converter(making, ports));
  std::stable_sort(all.begin(), all.end(), [](const Found& a, const Found& b) {
    if (a.group.charges != b.group.charges) return a.group.charges;
    return natural_less(a.group.id, b.group.id);
  });
  making.figure.groups.push_back({"", "Distribution", false});
  making.circuit_of = IndexedList<ConductorOf, std::size_t>(plan.conductors.size(), std::size_t{0});
  making.group_of_item = IndexedList<ItemOf, std::size_t>(plan.items.size(), std::size_t{0});
  for (Found& found : all) {
    const std::size_t group = making.figure.groups.size();
    making.figure.groups.push_back(std::move(found.group));
    for (ItemId item : found.items)
      if (making.group_of_item[item] == 0) making.group_of_item[item] = group;
    for (ConductorId conductor : found.conductors)
      if (making.circuit_of[conductor] == 0) making.circuit_of[conductor] = group;
  }
}

namespace {

// A line between groups is drawn with the circuit, of two circuits with the one further out.
void draw_in(WiringFigure& figure) {
  for (FigureLine& line : figure.lines) {
    const std::size_t left = figure.pieces[line.left.piece].group, right = figure.pieces[line.right.piece].group;
    line.group = right != 0 ? right : left;
  }
}

// What serves several circuits in name alone goes to the one circuit that it belongs to: a single circuit's battery; a
// bus that a circuit's converter feeds; a pole or joint by which the return of one circuit goes home. False: none did.
bool join_groups_of_neighbours(FigureMaking& making) {
  WiringFigure& figure = making.figure;
  struct Met {
    std::set<std::size_t> groups, arriving;
    int shared = 0;
  };
  IndexedList<PieceOf, Met> met(figure.pieces.size());
  for (const FigureLine& line : figure.lines) {
    met[line.right.piece].arriving.insert(line.group);
    for (PieceId piece : {line.left.piece, line.right.piece})
      line.group == 0 ? void(++met[piece].shared) : void(met[piece].groups.insert(line.group));
  }
  bool moved = false;
  for (PieceId id : figure.pieces.ids()) {
    Piece& piece = figure.pieces[id];
    const Met& m = met[id];
    if (piece.group != 0 || m.groups.empty()) continue;
    const Item& item = making.plan.items[piece.item];
    const bool goes_home = piece.on_return && m.groups.size() == 1 && m.shared == 1 && !item.is<Bus>();
    const bool fed_by_one = m.arriving.size() == 1 && *m.arriving.begin() != 0 && !item.is<Source>();
    if (!(m.groups.size() == 1 && m.shared == 0) && !goes_home && !fed_by_one) continue;
    piece.group = fed_by_one ? *m.arriving.begin() : *m.groups.begin();
    moved = true;
  }
  return moved;
}

}  // namespace

void assign_groups(FigureMaking& making) {
  WiringFigure& figure = making.figure;
  const auto& by_item = making.group_of_item;
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
    if (by_item[piece.item] > 0)
      piece.group = by_item[piece.item];
    else if (met[id] != none)
      piece.group = met[id];
  }
  // What only signals, bonds or `on` join goes where its first neighbour is.
  for (const FigureLine& line : figure.lines) {
    Piece& left = figure.pieces[line.left.piece];
    Piece& right = figure.pieces[line.right.piece];
    if (right.group == 0 && met[line.right.piece] == none && by_item[right.item] == 0 && line.conductor)
      right.group = left.group;
    else if (left.group == 0 && met[line.left.piece] == none && by_item[left.item] == 0 && line.conductor)
      left.group = right.group;
  }
  draw_in(figure);
  while (join_groups_of_neighbours(making)) draw_in(figure);
}

}  // namespace loomleaf
