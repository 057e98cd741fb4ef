// What an item is, from its statement's properties.
#pragma once

#include "loomleaf/language/statement.h"
#include "loomleaf/plan/item.h"

namespace loomleaf {

// Figures that are missing stand as zero or absent; the language complains of those that must be there.
ItemData read_item_data(const Statement& statement);

bool declares_item(Keyword keyword);

}  // namespace loomleaf
