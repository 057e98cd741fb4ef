// What stands behind a property's word.
#pragma once

#include <optional>

#include "cursor.h"
#include "loomleaf/language/statement.h"
#include "loomleaf/language/words.h"
#include "measure.h"

namespace loomleaf {

// Reads the value of a property whose word has just been taken (at `word`). `rows` are the meanings that the word has
// on this statement: the unit decides between them, and `row` becomes the one that fits. Nothing, with a complaint,
// where no value can be read.
std::optional<PropertyValue> read_value(Cursor& cursor, const std::vector<const PropertyRow*>& rows, Span word,
                                        const PropertyRow*& row);

// A measure as the value of a property, after a look at what the property can be.
std::optional<PropertyValue> value_of(Cursor& cursor, const Measure& measure, const PropertyRow& row);

// red, red/white; nothing, without a complaint, where the word is no colour.
std::optional<WireColour> colour_of(std::string_view word);

}  // namespace loomleaf
