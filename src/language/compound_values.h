// Values of more than one figure.
#pragma once

#include <optional>

#include "cursor.h"
#include "loomleaf/language/statement.h"
#include "loomleaf/language/words.h"

namespace loomleaf {

// Each reads what stands behind `word`; nothing, with a complaint that offers the row's example, where it cannot.
std::optional<Position> read_position(Cursor& cursor, Span word, const PropertyRow& row);    // ROOF 0.3 m every 0.8 m
std::optional<SizeRange> read_sizes(Cursor& cursor, Span word, const PropertyRow& row);      // 0.2..4 mm2, 22..12 AWG
std::optional<PoleRating> read_pole(Cursor& cursor, Span word, const PropertyRow& row);      // 9 20 A
std::optional<Drawn> read_drawn(Cursor& cursor, Span word, const PropertyRow& row);          // open, way 2
std::optional<Surge> read_surge(Cursor& cursor, Span word, const PropertyRow& row);          // 6x 0.5 s
std::optional<TailLeads> read_tails(Cursor& cursor, Span word, const PropertyRow& row);      // 18 AWG 150 mm
std::optional<Rectangle> read_rectangle(Cursor& cursor, Span word, const PropertyRow& row);  // 45 x 22 mm

// A length, or a complaint about what else stands there. `word` is what it belongs to.
std::optional<Length> read_length(Cursor& cursor, std::string_view word, double least_m, double most_m);

void complain_no_colour(Cursor& cursor, const Token& word);

}  // namespace loomleaf
