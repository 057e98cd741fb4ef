// What an item is, from its statement's properties.
#pragma once

#include "draft.h"

namespace loomleaf {

// Figures that are missing or contradict each other are complained of, and stand as zero or absent.
ItemData read_item_data(Draft& draft, const Statement& statement);

bool declares_item(Keyword keyword);

}  // namespace loomleaf
