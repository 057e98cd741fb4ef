// What the wiring diagram shows, before anything has a place on paper: pieces with terminals, the wires between them,
// the circuits they belong to, and what each text says.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "loomleaf/circuit/circuit.h"
#include "loomleaf/figure/load_words.h"
#include "loomleaf/plan/plan.h"
#include "loomleaf/route/route.h"
#include "loomleaf/study/study.h"

namespace loomleaf {

using PieceId = Index<struct PieceOf>;
using LineId = Index<struct LineOf>;

// How a piece meets its lines.
enum class PieceForm {
  across,    // hangs between two rails, + above -: source, load, coil; a rail runs through it to either side
  along,     // sits in one rail, or in several beside each other: device, one-way switch, shunt, connector
  through,   // takes two rails in and gives two out: dimmer, converter
  selector,  // one rail in, several out: changeover, relay contact
  bar,       // one node, each line with a tap of its own: splice, bus, chassis, tail, further terminal
};

// Where lines can come to a terminal, as the symbol is drawn unturned.
enum class TerminalSide { left, right, either };

struct PieceTerminal {
  std::optional<TerminalId> terminal;  // absent: joins nothing in this plan
  std::string port;                    // the symbol's name for it: "+", "in", "out1"
  std::string mark;                    // printed beside it; empty: the symbol says it
  TerminalSide side = TerminalSide::either;
  int row = 0;  // rail it lies on, from the top
};

struct FigureText {
  std::string text;
  bool large = false;  // IDs and ratings
};

// An item, or a part of one that is drawn by itself: some poles of a connector, a pole of a switch, a relay's coil.
struct Piece {
  ItemId item;
  PieceForm form = PieceForm::bar;
  std::string symbol;                    // of templates/symbols/
  std::vector<PieceTerminal> terminals;  // a bar has one
  std::vector<FigureText> texts;         // the first names it
  std::string short_name;                // "NB", "S1 pole 2"
  std::size_t group = 0;
  std::size_t order = 0;   // from the supplies outwards, each its own
  bool on_return = false;  // reached from a supply's - alone
  bool turned = false;     // drawn mirrored, so that its lines come from the left
  bool repeats = false;    // a short labelled piece of it stands wherever a line to it ends
  bool later = false;
  std::size_t lines = 0;  // that meet it
};

// A line of the drawing: a conductor, or items joined without wire.
struct LineEnd {
  PieceId piece;
  std::size_t terminal = 0;
};
struct FigureLine {
  std::optional<ConductorId> conductor;  // absent: `on`
  LineEnd left, right;                   // `left` comes first in the order of pieces
  bool left_repeated = false;            // the line begins at a repeated piece of it
  bool right_repeated = false;
  std::string id;       // "C1.red"; empty for `on`
  std::string name;     // of its wire or cable: "C1"
  std::string code;     // which core it is, or its colour: "RD"
  std::string details;  // "16 AWG 2.7 m"; a cable's first core says it for all
  std::optional<RunId> cable;
  std::size_t group = 0;  // where it is drawn
  bool later = false;
};

struct FigureGroup {
  std::string id, title;  // "F1", "Reading lamps"; the first group holds what serves several circuits
  bool charges = false;   // a limited source alone; these follow the first group
};

struct WiringFigure {
  IndexedList<PieceOf, Piece> pieces;     // by ID, whatever the order of statements
  IndexedList<LineOf, FigureLine> lines;  // by ID, then the ones without
  std::vector<FigureGroup> groups;
};

WiringFigure make_figure(const Plan& plan, const Routes& routes, const Circuit& circuit, const Study& study,
                   const LoadWords& words);

// IDs in the order a reader expects: W2 before W10.
bool natural_less(const std::string& a, const std::string& b);

}  // namespace loomleaf
