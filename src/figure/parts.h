// The steps in which a figure is made.
#pragma once

#include "loomleaf/figure/figure.h"

namespace loomleaf {

// What each step reads and adds to.
struct FigureMaking {
  const Plan& plan;
  const Routes& routes;
  const Circuit& circuit;
  const Study& study;
  const LoadWords& words;
  WiringFigure figure;
  IndexedList<TerminalOf, LineEnd> end_of;                  // where each terminal is drawn
  IndexedList<PieceOf, std::optional<LineId>> return_line;  // by which a piece on the return side hangs on its supply
  IndexedList<ConductorOf, std::size_t> circuit_of;         // group each conductor serves alone; 0: none
  IndexedList<ItemOf, std::size_t> group_of_item;           // group an item stands in whatever it touches; 0: none
};

// One group for each final circuit, and which conductors serve one alone.
void find_groups(FigureMaking& making);
// Pieces with their terminals, by ID; fills `end_of`.
void make_pieces(FigureMaking& making);
// What stands beside each piece.
void write_texts(FigureMaking& making);
// Lines between them, by ID; which end is the left one is not decided yet.
void make_lines(FigureMaking& making);
// The order from the supplies outwards; turns lines and symbols to match.
void order_pieces(FigureMaking& making);
// Which group each piece and line belongs to.
void assign_groups(FigureMaking& making);
// Which lines begin or end at a repeated piece.
void choose_repeats(FigureMaking& making);

// Whether a supply's + (its -) reaches this node in some standing of the changeovers.
bool is_feed_node(const FigureMaking& making, NodeId node);
bool is_return_node(const FigureMaking& making, NodeId node);

}  // namespace loomleaf
