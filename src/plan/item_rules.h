// What an item's statement must say, may not say, and may say only once in two forms.
#pragma once

#include "draft.h"

namespace loomleaf {

// Complains of what is missing or contradicts itself.
void check_item(Draft& draft, const Statement& statement, const ItemData& data);

}  // namespace loomleaf
