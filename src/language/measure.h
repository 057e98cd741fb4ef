// Numbers with their units.
#pragma once

#include <optional>
#include <string>

#include "cursor.h"
#include "loomleaf/language/words.h"

namespace loomleaf {

// A number with its unit, in the dimension's base unit (V, A, ..., m, C, h; a share as 0.03; an AWG or SAE size as the
// gauge number of WireSize).
struct Measure {
  double value = 0.0;
  Dimension dimension = Dimension::none;
  std::optional<int> count;  // the 2 of 2x1.5 mm2
  Span span;
};

// At a number: reads it and its unit, feet and inches together. A number that cannot be read, or a unit that is not
// known, is a complaint and gives nothing; without any unit the dimension is `none`, without a complaint.
std::optional<Measure> read_measure(Cursor& cursor);

// At a number: it alone. A decimal comma is a complaint, and read as the point that it means.
std::optional<double> read_number(Cursor& cursor);
std::optional<int> read_whole(Cursor& cursor);

// What a number here would measure, without reading it.
Dimension dimension_ahead(const Cursor& cursor);

// The size that a value in one of the dimensions of wire sizes stands for.
WireSize size_of(double value, Dimension dimension);

// "0.25 A", as a person writes it.
std::string written(double value, Dimension dimension);

}  // namespace loomleaf
